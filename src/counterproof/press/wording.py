"""The sentences that every surface prints, so that terminal and sheet say the same thing."""

from __future__ import annotations

from counterproof import numerals
from counterproof.marks import Mark
from counterproof.numerals import SPACE, Shown, shown
from counterproof.press.plain_text import printable
from counterproof.proof import Edition, TaskProof, TimeProof

_PER_NAMES = {
    "kg": "per kg",
    "litre": "per litre",
    "1000_kcal": f"per 1000{SPACE}kcal",
    "100_g_protein": f"per 100{SPACE}g of protein",
}


def title(edition: Edition) -> str:
    """Return the recipe's title with its version.

    Parameters
    ----------
    edition : Edition
        What is shown.

    Returns
    -------
    str
        One line.
    """
    name = printable(edition.title)
    return f"{name}, {printable(edition.version)}" if edition.version else name


def sentence(*phrases: str) -> str:
    """Return phrases as one sentence, with its capital and its full stop.

    Parameters
    ----------
    *phrases : str
        Parts; empty ones are left out.

    Returns
    -------
    str
        A sentence, or nothing.
    """
    told = "; ".join(phrase for phrase in phrases if phrase)
    return f"{told[:1].upper()}{told[1:]}." if told else ""


def yield_(edition: Edition) -> str:
    """Return what the recipe gives and how large a serving is.

    Parameters
    ----------
    edition : Edition
        What is shown.

    Returns
    -------
    str
        One phrase, without a full stop; empty where there is nothing to say.
    """
    parts = [f"serves {numerals.count(edition.serves)}"]
    size = serving_size(edition)
    parts.append(f"{edition.serving_name} is {size}" if size else edition.serving_name)
    return "; ".join(parts)


def serving_size(edition: Edition) -> str:
    """Return the serving's mass and volume, as far as they are known.

    Parameters
    ----------
    edition : Edition
        What is shown.

    Returns
    -------
    str
        One phrase, without a full stop; empty where there is nothing to say.
    """
    sizes = []
    if edition.serving_mass_kg is not None:
        sizes.append(numerals.plain_mass(edition.serving_mass_kg))
    if edition.serving_litres is not None:
        sizes.append(numerals.plain_volume(edition.serving_litres))
    return ", ".join(sizes)


def time_phrases(timeline: TimeProof) -> list[str]:
    """Return how long a recipe takes, in phrases.

    Parameters
    ----------
    timeline : TimeProof
        Its time.

    Returns
    -------
    list[str]
        Phrases for one sentence.
    """
    return [
        f"{timeline.total} in all",
        f"hands-on {timeline.hands_on}",
        f"waiting {timeline.waiting}",
    ]


def task_words(task: TaskProof) -> str:
    """Return what a task is, as the bar's name says it to a reader who cannot see it.

    Parameters
    ----------
    task : TaskProof
        A task.

    Returns
    -------
    str
        One phrase, without a full stop.
    """
    kind = "hands-on" if task.hands_on else "waiting"
    return f"{printable(task.does)}, {kind}, {task.says}"


TIME_RULE = (
    "One thing after the other as written; beside each other only where the words say so. "
    "Times that the recipe does not state are modelled or assumed."
)


def all_marks(edition: Edition) -> list[Mark]:
    """Return every mark of the proof.

    Parameters
    ----------
    edition : Edition
        What is shown.

    Returns
    -------
    list[Mark]
        The recipe's own first, then those of lines and steps.
    """
    beside_lines = [mark for line in edition.lines for mark in line.marks]
    beside_steps = [mark for step in edition.steps for mark in step.marks]
    return [*edition.marks, *beside_lines, *beside_steps]


def attention(edition: Edition) -> str:
    """Return how much is open, in words.

    Parameters
    ----------
    edition : Edition
        What is shown.

    Returns
    -------
    str
        One phrase, without a full stop; empty where there is nothing to say.
    """
    marks = all_marks(edition)
    doubts = sum(mark.level == "doubt" for mark in marks)
    faults = sum(mark.level == "fault" for mark in marks)
    parts = []
    if doubts:
        parts.append("1 doubt is open" if doubts == 1 else f"{doubts} doubts are open")
    if faults:
        parts.append("1 fault, not counted" if faults == 1 else f"{faults} faults, not counted")
    return "; ".join(parts) if parts else "no doubt is open"


def between(value: Shown) -> str:
    """Return what the interval says, and the median where it lies apart.

    Parameters
    ----------
    value : Shown
        A range as printed.

    Returns
    -------
    str
        One phrase, without a full stop; empty where there is nothing to say.
    """
    if value.exact:
        return "no range is known"
    told = f"nine draws in ten lie between {value.low} and {value.high}"
    return f"{told}; half of them below {value.median}" if value.median else told


def column_heading(edition: Edition) -> str:
    """Return what the right margin holds: its quantity, its unit, and the median where it is one.

    Parameters
    ----------
    edition : Edition
        What is shown.

    Returns
    -------
    str
        One phrase, without a full stop.
    """
    kind = ", median" if edition.middle == "median" else ""
    return f"adds to {edition.serving_name}, {numerals.CO2E}{kind}"


def below_zero(edition: Edition) -> str:
    """Return how a strip with stages below zero is read.

    Parameters
    ----------
    edition : Edition
        What is shown.

    Returns
    -------
    str
        One phrase, without a full stop; empty where no stage lies below zero.
    """
    values = [numerals.middle_value(value, edition.middle) for _, value in edition.stages]
    return (
        "left of zero stand stages that take up more than they give off"
        if min(values, default=0) < 0
        else ""
    )


def sum_of(edition: Edition) -> str:
    """Return what one serving is, behind its number.

    Parameters
    ----------
    edition : Edition
        What is shown.

    Returns
    -------
    str
        One phrase, without a full stop; empty where there is nothing to say.
    """
    size = serving_size(edition)
    return f"{edition.serving_name} of {size}" if size else edition.serving_name


def sum_phrase(edition: Edition) -> str:
    """Return the total as its heading: the number, its unit and what it is of.

    Parameters
    ----------
    edition : Edition
        What is shown.

    Returns
    -------
    str
        One phrase, without a full stop; empty where there is nothing to say.
    """
    value = shown(edition.serving, edition.middle)
    return f"{value.middle}{SPACE}{value.unit}, {sum_of(edition)}"


def serving_phrase(edition: Edition) -> str:
    """Return the total of one serving in one phrase.

    Parameters
    ----------
    edition : Edition
        What is shown.

    Returns
    -------
    str
        One phrase, without a full stop; empty where there is nothing to say.
    """
    value = shown(edition.serving, edition.middle)
    return f"{edition.serving_name}: {value.middle}{SPACE}{value.unit}; {between(value)}"


def batch_phrase(edition: Edition) -> str:
    """Return the total of the whole batch in one phrase.

    Parameters
    ----------
    edition : Edition
        What is shown.

    Returns
    -------
    str
        One phrase, without a full stop; empty where there is nothing to say.
    """
    return f"the whole batch, {numerals.count(edition.serves)} servings: {shown(edition.batch, edition.middle).text}"


def per_phrases(edition: Edition) -> list[str]:
    """Return the total on its other bases, those that are known.

    Parameters
    ----------
    edition : Edition
        What is shown.

    Returns
    -------
    list[str]
        One phrase a basis.
    """
    return [
        f"{_PER_NAMES.get(key, key.replace('_', ' '))}: {numerals.plain(value)}{SPACE}{numerals.CO2E}"
        for key, value in edition.per.items()
        if value is not None
    ]
