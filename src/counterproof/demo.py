"""What `make demo` does: the demo season evaluated, its pages written, the first proof shown."""

from __future__ import annotations

import json
import sys
from pathlib import Path

from rich.console import Console

from counterproof.adapters.files import (
    demo_season,
    episodes,
    load_kitchen,
    load_prices,
    load_recipe,
    write_folder,
)
from counterproof.adapters.tables import load_tables
from counterproof.adapters.terminal import print_proof
from counterproof.draws import Streams
from counterproof.press.sheet import sheet
from counterproof.use_cases import Order, Workbench, assessed, proof

DEMO_DAY = "2026-11-25"
"""Printed on the demo's pages, so that they come out the same on every day."""


def press_demo(folder: Path, console: Console) -> list[Path]:
    """Write page and JSON of every demo episode, and show the first proof.

    Parameters
    ----------
    folder : Path
        Where the files go.
    console : Console
        Where the first proof is shown.

    Returns
    -------
    list of Path
        The files written.
    """
    bench = Workbench.over(load_tables())
    streams = Streams(seed=1, n=10_000)
    written: list[Path] = []
    for at, episode in enumerate(episodes(demo_season())):
        recipe, _ = load_recipe(str(episode))
        order = Order(recipe, load_kitchen(recipe), name=recipe.title, prices=load_prices(recipe))
        edition = proof(order, bench, streams, date=DEMO_DAY)
        if at == 0:
            print_proof(edition, console)
        found = assessed(order, bench, streams)
        document = json.dumps(found.to_dict(), ensure_ascii=False, indent=2) + "\n"
        contents = {
            f"{episode.name}.html": sheet(edition).encode(),
            f"{episode.name}.json": document.encode(),
        }
        written += write_folder(folder, contents)
    return written


def main() -> None:
    """Run the demo; the folder is the first argument."""
    folder = Path(sys.argv[1] if len(sys.argv) > 1 else "out")
    written = press_demo(folder, Console(highlight=False))
    pages = [place for place in written if place.suffix == ".html"]
    told = [
        "",
        f"The first proof stands above; all {len(pages)} are pages in {folder}/:",
        *(f"  {page}" for page in pages),
        "Open one in a browser. Their figures are in the .json files beside them.",
    ]
    sys.stderr.write("\n".join(told) + "\n")


if __name__ == "__main__":
    main()
