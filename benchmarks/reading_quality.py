"""How well lines are read: shares right on a labelled file, by kind of line.

    python benchmarks/reading_quality.py --lines FILE.csv      measure, write, render the page
    python benchmarks/reading_quality.py                       render the page again
    python benchmarks/reading_quality.py --faults FILE.csv     show what was read wrong, here only

The labelled file stays where it is: what is written holds numbers and row ids, never a line.
Each part of the reading measures into a file of its own under `measurements`; the page is made
from all of them, so that one part can be measured anew without the others.
"""

from __future__ import annotations

import argparse
import csv
import json
from collections import Counter, defaultdict
from pathlib import Path
from typing import TYPE_CHECKING, Any

from jinja2 import Environment, FileSystemLoader, StrictUndefined

from counterproof.reading.lines import split_line
from counterproof.reading.words import FILLS, NUMBER_WORDS, SIZES
from counterproof.units import measure_named, unit_kg, unit_ml

if TYPE_CHECKING:
    from collections.abc import Sequence

    from counterproof.reading.model import Split

HERE = Path(__file__).parent
MEASUREMENTS = HERE / "measurements" / "reading_quality.json"
NAMES = HERE / "measurements" / "names_quality.json"
HOSTILE = HERE / "measurements" / "hostile_text.json"
UNSEEN = HERE / "measurements" / "unseen_lines.json"
STEPS = HERE / "measurements" / "steps_quality.json"
REASONS = HERE / "measurements" / "reading_faults.csv"
TEMPLATE = "reading_page.md.j2"
PAGE = HERE.parent / "docs" / "reading.md"

Row = dict[str, str]
_CLOSE = 0.006  # relative; the labels print four decimals
_WORD_VALUES = {value for pair in NUMBER_WORDS.values() for value in pair}
_SKIPPED_IN_NAMES = frozenset({"a", "an", "of", "the", "or", "and"})


# --- amounts ------------------------------------------------------------------------------


def labelled_units(text: str) -> tuple[list[str], set[str]]:
    """Return the measures a label names, in order, and its words of size or fill."""
    measures: list[str] = []
    sizes: set[str] = set()
    for word in text.replace("fl ounce", "floz").replace("fl oz", "floz").split():
        lower = word.lower()
        if lower in SIZES:
            sizes.add(SIZES[lower])
        elif lower in FILLS:
            sizes.add(lower)
        else:
            head = "inch" if lower == "in" else word.split("-")[0]
            measures.append(measure_named(word) or measure_named(head) or lower)
    return measures, sizes


def _same(one: Sequence[float], other: Sequence[float]) -> bool:
    return len(one) == len(other) and all(
        abs(a - b) <= _CLOSE * max(abs(a), abs(b), 0.1) for a, b in zip(one, other, strict=True)
    )


def _size_right(split: Split, sizes: set[str]) -> bool:
    said = set(split.size.split()) | set(split.flags)
    return all(size in said for size in sizes if size)


def _summed(values: list[float], units: list[str]) -> tuple[list[float], list[str]]:
    """Add neighbours that a line may add: "1 lb 8 oz", "1 cup plus 2 tbsp"."""
    out_values: list[float] = []
    out_units: list[str] = []
    for value, unit in zip(values, units, strict=True):
        last = out_units[-1] if out_units else ""
        if (last, unit) in {("lb", "oz"), ("kg", "g")}:
            out_values[-1] += value * unit_kg(unit) / unit_kg(last)
        elif {last, unit} <= {"cup", "tbsp", "tsp", "pint", "floz", "quart"} and unit_ml(
            unit
        ) <= unit_ml(last):
            out_values[-1] += value * unit_ml(unit) / unit_ml(last)
        else:
            out_values.append(value)
            out_units.append(unit)
    return out_values, out_units


def _numbers(split: Split) -> list[float]:
    numbers: list[float] = []
    for quantity in split.quantities:
        numbers.append(quantity.low)
        if quantity.high != quantity.low:
            numbers.append(quantity.high)
    numbers += [float(word) for word in split.size.split() if word.replace(".", "").isdigit()]
    return numbers


def _measures(split: Split) -> set[str]:
    found = {quantity.measure for quantity in split.quantities} | {split.container}
    found |= {word for word in split.size.split() if word in {"inch", "cm", "mm"}}
    return found - {"piece", ""}


