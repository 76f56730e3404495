"""How long a press folder takes: from a cold start, again in a process that runs, and file by file.

    python benchmarks/press_speed.py             measure, write, render docs/press.md
    python benchmarks/press_speed.py --page      render the page from what was measured

Wanted: a demo episode below 6 s cold and 2.5 s warm, each still below 200 ms. Each run is timed on
the clock and in processor time, of all threads together; the least of the runs counts, for the
others were disturbed. How busy the machine was stands beside it.
"""

from __future__ import annotations

import argparse
import json
import os
import platform
import resource
import subprocess
import sys
import tempfile
from collections import Counter
from pathlib import Path
from time import perf_counter, process_time
from typing import Any

from jinja2 import Environment, FileSystemLoader, StrictUndefined

from counterproof.adapters.files import demo_season, episodes
from counterproof.adapters.pressing import press_into
from counterproof.adapters.typst_setting import composing_room
from counterproof.cli import opening
from counterproof.forme import Forme
from counterproof.locking_up import locked_up
from counterproof.press.folder import PARTS, pieces_of
from counterproof.press.manifest import Impression, Manifest
from counterproof.press.part import Setting

HERE = Path(__file__).parent
MEASUREMENTS = HERE / "measurements" / "press_speed.json"
PAGE = HERE.parent / "docs" / "press.md"
TEMPLATE = "press_page.md.j2"
RUNS = 4
DAY = "2026-11-25"
EPISODE = episodes(demo_season())[0]


def cold_seconds(folder: Path) -> tuple[float, float]:
    """The command in a new process: on the clock, and in processor time. [s]"""
    clock, processor = [], []
    for run in range(RUNS):
        begun, used = perf_counter(), _children()
        command = [sys.executable, "-m", "counterproof", "press", str(EPISODE), "--date", DAY]
        done = subprocess.run(  # noqa: S603 (our own program)
            [*command, "-o", str(folder / f"cold-{run}")], check=False, capture_output=True
        )
        if done.returncode > 1:  # a doubt leaves with 1
            raise SystemExit(done.stderr.decode())
        clock.append(perf_counter() - begun)
        processor.append(_children() - used)
    return min(clock), min(processor)


def _children() -> float:
    """Processor time of all processes that were started and have ended. [s]"""
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    return used.ru_utime + used.ru_stime


def warm_seconds(folder: Path) -> tuple[float, float, Forme]:
    """Pressing again in one process, tables and draws at hand: on the clock, and used. [s]"""
    manuscript = opening.manuscript(str(EPISODE), None, None)
    bench, streams = opening.bench(manuscript.episode.order.kitchen), opening.streams(1, 10_000)
    asked = Impression("", None, DAY, "en", "a5", "both", None, 1, 10_000)

    def once() -> Forme:
        forme = locked_up(manuscript, bench, streams, date=DAY)
        manifest = Manifest(asked, forme.edition.basis, {})
        press_into(folder / "warm", forme, manifest, (), lambda _: None)
        return forme

    forme = once()
    clock, processor = [], []
    for _ in range(RUNS):
        begun, used = perf_counter(), process_time()
        once()
        clock.append(perf_counter() - begun)
        processor.append(process_time() - used)
    return min(clock), min(processor), forme


def milliseconds_by_file(forme: Forme) -> dict[str, dict[str, float]]:
    """What each file takes once the forme is locked up, least of the runs: part → file → [ms]."""
    taken: dict[str, dict[str, list[float]]] = {part: {} for part in PARTS}
    with composing_room(DAY) as set_job:
        for _ in range(RUNS):
            begun = perf_counter()
            for part, piece in pieces_of(forme, tuple(PARTS)):
                if isinstance(piece.content, Setting):
                    set_job(piece.name, piece.content)
                now = perf_counter()
                taken[part].setdefault(piece.name, []).append(1000 * (now - begun))
                begun = now
    return {
        part: {name: round(min(times), 1) for name, times in files.items()}
        for part, files in taken.items()
    }


def measured() -> dict[str, Any]:
    """Measure everything, in a folder that is gone afterwards."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        busy = os.getloadavg()[0]
        cold, cold_used = cold_seconds(folder)
        warm, warm_used, forme = warm_seconds(folder)
        files = milliseconds_by_file(forme)
    return {
        "machine": {
            "cores": os.cpu_count(),
            "python": platform.python_version(),
            "busy": round(busy, 1),  # processes that wanted a core, the minute before
        },
        "episode": EPISODE.name,
        "cold_s": round(cold, 1),
        "cold_used_s": round(cold_used, 1),
        "warm_s": round(warm, 1),
        "warm_used_s": round(warm_used, 1),
        "parts": {
            part: {
                "files": len(times),
                "ms": round(sum(times.values())),
                "slowest": Counter(times).most_common(1)[0][0],
                "slowest_ms": round(max(times.values())),
            }
            for part, times in files.items()
            if times
        },
    }


def rendered(speeds: dict[str, Any]) -> str:
    """Return the page, its numbers from the measurements and from nothing else."""
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
    parser.add_argument("--page", action="store_true", help="render only")
    if not parser.parse_args().page:
        MEASUREMENTS.write_text(json.dumps(measured(), indent=1) + "\n", "utf-8")
    PAGE.write_text(rendered(json.loads(MEASUREMENTS.read_text("utf-8"))), "utf-8")
    print(PAGE.read_text("utf-8"))


if __name__ == "__main__":
    main()
