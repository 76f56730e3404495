"""One kitchen question a command: `physics heat`, `physics cool`, `physics mix` and the rest."""

from __future__ import annotations

import typer

from counterproof.cli import physics_cold, physics_drinks, physics_heat

physics = typer.Typer(
    help="Ask the kitchen one question: how long, how much, how full, and what the rules say.",
    no_args_is_help=True,
)
for _room in (physics_heat, physics_cold, physics_drinks):
    physics.add_typer(_room.family)

family = typer.Typer()
family.add_typer(physics, name="physics")
