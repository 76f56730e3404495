"""How well names find their food, and lines their mass: shares on labelled files.

    python benchmarks/names_quality.py --names NAMES.csv --lines LINES.csv --recipes RECIPES.jsonl

The labelled files stay where they are: what is written holds numbers and row ids, never a text.
Any file may be left out; its section of the measurement file is then left as it was.
"""

from __future__ import annotations

import argparse
import csv
import json
import time
from collections import Counter, defaultdict
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Any

from counterproof.adapters.tables import load_tables
from counterproof.reading.foods import THRESHOLD, Matcher
from counterproof.reading.marking import read_lines, read_recipe
from counterproof.reading.name_index import NameIndex, canonical
from counterproof.reading.spellings import plain, words
from counterproof.recipe.kitchen import Kitchen
from counterproof.recipe.model import Recipe, WrittenLine

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from counterproof.reading.model import MarkedLine
    from counterproof.rows import Food, Tables

Row = dict[str, str]
MEASUREMENTS = Path(__file__).parent / "measurements" / "names_quality.json"
BINS = (0.0, 0.3, 0.55, 0.75, 0.9, 0.97, 1.01)

# Our food classes → the classes of the label that mean the same. Where ours is wider ("fruit"),
# the food's id decides; what an id cannot tell is right if any of the wide class's labels fits,
# and that is the case for every class below except vegetables, fruit, dairy and flour & starch,
# which are told apart by words of the id.
CLASSES: dict[str, str] = {
    "mushrooms": "mushrooms",
    "pulses": "pulses; legumes",
    "dried fruit": "dried fruit; fruit dried",
    "juices": "fruit juice; juice; citrus juice; vegetable juice",
    "fresh herbs": "fresh herbs; herbs",
    "dried herbs": "herb dried; herbs; herbs & spices dried",
    "spices": "spice dried; spices; herbs & spices dried",
    "grains": "other grains; cereals",
    "rice": "rice; cereals",
    "pasta & noodles": "pasta & noodles",
    "nuts & seeds": "nuts; seeds; tree nuts; nuts & seeds",
    "coconut products": "coconut products",
    "oils": "vegetable oil; oils; vegetable fats",
    "sugars & syrups": "sugar; sweeteners; honey & syrups",
    "jams & preserves": "jam & preserves",
    "chocolate & cocoa": "chocolate & cocoa; cocoa products",
    "tea & coffee": "tea; coffee; hot drinks",
    "plant-based": "plant milk; soy products",
    "thickeners": "food additives; other flour & starch; baking ingredients",
    "leavening": "leavening; baking ingredients",
    "flavourings": "flavouring extract; baking ingredients",
    "cheese": "cheese; cheese hard; cheese soft & fresh; cheese blue & semi-soft",
    "eggs": "eggs",
    "butter & fats": "butter; dairy fat; animal fat",
    "beef": "beef; red meat; ruminant meat",
    "veal": "beef; veal; red meat; ruminant meat",
    "lamb": "lamb; ruminant meat; red meat",
    "pork": "pork; processed pork; cured meat; meat",
    "poultry": "poultry meat; chicken; turkey",
    "game": "game; meat",
    "offal": "offal & blood",
    "fish": "fish; finfish",
    "shellfish": "shellfish & crustaceans; seafood",
    "condiments & sauces": "sauces & condiments; condiments",
    "pickles": "pickled vegetables; vegetables preserved; olives & capers",
    "stocks": "stock & broth; soups & stocks",
    "vinegars": "vinegar",
    "spirits & liqueurs": "spirits; liqueur; alcoholic drinks",
    "wine & beer": "wine; beer; cider; alcoholic drinks",
    "soft drinks": "soft drinks",
    "salt": "salt; seasoning",
    "sweets & desserts": "confectionery & desserts; desserts",
    "food additives": "food additives",
    "not food": "not food",
    "seaweed": "seaweed; vegetables",
}
# For the wide classes: words of a food's id → labels; "" stands for the rest.
WIDE: dict[str, dict[str, str]] = {
    "vegetables": {
        "tomato tomatoes passata": "tomatoes; tomatoes processed",
        "onion onions leek shallot chives": "onions & leeks; root & bulb vegetables",
        "garlic": "garlic",
        "potato potatoes chips": "potatoes; frozen potato products; starchy vegetables",
        "carrot radish celeriac beetroot parsnip swede turnip": "root vegetables; carrots",
        "pepper chilli chillies": "peppers & chillies",
        "lettuce spinach rocket chard salad kale cress": (
            "leafy vegetables; lettuce & salad leaves"
        ),
        "squash pumpkin courgette butternut": "squash & pumpkin",
        "sweetcorn corn": "sweetcorn",
        "peas beans mangetout": "peas & green beans; legume vegetables",
        "": "vegetables",
    },
    "fruit": {
        "cherries peach plum apricot nectarine": "stone fruit",
        "apple pear quince": "apples & pears; pome fruit",
        "orange lemon lime grapefruit mandarin": "citrus fruit",
        "blackberries cranberries raspberries strawberries currants blueberries": "berries",
        "melon watermelon": "melons",
        "grapes": "grapes",
        "mango pineapple banana passion kiwi papaya": "tropical fruit",
        "": "fruit",
    },
    "dairy": {
        "evaporated condensed powder": "milk powder & condensed milk",
        "milk": "cow's milk; milk",
        "cream": "cream; dairy",
        "yogurt yoghurt kefir buttermilk": "yoghurt & cultured dairy; yoghurt",
        "": "dairy",
    },
    "flour & starch": {
        "flour wheat": "wheat flour; flour; other flour & starch",
        "": "other flour & starch; starch; maize flour",
    },
    "bread & bakery": {
        "pastry": "pastry dough",
        "": "bread; bakery; wheat products",
    },
    "breakfast cereals": {
        "oats oat oatmeal": "oats; oats & other grains",
        "": "other grains; cereals",
    },
    "water & ice": {
        "ice": "ice",
        "sparkling": "sparkling water; soft drinks",
        "bottled": "bottled water; water",
        "": "tap water; water",
    },
}  # fmt: skip
# The label counts shortening with margarine; we count it with oils.
ALSO = {"shortening": "margarine", "flour-almond": "other flour & starch; nuts"}


