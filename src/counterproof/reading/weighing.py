"""One written amount of a food in kilograms: by weight, volume, length or count.

Every way of weighing gives the same thing, a `Try`. Spreads: method page, section 2.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from counterproof.marks import Mark
from counterproof.reading.at_the_scales import Case, Try
from counterproof.reading.by_eye import ALSO_CALLED, CUT_CLASSES, CUTS, EYE_SPREAD, Guess, guess
from counterproof.reading.modifiers import VESSELS
from counterproof.reading.net_weight import net_weight, on_or_off_the_bone
from counterproof.reading.spellings import words
from counterproof.reading.telling import assumed, figures, grams, said
from counterproof.units import CONTAINERS, MEASURES, unit_kg, unit_m, unit_ml
from counterproof.ways import ASSUMED, Way

if TYPE_CHECKING:
    from collections.abc import Iterable

    from counterproof.provenance import Provenance
    from counterproof.reading.model import Quantity
    from counterproof.rows import Food, HouseholdWeight

WEIGHED = 0.02
LIQUID_BY_VOLUME = 0.06
SOLID_BY_VOLUME = 0.15
COUNTED = 0.20
MANY = 50  # a bare number from here on, of something with no weight by the piece, is in grams
SIZED = {"small": 0.7, "medium": 1.0, "large": 1.4}  # of the middling piece; assumed
# How full a spoon, cup or hand is against a level or usual one: common practice, assumed.
FULL = {
    "heaped": 1.5, "heaping": 1.5, "rounded": 1.25, "overflowing": 1.25, "generous": 1.15,
    "good": 1.15, "big-ish": 1.15, "scant": 0.85, "skinny": 0.85,
}  # fmt: skip
_SIZES = {
    "extra-large": "large", "medium-large": "medium", "medium-small": "medium",
    "even-sized": "medium", "fist-sized": "medium",
}  # fmt: skip
_KG_PER_CM = {"spices": 0.0004, "": 0.006}  # cinnamon bark; roots such as ginger: assumed
PART_LITRES = 0.03  # a part of a drink, about a bar measure: assumed
_LITTLE_VOLUMES = frozenset({"pinch", "dash"})
_JUICE_SHARE = 0.40  # of a citrus fruit as bought, where no household row gives the yield: assumed
_ZEST_SHARE = 0.05  # likewise
# Counted parts of a plant: without a weight of their own they are guessed, never whole heads.
_PARTS_COUNTED = frozenset({"leaf", "sprig", "stalk"})
_SKINS = frozenset({"zest", "peel", "rind"})


def tried(quantity: Quantity, case: Case) -> Try | Mark:
    """One written amount in kilograms, or the fault that says why not.

    Parameters
    ----------
    quantity : Quantity
        One of the line's amounts.
    case : Case
        The food and its line.

    Returns
    -------
    Try or Mark
        A fault where no weight, density or guess is at hand.
    """
    kind = MEASURES.get(quantity.measure, "count")
    number = (quantity.low + quantity.high) / 2 * (case.split.packs or 1.0)
    if kind in {"volume", "count", "by eye"}:
        number *= _fullness(quantity, case)
    if number <= 0:
        message = f"The amount of {case.food.name} is zero. Write how much goes in."
        return Mark("fault", "no-amount", message)
    if kind == "mass":
        return _by_weight(quantity, number, case)
    if kind == "volume":
        return _by_volume(quantity, number, case)
    if kind == "length":
        return _by_length(quantity, number, case)
    if quantity.measure == "part" and case.food.kind == "liquid":
        return _part(quantity, number, case)
    return _by_count(quantity, number, case)


def _fullness(quantity: Quantity, case: Case) -> float:
    """How full the measure is: liquids cannot be heaped, and packs are as full as they are."""
    if quantity.measure in CONTAINERS or quantity.measure == "piece":
        return 1.0
    said = FULL.keys() & case.split.flags if case.split.flags else ()
    full = FULL[min(said)] if said else 1.0
    if case.food.kind == "liquid":
        full = min(full, FULL["generous"])
    return full * SIZED.get(case.split.size, 1.0) if quantity.measure in _LITTLE_VOLUMES else full


def _tail(quantity: Quantity, case: Case, size: str = "") -> str:
    measure = f"{quantity.measure}/{size}" if size else quantity.measure
    return f"{case.food.id}|{measure}|{figures(quantity, case.split)}"


def _by_weight(quantity: Quantity, number: float, case: Case) -> Try:
    edible = case.scales.tables.edible.get(case.food.id)
    net, bought_so = net_weight(case.split, case.food, edible)
    unit = unit_kg(quantity.measure)
    way = (*_counted(quantity, number, case), Way("unit", unit, "kg", quantity.measure))
    kg = number * unit
    if "cooked meat" in case.split.flags and (
        cooked := case.scales.tables.yields.get(case.food.id)
    ):
        kg /= cooked[0].factor
        told = cooked[0].provenance
        way = (*way, Way("given", cooked[0].factor, "", "left by cooking", told, divides=True))
    marks = () if net else on_or_off_the_bone(case.split, case.food)
    return Try(quantity, kg, WEIGHED, not net, _tail(quantity, case), marks, bought_so, way)


def _counted(quantity: Quantity, number: float, case: Case) -> tuple[Way, ...]:
    """The way to the number of measures: what is written, the packs, how full each is."""
    written = (quantity.low + quantity.high) / 2
    way = Way("written", written, "", quantity.measure)
    packs = case.split.packs or 1.0
    if number == written:
        return (way,)
    packed = () if packs == 1.0 else (Way("packs", packs, "", case.split.container),)
    full = number / (written * packs)
    fullness = () if abs(full - 1.0) < 1e-12 else (Way("fullness", full, "", case.split.size),)
    return (way, *packed, *fullness)


def _by_volume(quantity: Quantity, number: float, case: Case) -> Try | Mark:
    food = case.food
    unit = unit_ml(quantity.measure, case.scales.system) / 1000
    litres = number * unit
    density, told = _density(case)
    spread = LIQUID_BY_VOLUME if food.kind == "liquid" else SOLID_BY_VOLUME
    if quantity.measure in _LITTLE_VOLUMES:
        spread = EYE_SPREAD
    tail = _tail(quantity, case)
    way = (*_counted(quantity, number, case), Way("unit", unit, "L", quantity.measure))
    if density is not None:
        way = (*way, Way("density", density, "kg/L", food.name, told))
        return Try(quantity, litres * density, spread, as_bought=False, tail=tail, way=way)
    if food.kind == "liquid":
        note = assumed(f"No density is known for {food.name}: taken as water’s, 1 kg a litre.")
        way = (*way, Way("density", 1.0, "kg/L", food.name, ASSUMED))
        return Try(quantity, litres, spread, as_bought=False, tail=tail, marks=(note,), way=way)
    little = guess(food, quantity.measure)
    if little is not None:
        return _guessed(quantity, number, case, tail, little)
    return Mark(
        "fault",
        "no-density",
        f"No density is known for {food.name}, so {said(quantity)} cannot become grams. "
        "Write a weight into the line.",
    )


def _density(case: Case) -> tuple[float | None, Provenance | None]:
    """Kilograms a litre in the form the line names, and on whose word."""
    rows = case.scales.tables.densities.get(case.food.id, ())
    if len(rows) == 1:
        return rows[0].kg_per_litre, rows[0].provenance
    if rows:
        forms = {row.form: row for row in rows}
        told = {*_told(case), *case.split.flags}
        for form in sorted(forms):
            if form and told.issuperset(words(form)):
                return forms[form].kg_per_litre, forms[form].provenance
        plain = forms.get("", rows[0])
        return plain.kg_per_litre, plain.provenance
    for row in case.rows:
        if MEASURES.get(row.measure) == "volume" and row.measure not in _LITTLE_VOLUMES:
            return row.kg / unit_ml(row.measure, "us") * 1000, row.provenance
    return None, None


def _by_length(quantity: Quantity, number: float, case: Case) -> Try:
    centimetres = number * unit_m(quantity.measure) * 100
    row = _row(case.rows, "cm-piece", "")
    tail = _tail(quantity, case)
    way = (*_counted(quantity, number, case), Way("unit", unit_m(quantity.measure) * 100, "cm"))
    if row is not None:
        spread = max(0.3, COUNTED if row.spread is None else row.spread)
        way = (*way, Way("centimetre", row.kg, "kg/cm", case.food.name, row.provenance))
        return Try(quantity, centimetres * row.kg, spread, row.as_bought, tail, way=way)
    kg = _KG_PER_CM.get(case.food.food_class, _KG_PER_CM[""])
    note = assumed(f"A centimetre of {case.food.name} is taken as {kg * 1000:g} g.")
    way = (*way, Way("centimetre", kg, "kg/cm", case.food.name, ASSUMED))
    return Try(quantity, centimetres * kg, 0.4, as_bought=False, tail=tail, marks=(note,), way=way)


def _by_count(quantity: Quantity, number: float, case: Case) -> Try | Mark:
    food = case.food
    measure, size = _counted_as(quantity, case)
    tail = _tail(quantity, case, size)
    if measure == "piece" and case.fruit is not None and case.fruit.id != food.id:
        return _from_fruit(quantity, number, case, case.fruit, size)
    asked = _drawn_as(case) if measure == "piece" else []
    found = _weight_of_one([*asked, measure], case, size)
    if found is None and measure != "piece":
        usual = guess(food, measure)
        if usual is not None:
            return _guessed(quantity, number, case, tail, usual, size)
    found = found or _weight_of_one(ALSO_CALLED.get(measure, ()), case, size)
    if found is not None:
        row, kg, marks = found
        spread = row.spread if row.spread is not None else COUNTED
        if MEASURES.get(row.measure) == "by eye":
            spread = EYE_SPREAD
        way = (
            *_counted(quantity, number, case),
            Way("piece", row.kg, "kg", row.measure, row.provenance),
        )
        if kg != row.kg:
            way = (*way, Way("size", kg / row.kg, "", size, ASSUMED))
        return Try(quantity, number * kg, spread, row.as_bought, tail, marks, way=way)
    for name in (*asked, measure):
        usual = guess(food, name)
        if usual is not None:
            return _guessed(quantity, number, case, tail, usual, size)
    if measure == "piece" and number >= MANY:
        doubt = Mark(
            "doubt",
            "unit-missing",
            f"{number:g} {food.name} is too many for a count: read as grams. Write the unit.",
            (f"{number:g} g {food.name}", f"{number:g} ml {food.name}"),
        )
        way = (*_counted(quantity, number, case), Way("unit", 0.001, "kg", "g"))
        return Try(
            quantity, number / 1000, COUNTED, as_bought=True, tail=tail, marks=(doubt,), way=way
        )
    return Mark(
        "fault",
        "no-weight",
        f"No weight is known for {said(quantity)} of {food.name}. Give a weight, such as “200 g”.",
    )


def _part(quantity: Quantity, number: float, case: Case) -> Try:
    """Read "2 parts gin": parts say how a drink is mixed, not how much of it there is."""
    food = case.food
    doubt = Mark(
        "doubt",
        "part-size",
        f"A part says how {food.name} stands to the rest, not how much there is: taken as "
        f"{1000 * PART_LITRES:g} ml. Write millilitres for the glass you serve.",
        tuple(f"{number * ml:g} ml {food.name}" for ml in (25, 30, 50)),
    )
    found, told = _density(case)
    density = 1.0 if found is None else found
    way = (
        *_counted(quantity, number, case),
        Way("unit", PART_LITRES, "L", quantity.measure, ASSUMED),
        Way("density", density, "kg/L", food.name, told or ASSUMED),
    )
    kg = number * PART_LITRES * density
    tail = _tail(quantity, case)
    return Try(quantity, kg, EYE_SPREAD, as_bought=False, tail=tail, marks=(doubt,), way=way)


def _counted_as(quantity: Quantity, case: Case) -> tuple[str, str]:
    """The measure and size that a count means in the table's words."""
    split = case.split
    if quantity.measure == "piece" and (cut := _cut_of(case) or _part_of(case)):
        return cut, ""
    size = _SIZES.get(split.size, split.size)
    if size in {"thumb-sized", "finger-sized"} and quantity.measure == "piece":
        return "thumb", ""
    if quantity.measure == "piece" and " " in split.name:
        first = words(split.name.split(" ", 1)[0])
        if first and first[0] in VESSELS:
            return first[0], ""  # "2 trays ice cubes": trays are counted, not cubes
    return quantity.measure, size if size in SIZED else ""