def _in_words(row: Row, split: Split) -> bool:
    """Return whether amounts stand in words ("a few", "one"), which the labels do not count."""
    if any(word.isalpha() for word in row["quantity_gold"].split()):
        return True
    amounts = " ".join(part.text for part in split.parts if part.kind == "amount")
    return not any(char.isdigit() for char in amounts)


def all_amounts_right(row: Row, split: Split) -> bool:
    """Return whether every number and unit of the label is there, and none besides."""
    values = [float(value) for value in row["quantity_values"].split("|") if value]
    units, sizes = labelled_units(row["unit_gold"])
    numbers = _numbers(split)
    if not _size_right(split, sizes):
        return False
    variants = [(values, units)]
    if len(values) == len(units):
        variants.append(_summed(values, units))
    elif len(values) == len(units) + 1 and values[0] == split.packs:
        summed, measures_summed = _summed(values[1:], units)
        variants.append(([values[0], *summed], measures_summed))
    packed = [numbers, [split.packs, *numbers]]
    for wanted, measures in variants:
        if set(measures) - {"piece"} != _measures(split):
            continue
        if any(_same(sorted(wanted), sorted(mine)) for mine in packed):
            return True
        words = [n for n in numbers if n not in _WORD_VALUES]
        if _in_words(row, split) and _same(sorted(wanted), sorted(words)):
            return True
    return False


def first_amount_right(row: Row, split: Split) -> bool:
    """Return whether the first amount of a line is right; all of them where none comes first."""
    if not row["derived_first_quantity_min"]:
        return all_amounts_right(row, split)
    low, high = float(row["derived_first_quantity_min"]), float(row["derived_first_quantity_max"])
    units, sizes = labelled_units(row["derived_first_unit"])
    unit = units[0] if units else "piece"
    if not split.quantities or not _size_right(split, sizes):
        return False
    first = split.quantities[0]
    if first.measure == unit and _same([low, high], [first.low, first.high]):
        return True
    if split.container == unit and _same([low, high], [split.packs, split.packs]):
        return True
    if not split.container and unit == "piece" and _same([low, high], [split.packs, split.packs]):
        return True
    return all_amounts_right(row, split)


# --- names --------------------------------------------------------------------------------


def _token(word: str) -> str:
    word = word.lower().strip(",.;:()'’\"")
    word = word.removesuffix("'s").replace("'", "").replace("’", "")
    if word in {"leaves", "loaves", "halves"}:
        return word[:-3] + "f"
    for ending, stem in (("ies", "y"), ("oes", "o"), ("ss", "ss"), ("s", "")):
        if word.endswith(ending) and len(word) > 3:
            return word[: -len(ending)] + stem
    return word


def _tokens(text: str) -> set[str]:
    return {_token(word) for word in text.replace("-", " ").split()} - _SKIPPED_IN_NAMES - {""}


def overlap(one: str, other: str) -> float:
    """Return the F1 overlap of the words of two names."""
    a, b = _tokens(one), _tokens(other)
    if not a and not b:
        return 1.0
    return 2 * len(a & b) / (len(a) + len(b))


def name_right(row: Row, split: Split) -> bool:
    """Return whether the name was cut right: four fifths of the words shared.

    Where the label offers alternatives, either or both may be returned; how a line is
    prepared may stand in the name or beside it, as the labels themselves differ there.
    """
    label = row["name_gold"]
    options = [label, *label.split(" or ")] if " or " in label else [label]
    mine = [split.name, " ".join((split.name, *split.alternatives))]
    return any(overlap(option, name) >= 0.8 for option in options for name in mine)


# --- the section --------------------------------------------------------------------------


def measured_lines(rows: list[Row]) -> dict[str, Any]:
    """Return the shares right by kind of line, and the row ids of what was read wrong.

    Parameters
    ----------
    rows : list of Row
        A labelled file, row by row.

    Returns
    -------
    dict
        `kinds`: kind of line → number of lines and three shares [1]; `wrong_rows`: row ids.
    """
    kinds: dict[str, list[tuple[bool, bool, bool]]] = defaultdict(list)
    wrong: dict[str, list[str]] = {"first_amount": [], "all_amounts": [], "name_cut": []}
    for row in rows:
        split = split_line(row["input"])
        marks = (
            first_amount_right(row, split),
            all_amounts_right(row, split),
            name_right(row, split),
        )
        subset = row["subset"].partition(":")
        tags = [tag for tag in row["hard_tags"].split(";") if tag]
        for kind in {"all", subset[0], f"source {row['dataset']}", *(tags or ["plain"])}:
            kinds[kind].append(marks)
        for key, right in zip(wrong, marks, strict=True):
            if not right:
                wrong[key].append(row["line_id"])
    return {
        "lines": len(rows),
        "kinds": {
            kind: {
                "lines": len(marks),
                "first_amount": round(sum(m[0] for m in marks) / len(marks), 4),
                "all_amounts": round(sum(m[1] for m in marks) / len(marks), 4),
                "name_cut": round(sum(m[2] for m in marks) / len(marks), 4),
            }
            for kind, marks in sorted(kinds.items())
        },
        "wrong_rows": wrong,
    }


