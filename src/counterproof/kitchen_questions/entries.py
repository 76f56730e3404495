"""The kitchen's questions as small forms: what each asks for, in which words, and what is optional.

A surface lays an entry out as it likes; `answers` reads what is written into it.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

Kind = Literal[
    "temperature", "pressure", "volume", "mass", "time", "power", "length", "concentration",
    "amount", "share", "number", "whole", "words", "lines", "choice", "yes",
]  # fmt: skip


@dataclass(frozen=True, slots=True)
class Entry:
    """One thing a question asks for.

    Parameters
    ----------
    key : str
        Its name in what is sent.
    label : str
        For people.
    kind : Kind
        What may be written: a quantity of some kind with its unit, words, one of `choices`.
    begins : str
        What stands there at first.
    hint : str
        What is taken where it is left out.
    choices : tuple of (str, str)
        Value and words, of a choice.
    backwards : bool
        Whether it is the answer wanted: the question is then asked the other way round.
    rare : bool
        Whether it may stand folded away.
    """

    key: str
    label: str
    kind: Kind
    begins: str = ""
    hint: str = ""
    choices: tuple[tuple[str, str], ...] = ()
    backwards: bool = False
    rare: bool = False


@dataclass(frozen=True, slots=True)
class Form:
    """A question of the kitchen."""

    process: str
    name: str  # "heat"
    asks: str  # what it answers, as a question
    entries: tuple[Entry, ...]


def _choice(key: str, label: str, *words: str, hint: str = "", rare: bool = False) -> Entry:
    choices = tuple((word.replace(" ", "-"), word) for word in words)
    if hint:
        choices = (("", hint), *choices)
    return Entry(key, label, "choice", choices[0][0], choices=choices, rare=rare)


def _wanted(key: str, label: str, kind: Kind) -> Entry:
    return Entry(key, label, kind, hint="asks the other way round", backwards=True)


_FOOD: Final = Entry("food", "food", "words", hint="none: water alone")
_DISH: Final = Entry("food", "dish", "words", hint="water")
_MASS: Final = Entry("mass", "its weight", "mass")
_LID: Final = Entry("lid", "with a lid on", "yes", "yes")
_HOB: Final = _choice(
    "appliance", "hob", "gas", "solid plate", "ceramic", "induction", hint="the kitchen’s"
)
_POWER: Final = Entry("power", "the ring takes", "power", hint="a large ring’s", rare=True)
_DIAMETER: Final = Entry("diameter", "across the pot", "length", hint="as the amount", rare=True)
_ALTITUDE: Final = Entry("altitude", "above the sea", "length", hint="the kitchen’s", rare=True)
_ROOM: Final = Entry("room", "the room", "temperature", hint="the kitchen’s", rare=True)
_FILLED: Final = Entry("filled", "what is in it", "volume", hint="up to its line")
_MOUTH: Final = _choice("mouth", "mouth", "wide", "narrow", rare=True)
_SHOULDERED: Final = Entry("shouldered", "with shoulders", "yes", "")
_GLASS: Final = _choice(
    "glass", "made of", "soda-lime", "borosilicate", "toughened", "none", hint="as usual", rare=True
)
_STIRRED: Final = Entry("stirred", "something is stirred in", "yes", "", rare=True)
_STOOD: Final = Entry("stood", "stands in the glass for", "time", hint="no time", rare=True)

FORMS: Final = (
    Form("heat", "heat", "How long does it take to heat, and how much energy?", (
        Entry("water", "water", "amount", "1 L"), _FOOD, _MASS,
        Entry("from", "from", "temperature", hint="the cold tap’s"),
        Entry("to", "to", "temperature", hint="the boil"),
        _HOB, _LID, _wanted("time", "in no more than", "time"),
        _POWER, _DIAMETER, _ALTITUDE, _ROOM,
    )),
    Form("simmer", "simmer", "What does it take to keep a pot simmering, and what boils away?", (
        Entry("water", "water", "amount", "2 L"), _FOOD, _MASS,
        Entry("time", "for", "time", "30 min"),
        Entry("temperature", "kept at", "temperature", hint="just below the boil"),
        _HOB, Entry("lid", "with a lid on", "yes", ""), Entry("hard", "a rolling boil", "yes", ""),
        _wanted("boil_off", "until this much has left", "amount"),
        _POWER, _DIAMETER, _ALTITUDE, _ROOM,
    )),
    Form("fry", "fry", "What does frying take?", (
        Entry("food", "food", "words", "onions"), Entry("mass", "its weight", "mass", "400 g"),
        Entry("time", "for", "time", "10 min"),
        Entry("fat", "fat", "mass", hint="a spoonful"), Entry("deep", "deep in fat", "yes", ""),
        _HOB, Entry("from", "from", "temperature", hint="the fridge’s", rare=True),
        _POWER, _DIAMETER, _ALTITUDE, _ROOM,
    )),
    Form("bake", "bake", "What does the oven take to preheat and to bake?", (
        Entry("temperature", "set to", "temperature", "180 C"),
        Entry("time", "for", "time", "45 min"),
        _choice("oven", "oven", "fan", "conventional", "gas", hint="the kitchen’s"),
        _FOOD, _MASS,
        Entry("share", "this dish’s share of the oven", "share", hint="all of it"),
        Entry("from", "the food from", "temperature", hint="the room’s", rare=True),
        Entry("power", "the oven takes", "power", hint="a common one’s", rare=True), _ROOM,
    )),
    Form("kettle", "kettle", "What does an electric kettle take?", (
        Entry("water", "water", "amount", "1 L"),
        Entry("from", "from", "temperature", hint="the cold tap’s"),
        Entry("to", "to", "temperature", hint="the boil"),
        Entry("power", "the kettle takes", "power", hint="a common one’s", rare=True),
        _ALTITUDE, _ROOM,
    )),
    Form("microwave", "microwave", "What does a microwave oven take?", (
        Entry("water", "water", "amount"), Entry("food", "food", "words", "soup"),
        Entry("mass", "its weight", "mass", "300 g"),
        Entry("from", "from", "temperature", hint="the fridge’s"),
        Entry("to", "to, on average", "temperature", "75 C"),
        Entry("power", "rated output", "power", hint="a common one’s", rare=True), _ALTITUDE,
    )),
    Form("cool", "cool", "How long does it take to cool, what do the rules say, what would pass?", (
        _DISH, Entry("volume", "in one vessel", "volume", "4 L"),
        _choice("vessel", "vessel", "pot", "tray", "jar", "bottle"),
        Entry("portions", "so many of them", "whole", "1"),
        _choice("where", "where", "fridge", "room", "ice bath"),
        Entry("from", "from", "temperature", hint="the boil"),
        Entry("covered", "with a lid on", "yes", "yes"),
        Entry("stirred", "stirred all along", "yes", ""),
        Entry("diameter", "across", "length", hint="as the amount", rare=True),
        Entry("depth", "how deep it lies", "length", hint="as the amount", rare=True),
        Entry("ambient", "there", "temperature", hint="the kitchen’s", rare=True),
        Entry("fan", "a fan blows over it", "yes", "", rare=True),
        _choice("flow", "thin or thick", "thin", "thick", hint="as it is", rare=True),
        _choice("authority", "whose rules", "us", "uk", "victoria"),
        Entry("already", "since it passed 57 °C", "time", hint="it starts above", rare=True),
        Entry("measured", "measured since the start", "lines", hint="30min=60C, one a line", rare=True),
        _ALTITUDE, _ROOM,
    )),
    Form("freeze", "freeze", "How long does a jar take to freeze, and how full may it be?", (
        _DISH, Entry("volume", "holds, to the brim", "volume", "473 ml"),
        _choice("vessel", "vessel", "jar", "bottle", "tray", "pot"), _FILLED, _SHOULDERED,
        Entry("from", "goes in at", "temperature", hint="the fridge’s"),
        Entry("freezer", "the freezer", "temperature", hint="the kitchen’s"),
        Entry("until", "until its core is at", "temperature", hint="−10 °C"),
        _wanted("time", "in no more than", "time"),
        _MOUTH, _GLASS, _DIAMETER, _ROOM,
    )),
    Form("thaw", "thaw", "How long does it take to thaw, and when must it be begun?", (
        _DISH, Entry("volume", "holds, to the brim", "volume", "473 ml"),
        _choice("vessel", "vessel", "jar", "bottle", "tray", "pot"), _FILLED,
        _choice("where", "where", "fridge", "water", "microwave", "counter"),
        _wanted("available", "with so much time", "time"),
        Entry("from", "from", "temperature", hint="the freezer’s", rare=True),
        Entry("ambient", "there", "temperature", hint="the kitchen’s", rare=True),
        Entry("power", "rated output", "power", hint="a common one’s", rare=True),
        _SHOULDERED, _MOUTH, _GLASS, _DIAMETER, _ROOM,
    )),
    Form("carbonate", "carbonate", "How much gas does water take up, or what gives a wanted fizz?", (
        Entry("temperature", "the water", "temperature", "4 C", "the fridge’s"),
        Entry("gauge", "pressure on the gauge", "pressure", "3 bar"),
        _wanted("want", "wanted fizz", "concentration"),
        Entry("in_glass", "wanted in the glass", "yes", ""),
        Entry("water", "water in the bottle", "amount"),
        Entry("absolute", "or: total pressure", "pressure", rare=True),
        Entry("partial", "or: of the gas alone", "pressure", rare=True),
        Entry("alkalinity", "alkalinity of the tap", "words", hint="the kitchen’s", rare=True),
        Entry("bottle", "the bottle holds", "volume", hint="a tenth more", rare=True),
        Entry("purges", "air let out first", "whole", hint="not at all", rare=True),
        Entry("pulses", "pulses or shakes", "whole", hint="enough", rare=True),
        Entry("cylinder", "gas in the full cylinder", "mass", rare=True),
        Entry("cylinder_volume", "the cylinder holds", "volume", rare=True),
        Entry("closed_room", "room it might leak into", "volume", rare=True),
        Entry("concentrate", "syrup for each litre", "volume", rare=True),
        _STIRRED, _STOOD, _ALTITUDE, _ROOM,
    )),
    Form("steep", "steep", "How much is drawn out, and what does cutting finer buy?", (
        _choice("extract", "what is steeped", "root", "leaf"),
        _choice("shape", "cut to", "cube", "slice", "rod"),
        Entry("size", "so large", "length", "5 mm"),
        Entry("time", "for", "time", "15 min"),
        Entry("temperature", "at", "temperature", "90 C"),
        _wanted("want", "wanted share", "share"),
        Entry("water", "liquid", "volume", hint="plenty", rare=True),
        Entry("pieces", "the pieces take up", "volume", rare=True),
        Entry("bottle", "a bottle of it holds", "volume", rare=True),
        Entry("dose", "one dose", "volume", rare=True),
        Entry("drink", "flavours", "volume", hint="a litre", rare=True),
    )),
    Form("mix", "mix", "What is a drink once it is mixed, or how much of each part makes it?", (
        Entry("parts", "parts, one a line", "lines", "30 ml lime juice\n10 g honey\n150 ml water"),
        Entry("from", "the parts", "temperature", hint="the room’s"),
        Entry("ice", "ice at the end", "mass"),
        _wanted("want_brix", "wanted °Brix", "number"),
        _wanted("want_acid", "wanted acid", "concentration"),
        _wanted("want_temperature", "wanted by ice", "temperature"),
        Entry("volume", "made to measure", "volume", hint="330 ml", rare=True),
        Entry("fizz", "gas in what sparkles", "concentration", rare=True),
        Entry("ice_temperature", "the ice", "temperature", hint="the freezer’s", rare=True),
        _STIRRED, _STOOD, _ROOM,
    )),
)  # fmt: skip
"""Every question, in the order of the kitchen: hot, cold, drinks."""


def form_of(process: str) -> Form | None:
    """Return the form of a question.

    Parameters
    ----------
    process : str
        Its name.

    Returns
    -------
    Form or None
        None where there is no such question.
    """
    return next((form for form in FORMS if form.process == process), None)