def _drawn_as(case: Case) -> list[str]:
    """What a bare count of a food means: its name may say so, and a bare bread is a loaf."""
    drawn = case.food.drawn_measure
    last = case.scales.words(case.split.name)[-1:]
    said = [last[0]] if last and MEASURES.get(last[0]) == "count" else []
    if drawn == "slice" and case.food.food_class == "bread & bakery" and not said:
        said = ["loaf"]
    return [*said, drawn] if drawn else said


def _part_of(case: Case) -> str:
    """The part of a plant that is counted, where only a guess weighs it: "Chinese leaves"."""
    last = case.scales.words(case.split.name)[-1:]
    if not last or last[0] not in _PARTS_COUNTED or guess(case.food, last[0]) is None:
        return ""
    own = {last[0], *ALSO_CALLED.get(last[0], ())} - {"piece"}
    return "" if any(row.measure in own for row in case.rows) else last[0]


def _cut_of(case: Case) -> str:
    """The measure that a cut of a fruit or vegetable is: "lime wheel", "rounds of courgette"."""
    own = case.split.name.lower().split()
    if case.food.food_class not in CUT_CLASSES or len(own) < 2:
        return ""
    word = own[0] if own[1] == "of" else own[-1]
    return CUTS.get(word.removesuffix("s"), "")