def classes_of(food: Food) -> frozenset[str]:
    """Return the labels that are right for a food."""
    parts = set(food.id.split("-"))
    wide = WIDE.get(food.food_class)
    labels = CLASSES.get(food.food_class, "")
    if wide is not None:
        fitting = [text for ids, text in wide.items() if not parts.isdisjoint(ids.split())]
        labels = "; ".join(fitting) or wide[""]
    labels += "; " + ALSO.get(food.id, "")
    return frozenset(label for label in labels.split("; ") if label)


def _accepted(row: Row) -> frozenset[str]:
    labels = [row["food_class_gold"], *row["acceptable_alternatives"].split("; ")]
    return frozenset(label.strip() for label in labels if label.strip())


def _right(row: Row, food: Food) -> bool:
    return not classes_of(food).isdisjoint(_accepted(row))


def measured_names(rows: Sequence[Row], matcher: Matcher) -> dict[str, Any]:
    """Return the shares of names whose food has the right class, and the calibration."""
    right, wrong, silent = [], [], []
    bins: dict[int, list[bool]] = defaultdict(list)
    for row in rows:
        match = matcher.match(row["ingredient_name"])
        likely = match.food or (match.runners_up[0].food if match.runners_up else None)
        good = likely is not None and _right(row, likely)
        place = max(i for i, low in enumerate(BINS) if match.certainty >= low)
        bins[place].append(good)
        if match.food is None:
            silent.append(row["name_id"])
        elif good:
            right.append(row["name_id"])
        else:
            wrong.append(row["name_id"])
    return {
        "names": len(rows),
        "right": round(len(right) / len(rows), 4),
        "unanswered": round(len(silent) / len(rows), 4),
        "wrong": round(len(wrong) / len(rows), 4),
        "confidently_wrong": round(
            sum(matcher_certainty(rows, matcher, name) >= 0.75 for name in wrong) / len(rows), 4
        ),
        "wrong_rows": wrong,
        "unanswered_rows": silent,
        "calibration": [
            {
                "certainty_from": BINS[place],
                "certainty_below": min(1.0, BINS[place + 1]),
                "names": len(marks),
                "right": round(sum(marks) / len(marks), 4),
            }
            for place, marks in sorted(bins.items())
        ],
    }


