"""A form that was filled in, read and answered: what is wrong is told beside its entry."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any, Final

from counterproof.errors import InputError, NotFilledIn, QuantityError
from counterproof.kitchen_questions import cold, drinks, glasses, heat
from counterproof.kitchen_questions.amounts import amount_said
from counterproof.kitchen_questions.around import Around, Load
from counterproof.kitchen_questions.entries import Entry, form_of
from counterproof.physics.answer import Answer
from counterproof.physics.questions_dry_heat import Cavity
from counterproof.physics.serving import Serving
from counterproof.physics.steeping import Piece
from counterproof.typed_quantities import parse_quantity

LITRE: Final = 1e-3
"""A drink that a dose flavours where nothing else is said. [m³] The command's own default."""


@dataclass(frozen=True)
class _Said:
    """What was written, in SI; None where nothing was."""

    values: Mapping[str, Any]

    def __getitem__(self, key: str) -> Any:
        return self.values.get(key)

    def yes(self, key: str) -> bool:
        return bool(self.values.get(key))


def answered(process: str, told: Mapping[str, str], around: Around) -> Answer:
    """A question's answer, from what was written into its form.

    Parameters
    ----------
    process : str
        Which question.
    told : mapping of str to str
        Entry → what was written; entries may be left out.
    around : Around
        Where it is asked.

    Returns
    -------
    Answer
        The same as the command gives.

    Raises
    ------
    NotFilledIn
        If entries cannot be read; it tells all of them.
    InputError
        If there is no such question, or physics has no answer to it.
    """
    form = form_of(process)
    if form is None:
        raise InputError(
            f"There is no question “{process}”.", remedy="Choose one of those on the page."
        )
    values: dict[str, Any] = {}
    faults: dict[str, str] = {}
    for entry in form.entries:
        text = told.get(entry.key, "").strip()
        if not text:
            continue
        try:
            values[entry.key] = _read(entry, text)
        except QuantityError as fault:
            faults[entry.key] = f"{fault.message} {fault.remedy}"
    if faults:
        raise NotFilledIn(faults)
    said = _Said(values)
    return _ANSWERS[process](said, around.elsewhere(altitude=said["altitude"], room=said["room"]))


def _read(entry: Entry, text: str) -> Any:
    if entry.kind in {"share", "number", "whole"}:
        return _number(entry, text)
    reader = _READERS.get(entry.kind)
    if reader is not None:
        return reader(text)
    if entry.kind == "choice":
        if text not in {value for value, _ in entry.choices}:
            raise QuantityError(f"“{text}” is none of them.", remedy="Choose one.")
        return text
    return parse_quantity(text, entry.kind)  # type: ignore[arg-type]  # the rest are quantities


_READERS: Final[Mapping[str, Callable[[str], Any]]] = {
    "yes": lambda text: text == "yes",
    "words": str,
    "lines": lambda text: tuple(line.strip() for line in text.splitlines() if line.strip()),
    "amount": amount_said,
}


def _number(entry: Entry, text: str) -> float | int:
    bare = text.removesuffix("%").strip().replace(",", ".")
    try:
        value = float(bare)
    except ValueError:
        value = -1.0
    if not 0 <= value < 1e6 or (entry.kind == "whole" and value != int(value)):
        example = {"share": "50 %", "whole": "6"}.get(entry.kind, "8.5")
        raise QuantityError(f"“{text}” is no number.", remedy=f"Write one, such as {example}.")
    if entry.kind == "whole":
        return int(value)
    return value / 100 if entry.kind == "share" else value


def _heat(said: _Said, around: Around) -> Answer:
    return heat.heat(
        Load(said["water"], said["food"], said["mass"]),
        around,
        _setting(said),
        start=said["from"],
        end=said["to"],
        time=said["time"],
    )


def _setting(said: _Said, *, covered: bool | None = None) -> heat.Setting:
    lid = said.yes("lid") if covered is None else covered
    return heat.Setting(said["appliance"], said["power"], lid, said["diameter"])


def _simmer(said: _Said, around: Around) -> Answer:
    return heat.simmer(
        Load(said["water"], said["food"], said["mass"]),
        around,
        _setting(said),
        time=None if said["boil_off"] is not None else said["time"],
        boil_off=said["boil_off"],
        temperature=said["temperature"],
        hard=said.yes("hard"),
    )


def _fry(said: _Said, around: Around) -> Answer:
    return heat.fry(
        Load(None, said["food"], said["mass"]),
        around,
        _setting(said, covered=False),
        _needed(said, "time"),
        fat=said["fat"],
        deep=said.yes("deep"),
        start=said["from"],
    )


