"""Commands that begin something: a season's folder, an episode's."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from counterproof.cli import outcome
from counterproof.cli.options import Json

new = typer.Typer(
    help="Begin a season or an episode: a folder to start from, with comments that teach."
)
family = typer.Typer()
family.add_typer(new, name="new")


@new.command("season")
def new_season(
    name: Annotated[str, typer.Argument(help="What the season is called.")], as_json: Json = False
) -> None:
    """Write a season's folder: its kitchen, its method, a first episode."""
    from counterproof.adapters import starters

    outcome.told(starters.new_season(name, Path()), as_json=as_json)


@new.command("episode")
def new_episode(
    name: Annotated[str, typer.Argument(help="What is cooked.")], as_json: Json = False
) -> None:
    """Write an episode's folder: recipe and script."""
    from counterproof.adapters import starters

    outcome.told(starters.new_episode(name, Path()), as_json=as_json)
