"""Questions of drinks: carbonate, steep, mix."""

from __future__ import annotations

from typing import Annotated, Literal

import typer

from counterproof.cli import asking, quantities
from counterproof.cli.asking import Altitude, RoomTemperature
from counterproof.cli.numbers import number, whole
from counterproof.cli.options import DrawCount, Json, KitchenFile, Seed
from counterproof.cli.quantities import amount, percentage, quantity
from counterproof.kitchen_questions.amounts import Amount

family = typer.Typer()

Stirred = Annotated[
    bool, typer.Option("--stirred", help="Something is stirred in while it fizzes.")
]
Stood = Annotated[float | None, quantity("--stood", "time", "How long it stands in an open glass.")]


@family.command()
def carbonate(
    water: Annotated[Amount | None, amount("--water", "Water in the bottle.")] = None,
    temperature: Annotated[
        float | None,
        quantity("--temperature", "temperature", "Of the water; the fridge's if left out."),
    ] = None,
    gauge: Annotated[
        float | None,
        quantity("--gauge", "pressure", "Pressure above the air, as a gauge shows it."),
    ] = None,
    absolute: Annotated[float | None, quantity("--absolute", "pressure", "Total pressure.")] = None,
    partial: Annotated[
        float | None, quantity("--partial", "pressure", "Pressure of the gas alone.")
    ] = None,
    want: Annotated[
        float | None,
        quantity("--want", "concentration", "Wanted: then pressure or temperature is the answer."),
    ] = None,
    in_glass: Annotated[
        bool, typer.Option("--in-glass", help="It is wanted in the glass, after pouring.")
    ] = False,
    alkalinity: Annotated[
        str | None,
        typer.Option(
            "--alkalinity",
            metavar="2.1meq/L",
            help="Of the water, also in mg/L as CaCO3; the kitchen's if left out.",
        ),
    ] = None,
    bottle: Annotated[
        float | None, quantity("--bottle", "volume", "What the bottle holds to the brim.")
    ] = None,
    purges: Annotated[
        int | None,
        whole("--purges", 0, 20, "How often air is let out first."),
    ] = None,
    pulses: Annotated[
        int | None,
        whole("--pulses", 0, 100, "Pulses or shakes; enough if left out."),
    ] = None,
    cylinder: Annotated[
        float | None, quantity("--cylinder", "mass", "Gas in the full cylinder.")
    ] = None,
    cylinder_volume: Annotated[
        float | None, quantity("--cylinder-volume", "volume", "What the cylinder holds.")
    ] = None,
    closed_room: Annotated[
        float | None,
        quantity("--closed-room", "volume", "Room a cylinder might leak into, as 30000L."),
    ] = None,
    stirred: Stirred = False,
    stood: Stood = None,
    concentrate: Annotated[
        float | None,
        quantity("--concentrate", "volume", "Flat concentrate that joins each litre of it."),
    ] = None,
    altitude: Altitude = None,
    room: RoomTemperature = None,
    kitchen: KitchenFile = None,
    seed: Seed = 1,
    draws: DrawCount = 10_000,
    as_json: Json = False,
) -> None:
    """How much carbon dioxide water takes up, or what gives a wanted fizz."""
    from counterproof.kitchen_questions import drinks as questions
    from counterproof.physics.serving import Serving

    asked = asking.around(kitchen, seed, draws, altitude=altitude, room=room)
    fizz = questions.Fizz(
        temperature, gauge, absolute, partial, water, bottle, purges, pulses,
        cylinder, cylinder_volume, closed_room,
    )  # fmt: skip
    flat = 0.0 if concentrate is None else 1e3 * concentrate
    serving = Serving(stirred=stirred, stood=stood or 0.0, flat=flat)
    answer = questions.carbonate(
        fizz,
        asked.with_tap(alkalinity) if alkalinity is not None else asked,
        want=want,
        in_glass=in_glass,
        serving=serving,
    )
    asking.told(answer, asked, as_json=as_json)