def shown_faults(rows: list[Row]) -> None:
    """Print what was read wrong, for whoever improves the grammar."""
    for row in rows:
        split = split_line(row["input"])
        marks = "".join(
            letter
            for letter, right in (
                ("F", first_amount_right(row, split)),
                ("A", all_amounts_right(row, split)),
                ("N", name_right(row, split)),
            )
            if not right
        )
        if not marks:
            continue
        amounts = [(q.low, q.high, q.measure) for q in split.quantities]
        print(
            f"{marks:3} {row['line_id']} | {row['input']}\n"
            f"      label {row['quantity_values']} {row['unit_gold']} | {row['name_gold']}\n"
            f"      read  {amounts} ×{split.packs:g} {split.container} [{split.size}]"
            f" | {split.name} | or {split.alternatives} | P {split.preparation}"
            f" | C {split.comment} {sorted(split.flags)}"
        )


# --- the page -----------------------------------------------------------------------------


def percent(share: float) -> str:
    """Return a share as printed: one decimal."""
    return f"{100 * share:.1f} %"


def rendered() -> str:
    """Return the page, made from the measurements and from nothing else."""
    lines = json.loads(MEASUREMENTS.read_text("utf-8"))["lines"]
    names = json.loads(NAMES.read_text("utf-8"))
    steps = json.loads(STEPS.read_text("utf-8"))
    hostile = json.loads(HOSTILE.read_text("utf-8"))
    unseen = json.loads(UNSEEN.read_text("utf-8"))["rounds"]
    reasons = {
        row["row_id"]: row["reason"]
        for row in csv.DictReader(REASONS.read_text("utf-8").splitlines())
    }
    why = {
        key: Counter(reasons.get(row, "not looked at") for row in rows)
        for key, rows in lines["wrong_rows"].items()
    }
    worst = sorted(
        (kind for kind in lines["kinds"] if kind not in {"all", "random", "hard"}),
        key=lambda kind: lines["kinds"][kind]["all_amounts"],
    )
    page = Environment(
        loader=FileSystemLoader(HERE),
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
        autoescape=False,  # noqa: S701 (the page is Markdown; nothing in it comes from outside)
    )
    page.filters["percent"] = percent
    return page.get_template(TEMPLATE).render(
        lines=lines,
        why=why,
        worst=worst,
        names=names,
        steps=steps,
        hostile=hostile,
        unseen=unseen,
    )


def main() -> None:
    """Measure if a labelled file is given, then render the page."""
    parser = argparse.ArgumentParser(description="How well lines are read.")
    parser.add_argument("--lines", type=Path, help="labelled lines, CSV")
    parser.add_argument("--faults", type=Path, help="labelled lines to show faults of, CSV")
    options = parser.parse_args()
    given = options.faults or options.lines
    rows = []
    if given:
        with given.open(encoding="utf-8", newline="") as file:
            rows = list(csv.DictReader(file))
    if options.faults:
        shown_faults(rows)
        return
    measured = json.loads(MEASUREMENTS.read_text("utf-8")) if MEASUREMENTS.exists() else {}
    if options.lines:
        first_run = measured.get("lines", {}).get("first_run")
        measured["lines"] = measured_lines(rows)
        if first_run:
            measured["lines"]["first_run"] = first_run
        MEASUREMENTS.write_text(json.dumps(measured, indent=1) + "\n", "utf-8")
        for kind, shares in measured["lines"]["kinds"].items():
            print(f"{kind:24}", *(f"{key} {value}" for key, value in shares.items()), sep="  ")
    PAGE.write_text(rendered(), "utf-8")


if __name__ == "__main__":
    main()
