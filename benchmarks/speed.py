"""How fast the program is: reading lines, loading tables, a command from a cold start, a footprint.

    python benchmarks/speed.py                            measure on invented lines, write, render
    python benchmarks/speed.py --lines FILE.csv           the same, and on a file of real lines
    python benchmarks/speed.py --comparison               measure a comparison only, keep the rest
    python benchmarks/speed.py --page                     render the page from what was measured

Reading and loading are timed in processor time (best of the runs: the others were disturbed), a
command in time on the clock (median). The physics has its own scripts and pages.
"""

from __future__ import annotations

import argparse
import csv
import json
import os
import platform
import subprocess
import sys
import tempfile
from collections.abc import Callable
from dataclasses import replace
from functools import partial
from itertools import product
from pathlib import Path
from statistics import median
from time import perf_counter, process_time
from typing import Any

import footprint_speed
from jinja2 import Environment, FileSystemLoader, StrictUndefined

from counterproof.adapters.files import demo_season, episodes, load_recipe
from counterproof.adapters.tables import checked_tables, load_tables, table_contents, uncollected
from counterproof.draws import DRAWS, Lognormal, Parameter, Product, Streams
from counterproof.footprint.assess import assess
from counterproof.plan.model import EnergyUse, Plan
from counterproof.reading.foods import Matcher
from counterproof.reading.lines import split_line
from counterproof.reading.marking import read_lines
from counterproof.reading.meant import meant
from counterproof.reading.settling import settled
from counterproof.recipe.kitchen import Kitchen
from counterproof.recipe.model import WrittenLine
from counterproof.rows import Tables
from counterproof.use_cases import Order, Workbench, assessed

HERE = Path(__file__).parent
MEASUREMENTS = HERE / "measurements" / "speed.json"
PAGE = HERE.parent / "docs" / "speed.md"
TEMPLATE = "speed_page.md.j2"
RUNS = 5


def invented_lines() -> list[str]:
    """Return 2,016 lines in the styles cooks use, each different."""
    amounts = ["2", "1½ kg", "250 g/9 oz", "1 cup (125 ml)", "2 x 400 g tins", "1 (14-ounce) can"]
    amounts += ["a handful of", "1 cup plus 2 tbsp", "2-3", "juice of ½", "", "3 large"]
    names = ["leeks", "white beans", "butter or margarine", "finely chopped chives", "rye flour"]
    names += ["chicken, beef, or vegetable stock", "damsons"]
    rests = ["", ", peeled and sliced", " (optional)", ", to taste", ", plus extra for dusting"]
    rests += [", cut into 2 cm pieces"]
    times = ["", " (about 200 g)", ", divided", ", at room temperature"]
    return [
        f"{amount} {name}{rest}{more}".strip()
        for amount, name, rest, more in product(amounts, names, rests, times)
    ]


def processor_seconds(once: Callable[[], object]) -> float:
    """Least processor time of a call over the runs. [s]"""
    return min(_taken(once) for _ in range(RUNS))


def cold_seconds(tables: Tables, reads: Callable[[Matcher], object]) -> float:
    """Least processor time of a reading over the runs, each with a matcher that has met no name. [s]

    The matcher is made as every command makes it, out of the way of the search for garbage.
    """

    def once() -> float:
        with uncollected():
            matcher = Matcher(tables)
        return _taken(partial(reads, matcher))

    return min(once() for _ in range(RUNS))


def _made(tables: Tables) -> float:
    """Least processor time to arrange the names, as every command does. [s]"""
    with uncollected():
        return processor_seconds(lambda: Matcher(tables))


def _taken(once: Callable[[], object]) -> float:
    begun = process_time()
    once()
    return process_time() - begun


def reading_speeds(lines: list[str], tables: Tables) -> dict[str, float]:
    """Lines a second and core: split, split and matched, and weighed too; nothing held before."""
    written = [WrittenLine(at, line) for at, line in enumerate(lines, start=1)]

    def split() -> None:
        for line in lines:
            split_line(line)

    def matched(matcher: Matcher) -> None:
        for line in lines:
            meant(settled(split_line(line), "us"), matcher)

    return {
        "lines": len(lines),
        "split": round(len(lines) / processor_seconds(split)),
        "matched": round(len(lines) / cold_seconds(tables, matched)),
        "weighed": round(
            len(lines) / cold_seconds(tables, lambda matcher: read_lines(written, tables, matcher))
        ),
    }