@family.command()
def steep(
    size: Annotated[
        float, quantity("--size", "length", "Side of a cube, thickness of a slice, width of a rod.")
    ],
    time: Annotated[float, quantity("--time", "time", "How long it steeps or simmers.")],
    temperature: Annotated[float, quantity("--temperature", "temperature", "Of the liquid, kept.")],
    shape: Annotated[
        Literal["cube", "slice", "rod"], typer.Option("--shape", help="How it is cut.")
    ] = "cube",
    extract: Annotated[
        Literal["root", "leaf"],
        typer.Option("--extract", help="A fibrous root or spice, or tea leaf."),
    ] = "root",
    water: Annotated[
        float | None, quantity("--water", "volume", "Liquid; plenty if left out.")
    ] = None,
    pieces: Annotated[
        float | None, quantity("--pieces", "volume", "Volume of the pieces in it.")
    ] = None,
    want: Annotated[
        float | None, percentage("--want", "Share wanted: then its time is told too.")
    ] = None,
    bottle: Annotated[
        float | None, quantity("--bottle", "volume", "What a bottle of the extract holds.")
    ] = None,
    dose: Annotated[
        float | None, quantity("--dose", "volume", "Extract that flavours one --drink.")
    ] = None,
    drink: Annotated[
        float, quantity("--drink", "volume", "Drink that a dose flavours; a litre if left out.")
    ] = 1e-3,
    kitchen: KitchenFile = None,
    seed: Seed = 1,
    draws: DrawCount = 10_000,
    as_json: Json = False,
) -> None:
    """How much is drawn out of pieces, and what cutting finer buys."""
    from counterproof.kitchen_questions import drinks as questions
    from counterproof.physics.steeping import Piece

    asked = asking.around(kitchen, seed, draws)
    answer = questions.steep(
        questions.Steeped(Piece(shape, size), extract, water, pieces),
        asked,
        time,
        temperature,
        want=want,
        flavouring=questions.flavouring(bottle, dose, drink),
    )
    asking.told(answer, asked, as_json=as_json)


@family.command()
def mix(
    parts: Annotated[
        list[str],
        typer.Argument(metavar='"30 ml lime juice" …', help="Parts, each a recipe line in quotes."),
    ],
    start: Annotated[
        list[str] | None,
        typer.Option(
            "--from",
            metavar="4C|39F",
            help="Of the parts: once for all, or once for each; the room's if left out.",
        ),
    ] = None,
    fizz: Annotated[
        float | None, quantity("--fizz", "concentration", "Carbon dioxide in what sparkles.")
    ] = None,
    ice: Annotated[float, quantity("--ice", "mass", "Ice put in at the end.")] = 0.0,
    ice_temperature: Annotated[
        float | None,
        quantity("--ice-temperature", "temperature", "Of the ice; the freezer's if left out."),
    ] = None,
    want_brix: Annotated[
        float | None,
        number("--want-brix", 0.0, 65.0, "°Brix wanted: amounts are told."),
    ] = None,
    want_acid: Annotated[
        float | None, quantity("--want-acid", "concentration", "Acid wanted, as citric.")
    ] = None,
    volume: Annotated[
        float | None,
        quantity("--volume", "volume", "Of the drink made to measure; 330 ml if left out."),
    ] = None,
    want_temperature: Annotated[
        float | None,
        quantity("--want-temperature", "temperature", "Wanted: then the ice is the answer."),
    ] = None,
    stirred: Stirred = False,
    stood: Stood = None,
    room: RoomTemperature = None,
    kitchen: KitchenFile = None,
    seed: Seed = 1,
    draws: DrawCount = 10_000,
    as_json: Json = False,
) -> None:
    """What a drink is once mixed, or how much of each part makes it."""
    from counterproof.kitchen_questions import glasses as questions
    from counterproof.physics.serving import Serving

    temperatures = tuple(
        quantities.of_option("--from", quantities.temperature, text) for text in start or ()
    )
    asked = asking.around(kitchen, seed, draws, room=room)
    serving = Serving(stirred=stirred, stood=stood or 0.0) if stirred or stood else None
    answer = questions.mix(
        questions.Glass(tuple(parts), temperatures, fizz, ice, ice_temperature),
        asked,
        questions.Wanted(want_brix, want_acid, volume, want_temperature),
        serving=serving,
    )
    asking.told(answer, asked, as_json=as_json)
