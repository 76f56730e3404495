"""How many lines a second one core splits, cold: no line is seen twice, nothing is cached.

    python benchmarks/reading_speed.py FILE.csv [--column input]
    python benchmarks/reading_speed.py                  on invented lines

Prints lines per second of processor time, the best and the middle of five runs.
"""

from __future__ import annotations

import argparse
import csv
from itertools import product
from pathlib import Path
from statistics import median
from time import process_time

from counterproof.reading.lines import split_line

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


def lines_per_second(lines: list[str]) -> float:
    """Return the lines split per second of processor time."""
    begun = process_time()
    for line in lines:
        split_line(line)
    return len(lines) / (process_time() - begun)


def main() -> None:
    """Measure and print."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else "")
    parser.add_argument("file", nargs="?", type=Path, help="CSV file with one line a row")
    parser.add_argument("--column", default="input")
    options = parser.parse_args()
    lines = invented_lines()
    if options.file:
        with options.file.open(encoding="utf-8", newline="") as file:
            lines = [row[options.column] for row in csv.DictReader(file)]
    speeds = [lines_per_second(lines) for _ in range(RUNS)]
    print(f"{len(lines)} lines: best {max(speeds):,.0f}/s, middle {median(speeds):,.0f}/s")


if __name__ == "__main__":
    main()