def _weight_of_one(
    measures: Iterable[str], case: Case, size: str
) -> tuple[HouseholdWeight, float, tuple[Mark, ...]] | None:
    """The row for the first measure that has one, kilograms of one, and what was assumed."""
    if not case.rows:
        return None
    for measure in measures:
        row = _row(case.rows, measure, size, case)
        if row is None:
            continue
        times = SIZED[size] / SIZED.get(row.size, 1.0) if size and row.size != size else 1.0
        if times == 1.0:
            return row, row.kg, ()
        note = assumed(
            f"{case.food.name}: a {size} one is taken as {times:.2g} times the usual "
            f"{grams(row.kg)}."
        )
        return row, row.kg * times, (note,)
    return None


def _from_fruit(
    quantity: Quantity, number: float, case: Case, fruit: Food, size: str
) -> Try | Mark:
    """The juice or zest of counted fruit: by the table's yield, else by an assumed share."""
    food, tables = case.food, case.scales.tables
    tail = _tail(quantity, case, size)
    way = _counted(quantity, number, case)
    own = _row(case.rows, "piece", size, case)
    if own is not None:
        spread = own.spread if own.spread is not None else COUNTED
        way = (*way, Way("piece", own.kg, "kg", food.name, own.provenance))
        return Try(quantity, number * own.kg, spread, as_bought=False, tail=tail, way=way)
    whole = _row(tables.household.get(fruit.id, ()), "piece", size)
    if whole is None:
        return Mark(
            "fault",
            "no-weight",
            f"No weight is known for one {fruit.name}, so its {food.name} cannot be weighed. "
            "Give the juice in millilitres or the zest in grams.",
        )
    edible = tables.edible.get(fruit.id)
    bought = whole.kg if whole.as_bought or edible is None else whole.kg / edible.share
    share = _JUICE_SHARE if _SKINS.isdisjoint(words(food.name)) else _ZEST_SHARE
    note = assumed(
        f"One {fruit.name} is taken to give {grams(bought * share)} of {food.name}, "
        f"{share:.0%} of its weight."
    )
    way = (
        *way,
        Way("piece", bought, "kg", fruit.name, whole.provenance),
        Way("given", share, "", food.name, ASSUMED),
    )
    return Try(
        quantity, number * bought * share, 0.3, as_bought=False, tail=tail, marks=(note,), way=way
    )


