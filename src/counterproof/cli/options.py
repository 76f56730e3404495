"""Options that several commands take, each said once."""

from __future__ import annotations

from typing import Annotated

import typer

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
Serves = Annotated[
    float | None, typer.Option("--serves", metavar="N", min=0.01, help="Scale to so many servings.")
]
Seed = Annotated[int, typer.Option("--seed", metavar="N", min=0, help="Seed of the draws.")]
DrawCount = Annotated[
    int,
    typer.Option("--draws", metavar="N", min=100, max=1_000_000, help="How many draws."),
]
Date = Annotated[
    str | None,
    typer.Option("--date", metavar="YYYY-MM-DD", help="The day to print; today if left out."),
]
