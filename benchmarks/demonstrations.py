"""What the demo season shows over kitchens and places: numbers for the page.

python benchmarks/demonstrations.py            work out, write, render docs/demonstrations.md
python benchmarks/demonstrations.py --page     render the page again from what was worked out
"""

from __future__ import annotations

import argparse
import json
from dataclasses import replace
from pathlib import Path
from typing import Any, Literal

from jinja2 import Environment, FileSystemLoader, StrictUndefined

from counterproof import numerals
from counterproof.adapters.files import demo_season, load_recipe
from counterproof.adapters.kitchens import load_kitchen
from counterproof.adapters.tables import load_tables
from counterproof.comparison.paired import Comparison, Pair
from counterproof.draws import Streams
from counterproof.footprint.model import Footprint
from counterproof.press.giving import break_even_phrase
from counterproof.use_cases import Order, Workbench, compared

HERE = Path(__file__).parent
MEASUREMENTS = HERE / "measurements" / "demonstrations.json"
PAGE = HERE.parent / "docs" / "demonstrations.md"
TEMPLATE = "demonstrations_page.md.j2"
REGIONS = ("uk", "FRA", "POL")
HOBS: tuple[Literal["induction"], Literal["gas"]] = ("induction", "gas")
LITRES = (1.0, 5.0, 25.0, 100.0, 500.0)
INSTEAD = {"bought": "a 330 ml can", "in-pet": "a 1.5 l PET bottle", "in-glass": "a 0.75 l glass bottle"}  # fmt: skip


def order(episode: str) -> Order:
    """Return an episode of the demo season in its own kitchen."""
    recipe, _ = load_recipe(str(demo_season() / "episodes" / episode))
    return Order(recipe, load_kitchen(recipe), name="as written")


def beside(base: Order, names: tuple[str, ...], bench: Workbench, streams: Streams) -> Comparison:
    """Return a recipe and some of its versions, compared."""
    return compared(
        [base, *(replace(base, version=name, name=name) for name in names)], bench, streams
    )


def cooking(found: Footprint) -> str:
    """Return the cooking of one serving as printed."""
    parts = [part.kgco2e for part in found.stages if part.stage == "cooking"]
    return numerals.shown(parts[0]).text if parts else "0"


def against(pair: Pair) -> dict[str, Any]:
    """Return a difference as printed, and how often the first is lower."""
    if pair.difference is None or pair.share_a_lower is None:
        return {"difference": pair.reason, "lower": ""}
    told = numerals.shown(pair.difference)
    return {
        "difference": f"{numerals.signed(told)} ({told.span})",
        "lower": numerals.percent(pair.share_a_lower),
    }


def worked_out() -> dict[str, Any]:
    """Return every number of the page."""
    tables = load_tables()
    bench, streams = Workbench.over(tables), Streams(seed=1)
    stew = order("01-squash-and-bean-stew")
    rows = []
    for region in REGIONS:
        for hob in HOBS:
            kitchen = replace(stew.kitchen, region=region, hob=hob)
            found = beside(replace(stew, kitchen=kitchen), ("chicken", "beef"), bench, streams)
            rows.append(
                {
                    "region": region,
                    "hob": hob,
                    "servings": [numerals.shown(one.serving).text for _, one in found.items],
                    "cooking": cooking(found.items[0][1]),
                    "beef": against(found.pairs[1]),
                }
            )
    cordial = order("02-rhubarb-cordial")
    litres = []
    for life in LITRES:
        kitchen = replace(cordial.kitchen, fizz_litres=life)
        found = beside(replace(cordial, kitchen=kitchen), tuple(INSTEAD), bench, streams)
        litres.append({"litres": f"{life:g}", "pairs": [against(pair) for pair in found.pairs[:3]]})
    found = beside(cordial, tuple(INSTEAD), bench, streams)
    evens = [
        break_even_phrase(even.per, even.at, even.share_never, "mean")
        for pair in found.pairs[:3]
        for even in pair.break_even
        if even.per.startswith("litres")
    ]
    soup = beside(order("03-tomato-soup-in-bulk"), ("fresh", "three-months"), bench, streams)
    return {
        "sha256": tables.sha256,
        "stew": rows,
        "instead": list(INSTEAD.values()),
        "cordial": litres,
        "evens": list(zip(INSTEAD.values(), evens, strict=True)),
        "soup": {
            "servings": {name: numerals.shown(one.serving).text for name, one in soup.items},
            "frozen": against(soup.pairs[2]),
        },
    }


def rendered(found: dict[str, Any]) -> str:
    """Return the page, made from what was worked out and from nothing else."""
    pages = Environment(
        loader=FileSystemLoader(HERE),
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
        autoescape=False,  # noqa: S701 (the page is Markdown; nothing in it comes from outside)
    )
    return pages.get_template(TEMPLATE).render(**found)


def main() -> None:
    """Work out, write and render."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else "")
    parser.add_argument("--page", action="store_true", help="render only")
    if not parser.parse_args().page:
        told = json.dumps(worked_out(), indent=1, ensure_ascii=False)
        MEASUREMENTS.write_text(told + "\n", "utf-8")
    PAGE.write_text(rendered(json.loads(MEASUREMENTS.read_text("utf-8"))), "utf-8")


if __name__ == "__main__":
    main()
