"""What `make demo` does: the demo season evaluated, its pages written, the first proof shown."""

from __future__ import annotations

import json
import sys
from pathlib import Path

from rich.console import Console

from counterproof.adapters.files import demo_season, episodes, load_recipe
from counterproof.adapters.kitchens import load_kitchen, load_prices
from counterproof.adapters.manuscripts import manuscript_of
from counterproof.adapters.pressing import manifest_for, press_into
from counterproof.adapters.tables import load_tables
from counterproof.adapters.terminal import print_error, print_proof
from counterproof.adapters.writing import write_folder
from counterproof.draws import Streams
from counterproof.errors import CounterproofError
from counterproof.locking_up import locked_up
from counterproof.press.manifest import Impression
from counterproof.press.sheet import sheet
from counterproof.use_cases import Order, Workbench, assessed, proof

DEMO_DAY = "2026-11-25"
"""Printed on the demo's pages, so that they come out the same on every day."""


def press_demo(folder: Path, console: Console) -> list[Path]:
    """Write page and JSON of every demo episode, show the first proof and press that episode.

    Parameters
    ----------
    folder : Path
        Where the files go.
    console : Console
        Where the first proof is shown.

    Returns
    -------
    list of Path
        The files written, the press folder last.
    """
    bench = Workbench.over(load_tables())
    streams = Streams(seed=1, n=10_000)
    written: list[Path] = []
    orders: list[Order] = []
    for episode in episodes(demo_season()):
        recipe, _ = load_recipe(str(episode))
        order = Order(recipe, load_kitchen(recipe), name=recipe.title, prices=load_prices(recipe))
        edition = proof(order, bench, streams, date=DEMO_DAY)
        if not orders:
            print_proof(edition, console)
        orders.append(order)
        found = assessed(order, bench, streams)
        document = json.dumps(found.to_dict(), ensure_ascii=False, indent=2) + "\n"
        contents = {
            f"{episode.name}.html": sheet(edition).encode(),
            f"{episode.name}.json": document.encode(),
        }
        written += write_folder(folder, contents)
    place = folder / f"{episodes(demo_season())[0].name}-press"
    _press(orders[0], bench, streams, place)
    return [*written, place]


def _press(order: Order, bench: Workbench, streams: Streams, place: Path) -> None:
    """Everything one episode publishes, in a folder of its own."""
    manuscript = manuscript_of(order)
    forme = locked_up(manuscript, bench, streams, date=DEMO_DAY)
    asked = Impression(
        order.recipe.title, None, DEMO_DAY, "en", "a5", "both", None, streams.seed, streams.n
    )
    press_into(place, forme, manifest_for(asked, forme, manuscript), (), lambda _: None)


def main() -> None:
    """Run the demo; the folder is the first argument."""
    folder = Path(sys.argv[1] if len(sys.argv) > 1 else "out")
    try:
        written = press_demo(folder, Console(highlight=False))
    except CounterproofError as error:
        print_error(error, Console(stderr=True, highlight=False))
        sys.exit(2)
    pages = [place for place in written if place.suffix == ".html"]
    told = [
        "",
        f"The first proof stands above; all {len(pages)} are pages in {folder}/:",
        *(f"  {page}" for page in pages),
        "Open one in a browser. Their figures are in the .json files beside them.",
        f"Everything the first episode publishes is in {written[-1]}/: open card/card.pdf there.",
    ]
    sys.stderr.write("\n".join(told) + "\n")


if __name__ == "__main__":
    main()
