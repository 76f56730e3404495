"""Options that several commands take, each said once."""

from __future__ import annotations

from typing import Annotated

import typer

from counterproof.cli.numbers import number, whole

RecipeName = Annotated[
    str | None,
    typer.Argument(
        metavar="RECIPE[+VERSION]",
        help="A recipe file, an episode's folder, or - for standard input; the demo if left out.",
        show_default=False,
    ),
]
Words = Annotated[
    list[str] | None,
    typer.Argument(
        metavar="[WORDS]", help="What it is called; all if left out.", show_default=False
    ),
]
Json = Annotated[bool, typer.Option("--json", help="Print one JSON document and nothing else.")]
KitchenFile = Annotated[
    str | None, typer.Option("--kitchen", metavar="FILE", help="The kitchen to cook in.")
]
Serves = Annotated[float | None, number("--serves", 0.01, 1_000_000, "Scale to so many servings.")]
Seed = Annotated[int, whole("--seed", 0, None, "Seed of the draws.")]
DrawCount = Annotated[int, whole("--draws", 100, 1_000_000, "How many draws.")]
Date = Annotated[
    str | None,
    typer.Option("--date", metavar="YYYY-MM-DD", help="The day to print; today if left out."),
]