def matcher_certainty(rows: Sequence[Row], matcher: Matcher, name_id: str) -> float:
    """Return the certainty of one row's match."""
    row = next(row for row in rows if row["name_id"] == name_id)
    return matcher.match(row["ingredient_name"]).certainty


@contextmanager
def _forgotten(index: NameIndex, name: str) -> Iterator[None]:
    """The index as if the table had never held this name."""
    own = canonical(words(name))
    wanted = frozenset(own)
    twos = [(head, other) for head in own for other in (*own, "")]
    kept = {two: index.by_two[two] for two in twos if two in index.by_two}
    alone = index.alone.pop(wanted, None)
    exact = index.exact.pop(" ".join(words(name)), None)
    named = index.by_name.pop(plain(name).strip(), None)
    noun = len(own) == 1 and own[0] in index.nouns
    for two, entries in kept.items():
        index.by_two[two] = [entry for entry in entries if entry.words != wanted]
    if noun:
        noun_class = index.nouns.pop(own[0])
    try:
        yield
    finally:
        index.by_two.update(kept)
        if alone is not None:
            index.alone[wanted] = alone
        if exact is not None:
            index.exact[" ".join(words(name))] = exact
        if named is not None:
            index.by_name[plain(name).strip()] = named
        if noun:
            index.nouns[own[0]] = noun_class


def measured_forgotten(tables: Tables, matcher: Matcher) -> dict[str, Any]:
    """Return how sure the matcher is, and how right, about names the table has never seen.

    Every name of the table is looked up as if it were not there. This is the honest calibration:
    a labelled file that was looked at while the table grew cannot give it.
    """
    index = matcher._index  # noqa: SLF001 - nobody but this measurement forgets a name
    bins: dict[int, list[tuple[bool, bool]]] = defaultdict(list)
    confident = asked = 0
    for row in tables.names:
        food = tables.foods[row.food]
        asked += 1
        with _forgotten(index, row.name):
            match = matcher.match(row.name, region=row.region)
        likely = match.food or (match.runners_up[0].food if match.runners_up else None)
        same = likely == food
        akin = likely is not None and likely.food_class == food.food_class
        place = max(i for i, low in enumerate(BINS) if match.certainty >= low)
        bins[place].append((same, akin))
        confident += match.food is not None and match.certainty >= 0.75 and not akin
    return {
        "names": asked,
        "confidently_wrong_class": round(confident / asked, 4),
        "calibration": [
            {
                "certainty_from": BINS[place],
                "certainty_below": min(1.0, BINS[place + 1]),
                "names": len(marks),
                "same_food": round(sum(same for same, _ in marks) / len(marks), 4),
                "same_class": round(sum(akin for _, akin in marks) / len(marks), 4),
            }
            for place, marks in sorted(bins.items())
        ],
    }