def _row(
    rows: tuple[HouseholdWeight, ...], measure: str, size: str, case: Case | None = None
) -> HouseholdWeight | None:
    """The household weight that fits best: form told in the line first, then size."""
    fitting = [row for row in rows if row.measure == measure]
    if len(fitting) < 2:
        return fitting[0] if fitting else None
    told: frozenset[str] = frozenset()
    if case is not None and any(row.form for row in fitting):
        told = _told(case)
    sizes = (size, "", "medium", "large", "small") if size else ("", "medium", "large", "small")

    def rank(row: HouseholdWeight) -> tuple[int, int]:
        form = 1 if not row.form else 0 if told.issuperset(words(row.form)) else 2
        return form, sizes.index(row.size) if row.size in sizes else len(sizes)

    return min(fitting, key=rank)


def _told(case: Case) -> frozenset[str]:
    """The comparable words that may tell a form: of the preparation and the name."""
    return frozenset(case.scales.words(f"{case.split.preparation} {case.split.name}"))


def _guessed(
    quantity: Quantity, number: float, case: Case, tail: str, usual: Guess, size: str = ""
) -> Try:
    times = SIZED.get(size, 1.0)
    sized = "" if times == 1.0 else f", {size}: {times:.2g} times that"
    note = assumed(f"The weight is assumed: {usual.what}, {grams(usual.kg)}{sized}.")
    way = (*_counted(quantity, number, case), Way("piece", usual.kg, "kg", usual.what, ASSUMED))
    if times != 1.0:
        way = (*way, Way("size", times, "", size, ASSUMED))
    return Try(
        quantity, number * times * usual.kg, usual.spread, usual.as_bought, tail, (note,), way=way
    )
