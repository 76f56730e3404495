"""How a question of the kitchen is opened and answered on the command line."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from counterproof.cli import opening, outcome
from counterproof.cli.quantities import quantity

if TYPE_CHECKING:
    from counterproof.kitchen_questions.around import Around
    from counterproof.physics.answer import Answer

FoodName = Annotated[
    str | None,
    typer.Option("--food", metavar="NAME", help="A food, as a recipe would call it."),
]
FoodMass = Annotated[float | None, quantity("--mass", "mass", "Weight of the food.")]
Lid = Annotated[bool, typer.Option("--lid/--no-lid", help="Whether a lid is on.")]
Appliance = Annotated[
    str | None,
    typer.Option(
        "--appliance",
        metavar="HOB",
        help="gas, solid-plate, ceramic or induction; the kitchen's if left out.",
    ),
]
Altitude = Annotated[
    float | None,
    quantity("--altitude", "length", "Height above the sea; the kitchen's if left out.", "1500m"),
]
RoomTemperature = Annotated[
    float | None, quantity("--room", "temperature", "Of the room; the kitchen's if left out.")
]


def around(
    kitchen: str | None,
    seed: int,
    draws: int,
    *,
    altitude: float | None = None,
    room: float | None = None,
) -> Around:
    """What a question is asked around."""
    from counterproof.kitchen_questions.around import Around

    place = opening.kitchen(kitchen)
    found = Around(opening.bench(place), place, opening.streams(seed, draws))
    return found.elsewhere(altitude=altitude, room=room)


def told(answer: Answer, asked: Around, *, as_json: bool) -> None:
    """Print an answer; a verdict that does not hold, or a doubt, needs attention."""
    from counterproof.kitchen_questions.around import document, needs_attention

    if as_json:
        outcome.print_json(document(answer, asked.bench.tables))
    else:
        from counterproof.adapters.physics_terminal import print_answer

        print_answer(answer, asked.bench.tables, outcome.console(), asked.kitchen.middle)
    if needs_attention(answer):
        raise typer.Exit(outcome.ATTENTION)