def _shares(lines: Iterable[MarkedLine]) -> dict[str, Any]:
    lines = list(lines)
    kinds = Counter(mark.kind for line in lines for mark in line.marks)
    weighed = sum(line.mass is not None for line in lines)
    # A true reason: the line itself gives no amount or no food.
    reasons = {"no-amount", "no-food", "not-food"}
    excused = sum(
        line.mass is None
        and any(mark.level == "fault" and mark.kind in reasons for mark in line.marks)
        for line in lines
    )
    return {
        "lines": len(lines),
        "with_food": round(sum(line.food is not None for line in lines) / len(lines), 4),
        "with_mass": round(weighed / len(lines), 4),
        "with_mass_or_reason": round((weighed + excused) / len(lines), 4),
        "certain_from_075": round(sum(line.certainty >= 0.75 for line in lines) / len(lines), 4),
        "below_threshold": round(sum(line.certainty < THRESHOLD for line in lines) / len(lines), 4),
        "marks": dict(sorted(kinds.items())),
    }


def measured_lines(rows: Sequence[Row], tables: Tables, matcher: Matcher) -> dict[str, Any]:
    """Return the shares of lines with a food and a mass, and the speed of the whole reading."""
    written = [WrittenLine(number, row["input"]) for number, row in enumerate(rows, start=1)]
    read_lines(written[:50], tables, matcher)
    start = time.process_time()
    lines = [
        line
        for place in range(0, len(written), 10)
        for line in read_lines(written[place : place + 10], tables, matcher)
    ]
    seconds = time.process_time() - start
    unread = [row["line_id"] for row, line in zip(rows, lines, strict=True) if line.mass is None]
    return {
        **_shares(lines),
        "lines_per_second": round(len(lines) / seconds, -2),
        "without_mass_rows": unread,
    }


def measured_recipes(path: Path, tables: Tables, matcher: Matcher) -> dict[str, Any]:
    """Return the shares over whole recipes, each read to the end, no line dropped."""
    lines: list[MarkedLine] = []
    count = dropped = 0
    for text in path.read_text(encoding="utf-8").splitlines():
        row = json.loads(text)
        recipe = Recipe(
            title=row["title"],
            lines=tuple(WrittenLine(n, line) for n, line in enumerate(row["ingredients"], 1)),
            steps=tuple(WrittenLine(n, step) for n, step in enumerate(row["instructions"], 1)),
        )
        reading = read_recipe(recipe, tables, matcher, Kitchen())
        count += 1
        dropped += len(recipe.lines) - len(reading.lines)
        lines += reading.lines
    return {"recipes": count, "lines_dropped": dropped, **_shares(lines)}


def main() -> None:
    """Measure what was asked for and write it."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--names", type=Path)
    parser.add_argument("--lines", type=Path)
    parser.add_argument("--recipes", type=Path)
    asked = parser.parse_args()
    tables = load_tables()
    matcher = Matcher(tables)
    found: dict[str, Any] = (
        json.loads(MEASUREMENTS.read_text(encoding="utf-8")) if MEASUREMENTS.exists() else {}
    )
    found["data_sha256"] = tables.sha256
    # A matcher of its own: what it answers while a name is forgotten, it may hold.
    found["forgotten"] = measured_forgotten(tables, Matcher(tables))
    if asked.names:
        with asked.names.open(encoding="utf-8", newline="") as file:
            found["names"] = measured_names(list(csv.DictReader(file)), matcher)
    if asked.lines:
        with asked.lines.open(encoding="utf-8", newline="") as file:
            found["lines"] = measured_lines(list(csv.DictReader(file)), tables, matcher)
    if asked.recipes:
        found["recipes"] = measured_recipes(asked.recipes, tables, matcher)
    MEASUREMENTS.parent.mkdir(exist_ok=True)
    MEASUREMENTS.write_text(json.dumps(found, indent=1, sort_keys=True) + "\n", encoding="utf-8")
    for part in ("names", "forgotten", "lines", "recipes"):
        shown = {k: v for k, v in found.get(part, {}).items() if not k.endswith("rows")}
        print(part, json.dumps(shown, indent=1))


if __name__ == "__main__":
    main()