def command_seconds(*words: str) -> tuple[float, float]:
    """Median time on the clock, and least processor time, of a command in a new process. [s]

    As after an installation, the compiled modules are at hand.
    """
    clock, processor = [], []
    with tempfile.TemporaryDirectory() as compiled:
        settings = {**os.environ, "PYTHONPYCACHEPREFIX": compiled}
        settings.pop("PYTHONDONTWRITEBYTECODE", None)
        for _ in range(RUNS + 1):  # the first compiles
            used, begun = _processor_time_of_children(), perf_counter()
            subprocess.run(  # noqa: S603 (our own program)
                [sys.executable, "-m", "counterproof", *words],
                check=False, capture_output=True, env=settings,
            )  # fmt: skip
            clock.append(perf_counter() - begun)
            processor.append(_processor_time_of_children() - used)
    return round(median(clock[1:]), 2), round(min(processor[1:]), 2)


def _processor_time_of_children() -> float:
    times = os.times()
    return times.children_user + times.children_system


def footprint_times(tables: Tables) -> dict[str, float]:
    """A demo episode from a cold start and again in process, and the assessment by itself."""
    recipe_file = episodes(demo_season())[0]
    recipe, _ = load_recipe(str(recipe_file))
    bench, held, order = Workbench.over(tables), Streams(seed=1), Order(recipe, Kitchen())
    assessed(order, bench, held)

    def typed(at: int) -> Order:
        """The recipe with a line more, whose amount is another each time, as while a cook types."""
        line = WrittenLine(len(recipe.lines) + 1, f"{501 + at} g potatoes")
        return replace(order, recipe=replace(recipe, lines=(*recipe.lines, line)))

    reading = footprint_speed.made_reading(tables)
    plan = Plan()
    assess(reading, tables, plan, streams=held)
    cold = command_seconds("footprint", str(recipe_file), "--json")
    return {
        "lines": len(recipe.lines),
        "draws": DRAWS,
        "help_s": command_seconds("--help")[0],
        "cold_s": cold[0],
        "cold_processor_s": cold[1],
        "typed_ms": footprint_speed.milliseconds(lambda at: assessed(typed(at), bench, held), 20),
        "warm_ms": footprint_speed.milliseconds(lambda _: assessed(order, bench, held), 20),
        "assess_ms": footprint_speed.milliseconds(
            lambda _: assess(reading, tables, plan, streams=held), 50
        ),
    }


def measured(file: Path | None, column: str) -> dict[str, Any]:
    """Measure everything; lines of a file are timed, never kept."""
    tables = load_tables()
    reading = {"invented": reading_speeds(invented_lines(), tables)}
    if file is not None:
        with file.open(encoding="utf-8", newline="") as content:
            lines = [row[column] for row in csv.DictReader(content)]
        reading["development"] = reading_speeds(lines, tables)
    return {
        "machine": {
            "cores": os.cpu_count(),
            "python": platform.python_version(),
            "busy": os.getloadavg()[0],  # processes that wanted a core, the minute before
        },
        "reading": reading,
        "tables": {
            "foods": len(tables.foods),
            "names": len(tables.names),
            "load_ms": 1000 * processor_seconds(load_tables),
            "checked_ms": 1000 * processor_seconds(lambda: checked_tables(table_contents())),
            "matcher_ms": 1000 * _made(tables),
        },
        "footprint": footprint_times(tables),
        "comparison": comparison_times(tables),
    }


def comparison_times(tables: Tables) -> dict[str, float]:
    """A comparison of four versions of 20 lines, streams held, and how busy the machine was."""
    hob = Product(0.6, (Parameter("energy-use|simmer|30", Lognormal.from_spread(1.0, 0.2)),))
    plan = Plan(energy=(EnergyUse("simmer", "electricity", hob, 1),))
    clock, processor = footprint_speed.comparison_times(tables, plan, Streams(seed=1))
    return {"clock_ms": clock, "processor_ms": processor, "busy": os.getloadavg()[0]}


def rendered(speeds: dict[str, Any]) -> str:
    """Return the page, made from the measurements and from nothing else."""
    pages = Environment(
        loader=FileSystemLoader(HERE),
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
        autoescape=False,  # noqa: S701 (the page is Markdown; nothing in it comes from outside)
    )
    return pages.get_template(TEMPLATE).render(**speeds)


def main() -> None:
    """Measure, write and render."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else "")
    parser.add_argument("--lines", type=Path, help="CSV file with one line a row")
    parser.add_argument("--column", default="input")
    parser.add_argument("--comparison", action="store_true", help="measure a comparison only")
    parser.add_argument("--page", action="store_true", help="render only")
    options = parser.parse_args()
    if options.comparison:
        speeds = json.loads(MEASUREMENTS.read_text("utf-8"))
        speeds["comparison"] = comparison_times(load_tables())
        MEASUREMENTS.write_text(json.dumps(speeds, indent=1) + "\n", "utf-8")
    elif not options.page:
        speeds = measured(options.lines, options.column)
        MEASUREMENTS.write_text(json.dumps(speeds, indent=1) + "\n", "utf-8")
    PAGE.write_text(rendered(json.loads(MEASUREMENTS.read_text("utf-8"))), "utf-8")
    print(PAGE.read_text("utf-8"))


if __name__ == "__main__":
    main()