def _bake(said: _Said, around: Around) -> Answer:
    share = said["share"]
    cavity = Cavity(
        said["oven"] or around.kitchen.oven, said["power"], 1.0 if share is None else share
    )
    return heat.bake(
        Load(None, said["food"], said["mass"]),
        around,
        _needed(said, "temperature"),
        _needed(said, "time"),
        cavity=cavity,
        start=said["from"],
    )


def _kettle(said: _Said, around: Around) -> Answer:
    water = _needed(said, "water")
    return heat.kettle(water, around, start=said["from"], end=said["to"], power=said["power"])


def _microwave(said: _Said, around: Around) -> Answer:
    load = Load(said["water"], said["food"], said["mass"])
    end = _needed(said, "to")
    return heat.microwave(load, around, end, start=said["from"], power=said["power"])


def _cool(said: _Said, around: Around) -> Answer:
    return cold.cool(
        cold.Served(
            said["food"],
            said["volume"],
            said["vessel"] or "pot",
            said["diameter"],
            said["depth"],
            said.yes("covered"),
            said.yes("stirred"),
            said["flow"],
            said["portions"] or 1,
        ),
        around,
        cold.Corner(said["where"] or "fridge", said["ambient"], said.yes("fan")),
        start=said["from"],
        authorities=(said["authority"] or "us",),
        already=said["already"],
        measured=[_measured(text) for text in said["measured"] or ()],
    )


def _measured(text: str) -> tuple[float, float]:
    time, sign, level = text.partition("=")
    if not sign:
        raise NotFilledIn(
            {"measured": f"“{text}” is no time and temperature: write 30min=60C, one a line."}
        )
    return parse_quantity(time, "time"), parse_quantity(level, "temperature")


def _jarred(said: _Said) -> cold.Jarred:
    return cold.Jarred(
        said["food"],
        _needed(said, "volume"),
        said["vessel"] or "jar",
        said["diameter"],
        said["filled"],
        said["mouth"] or "wide",
        said.yes("shouldered"),
        said["glass"],
    )


def _freeze(said: _Said, around: Around) -> Answer:
    return cold.freeze(
        _jarred(said),
        around,
        start=said["from"],
        freezer=said["freezer"],
        until=said["until"],
        wanted_time=said["time"],
    )


def _thaw(said: _Said, around: Around) -> Answer:
    return cold.thaw(
        _jarred(said),
        around,
        said["where"] or "fridge",
        start=said["from"],
        ambient=said["ambient"],
        power=said["power"],
        available=said["available"],
    )


def _carbonate(said: _Said, around: Around) -> Answer:
    instead = any(said[key] is not None for key in ("absolute", "partial", "want"))
    fizz = drinks.Fizz(
        said["temperature"],
        None if instead else said["gauge"],  # its first value gives way to what is said instead
        said["absolute"],
        said["partial"],
        said["water"],
        said["bottle"],
        said["purges"],
        said["pulses"],
        said["cylinder"],
        said["cylinder_volume"],
        said["closed_room"],
    )
    flat = 1e3 * (said["concentrate"] or 0.0)
    return drinks.carbonate(
        fizz,
        around if said["alkalinity"] is None else around.with_tap(said["alkalinity"]),
        want=said["want"],
        in_glass=said.yes("in_glass"),
        serving=Serving(stirred=said.yes("stirred"), stood=said["stood"] or 0.0, flat=flat),
    )


def _steep(said: _Said, around: Around) -> Answer:
    piece = Piece(said["shape"] or "cube", _needed(said, "size"))
    return drinks.steep(
        drinks.Steeped(piece, said["extract"] or "root", said["water"], said["pieces"]),
        around,
        _needed(said, "time"),
        _needed(said, "temperature"),
        want=said["want"],
        flavouring=drinks.flavouring(said["bottle"], said["dose"], said["drink"] or LITRE),
    )


def _mix(said: _Said, around: Around) -> Answer:
    stirred, stood = said.yes("stirred"), said["stood"] or 0.0
    start = said["from"]
    return glasses.mix(
        glasses.Glass(
            _needed(said, "parts"),
            () if start is None else (start,),
            said["fizz"],
            said["ice"] or 0.0,
            said["ice_temperature"],
        ),
        around,
        glasses.Wanted(
            said["want_brix"], said["want_acid"], said["volume"], said["want_temperature"]
        ),
        serving=Serving(stirred=stirred, stood=stood) if stirred or stood else None,
    )


def _needed(said: _Said, key: str) -> Any:
    value = said[key]
    if value is None:
        raise NotFilledIn({key: "This has to be said."})
    return value


_ANSWERS: Final[Mapping[str, Callable[[_Said, Around], Answer]]] = {
    "heat": _heat, "simmer": _simmer, "fry": _fry, "bake": _bake, "kettle": _kettle,
    "microwave": _microwave, "cool": _cool, "freeze": _freeze, "thaw": _thaw,
    "carbonate": _carbonate, "steep": _steep, "mix": _mix,
}  # fmt: skip
