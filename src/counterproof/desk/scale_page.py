"""The scale on the desk: readings as they come, beside the recipe's lines, then written into it."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from counterproof.adapters import batches
from counterproof.adapters.confining import confined
from counterproof.batch.weighed import Weighed
from counterproof.batch.weights import grams
from counterproof.batch.written_in import with_weights
from counterproof.batch_cases import WeighedRecipe
from counterproof.desk import documents
from counterproof.desk.leaves import leaf as filled
from counterproof.desk.opened import Leaf, Opened
from counterproof.errors import InputError

LONGEST = 200_000
"""Most characters of a weigh-in: thousands of readings. A house choice. [1]"""


def scale_page(folder: Opened, leaf: Leaf) -> dict[str, Any]:
    """Return the page of the scale.

    Parameters
    ----------
    folder : Opened
        What is open.
    leaf : Leaf
        The recipe that is weighed in.

    Returns
    -------
    dict
        `html`, and `text`: a weigh-in that was begun.
    """
    confined(batches.draft_of(leaf.recipe), folder.root)
    html = filled("scale.html.j2", folder=folder, leaf=leaf, here="scale")
    return {"html": str(html), "text": batches.load_draft(leaf.recipe)}


def weighed_piece(weighed: WeighedRecipe) -> dict[str, Any]:
    """Return what stands beside the readings.

    Parameters
    ----------
    weighed : WeighedRecipe
        The recipe, and what was weighed so far.

    Returns
    -------
    dict
        `html`; `said`, for those who listen; `ready`, whether it may be written into the recipe.
    """
    found = weighed.weighing
    step = found.state.step
    by_number = {line.number: line for line in found.lines if line.number is not None}
    rows = [
        (
            weighed.by_eye.get(line.written.number),
            line.written.text,
            *_told(by_number.get(line.written.number), step),
        )
        for line in weighed.reading.lines
    ]
    further = [(None, one.name, *_told(one, step)) for one in found.lines if one.number is None]
    shows = "" if found.state.base is None else grams(found.state.base, step)
    html = filled(
        "weighed.html.j2",
        rows=rows + further,
        marks=found.marks,
        shows=shows,
        weighed=grams(found.kg, step),
        steam=grams(-sum(one.kg for one in found.lost), step) if found.lost else "",
    )
    faulty = any(mark.level == "fault" for _, mark in found.marks)
    said = found.marks[-1][1].message if found.marks else f"{shows} on the scale"
    return {"html": str(html), "said": said, "ready": bool(found.lines) and not faulty}


def _told(one: Weighed | None, step: float) -> tuple[str, str]:
    """A weight with its half-width, and the sums it came from."""
    if one is None:
        return "", ""
    half = grams(one.half, step / 2 if one.half < step else step)
    return f"{grams(one.kg, step)} ± {half}", "; ".join(part.says for part in one.differences)


def kept(folder: Opened, leaf: Leaf, text: str) -> None:
    """Keep the readings so far beside the recipe.

    Parameters
    ----------
    folder : Opened
        What is open.
    leaf : Leaf
        The recipe.
    text : str
        All readings.

    Raises
    ------
    InputError
        If they are too many, or cannot be written.
    """
    if len(text) > LONGEST:
        raise InputError("These are too many readings.", remedy="Begin another weigh-in.")
    confined(batches.draft_of(leaf.recipe), folder.root)
    if text.strip():
        batches.save_draft(leaf.recipe, text)
    else:
        batches.draft_of(leaf.recipe).unlink(missing_ok=True)


def written_in(
    folder: Opened, leaf: Leaf, weighed: WeighedRecipe, text: str, day: str
) -> dict[str, str]:
    """Write the weights into the recipe, and the readings into the batch of the day.

    Parameters
    ----------
    folder : Opened
        What is open.
    leaf : Leaf
        The recipe.
    weighed : WeighedRecipe
        What was weighed.
    text : str
        The readings.
    day : str
        The batch's day, ISO 8601.

    Returns
    -------
    dict
        `batch`: where the readings lie, within the folder.

    Raises
    ------
    InputError
        If a reading is not counted yet, or something cannot be written.
    """
    folder.writable()
    if any(mark.level == "fault" for _, mark in weighed.weighing.marks):
        raise InputError(
            "Some readings are not counted yet; nothing was written.",
            remedy="Settle what is marked beside them first.",
        )
    confined(batches.batch_folder(leaf.recipe), folder.root)
    now = documents.standing(leaf.recipe, folder.root)
    recipe = folder.recipe(leaf, now.text)
    content = with_weights(now.text, recipe, weighed.weighing)
    documents.saved(leaf.recipe, content, now.revision, folder.root)
    place: Path = batches.write_batch(leaf.recipe, day, recipe.title, text)
    return {"batch": place.relative_to(folder.root).as_posix()}
