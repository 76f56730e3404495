"""How well steps are read: shares right on a labelled file of instruction sentences.

    python benchmarks/steps_quality.py --steps FILE.csv      measure and write

The labelled file stays where it is; what is written holds numbers and row ids. The page is
rendered by reading_quality.py.
"""

from __future__ import annotations

import argparse
import csv
import json
from pathlib import Path
from typing import Any

from counterproof.reading.model import Process
from counterproof.reading.steps import main_process, sentence_processes

MEASUREMENTS = Path(__file__).parent / "measurements" / "steps_quality.json"
LIDS = {"on": True, "partial": True, "off": False, "": None}
HUNDREDTH = 0.011  # minutes; the labels print two decimals

Row = dict[str, str]


def process_right(row: Row, found: Process | None) -> bool:
    """Return whether the main process is the labelled one or one that is as good."""
    kind = found.kind if found else "none"
    return kind in {row["process"], *row["acceptable_alternatives"].split(";")}


def minutes_right(row: Row, found: Process | None) -> bool:
    """Return whether both bounds of the time agree; an open end counts as a bound."""
    told = (found.minutes if found else None) or (None, None)
    labels = (row["duration_min_minutes"], row["duration_max_minutes"])
    return all(
        (value is None) == (label == "")
        and (value is None or abs(value - float(label)) <= HUNDREDTH)
        for value, label in zip(told, labels, strict=True)
    )


def temperature_right(row: Row, found: Process | None) -> bool:
    """Return whether the temperature agrees within 1 °C, or lies in the labelled range."""
    label = row["temperature_c"]
    celsius = found.celsius if found else None
    if not label or celsius is None:
        return not label and celsius is None
    ends = [float(end) for end in label.split("-")]
    return min(ends) - 1 <= celsius <= max(ends) + 1


def lid_right(row: Row, found: Process | None) -> bool:
    """Return whether the lid is read as labelled."""
    return (found.covered if found else None) is LIDS[row["lid"]]


CHECKS = {
    "main process": process_right,
    "time": minutes_right,
    "temperature": temperature_right,
    "lid": lid_right,
}


def measured_steps(rows: list[Row]) -> dict[str, Any]:
    """Return the shares right, and the rows that are not."""
    found = {row["step_id"]: main_process(sentence_processes(row["sentence"])) for row in rows}
    wrong = {
        name: [row["step_id"] for row in rows if not check(row, found[row["step_id"]])]
        for name, check in CHECKS.items()
    }
    return {
        "sentences": len(rows),
        "right": {name: round(1 - len(ids) / len(rows), 4) for name, ids in wrong.items()},
        "wrong_rows": wrong,
    }


def main() -> None:
    """Measure a labelled file and write the shares."""
    parser = argparse.ArgumentParser(description="How well steps are read.")
    parser.add_argument("--steps", type=Path, required=True, help="labelled sentences, CSV")
    with parser.parse_args().steps.open(encoding="utf-8", newline="") as file:
        measured = measured_steps(list(csv.DictReader(file)))
    MEASUREMENTS.write_text(json.dumps(measured, indent=1) + "\n", "utf-8")
    for name, share in measured["right"].items():
        print(f"{name:16} {share:.1%}")


if __name__ == "__main__":
    main()
