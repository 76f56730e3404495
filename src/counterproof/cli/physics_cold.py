"""Questions of cold: cool, freeze, thaw."""

from __future__ import annotations

from typing import Annotated, Literal

import typer

from counterproof.cli import asking, quantities
from counterproof.cli.asking import Altitude, FoodName, RoomTemperature
from counterproof.cli.numbers import whole
from counterproof.cli.options import DrawCount, Json, KitchenFile, Seed
from counterproof.cli.quantities import quantity

family = typer.Typer()

VesselKind = Literal["pot", "tray", "jar", "bottle"]
VesselOption = Annotated[VesselKind, typer.Option("--vessel", help="What it is in.")]
Diameter = Annotated[float | None, quantity("--diameter", "length", "Inner diameter.")]
Brimful = Annotated[
    float, quantity("--volume", "volume", "What the vessel holds, filled to the brim.")
]
Filled = Annotated[
    float | None, quantity("--filled", "volume", "What is in it; up to its line if left out.")
]
MouthOption = Annotated[
    Literal["wide", "narrow"], typer.Option("--mouth", help="Of a jar; a bottle's is narrow.")
]
Shouldered = Annotated[
    bool, typer.Option("--shouldered/--straight", help="Whether the jar narrows below its mouth.")
]
GlassOption = Annotated[
    Literal["soda-lime", "borosilicate", "toughened", "none"] | None,
    typer.Option("--glass", help="What it is made of; jars are of soda-lime, trays of none."),
]


@family.command()
def cool(
    food: FoodName = None,
    volume: Annotated[
        float | None, quantity("--volume", "volume", "Of what is in one vessel.")
    ] = None,
    vessel: VesselOption = "pot",
    diameter: Diameter = None,
    depth: Annotated[float | None, quantity("--depth", "length", "How deep the food lies.")] = None,
    portions: Annotated[int, whole("--portions", 1, 1000, "How many such vessels.")] = 1,
    start: Annotated[
        float | None, quantity("--from", "temperature", "At the start; the boil if left out.")
    ] = None,
    where: Annotated[
        Literal["room", "fridge", "ice-bath"], typer.Option("--where", help="Where it cools.")
    ] = "fridge",
    ambient: Annotated[
        float | None, quantity("--ambient", "temperature", "There; the kitchen's if left out.")
    ] = None,
    fan: Annotated[bool, typer.Option("--fan", help="A table fan blows over it.")] = False,
    covered: Annotated[
        bool, typer.Option("--covered/--uncovered", help="Whether a lid is on.")
    ] = True,
    stirred: Annotated[bool, typer.Option("--stirred", help="It is stirred all along.")] = False,
    flow: Annotated[
        Literal["thin", "thick"] | None,
        typer.Option("--flow", help="Thin as stock or thick as stew; as the food is if left out."),
    ] = None,
    authority: Annotated[
        list[str] | None,
        typer.Option(
            "--authority", metavar="NAME", help="Whose rules: us, uk, victoria; may be repeated."
        ),
    ] = None,
    already: Annotated[
        float | None,
        quantity("--already", "time", "Time since it passed 57 °C, if it starts below."),
    ] = None,
    measured: Annotated[
        list[str] | None,
        typer.Option(
            "--measured", metavar="30min=60C", help="Measured since the start; may be repeated."
        ),
    ] = None,
    altitude: Altitude = None,
    room: RoomTemperature = None,
    kitchen: KitchenFile = None,
    seed: Seed = 1,
    draws: DrawCount = 10_000,
    as_json: Json = False,
) -> None:
    """How long a dish takes to cool, what the rules say, and what would make it pass."""
    from counterproof.kitchen_questions import cold as questions

    readings = [
        quantities.of_option("--measured", quantities.measured, text) for text in measured or ()
    ]
    asked = asking.around(kitchen, seed, draws, altitude=altitude, room=room)
    answer = questions.cool(
        questions.Served(food, volume, vessel, diameter, depth, covered, stirred, flow, portions),
        asked,
        questions.Corner(where, ambient, fan),
        start=start,
        authorities=tuple(authority or ("us",)),
        already=already,
        measured=readings,
    )
    asking.told(answer, asked, as_json=as_json)


@family.command()
def freeze(
    volume: Brimful,
    food: FoodName = None,
    vessel: VesselOption = "jar",
    diameter: Diameter = None,
    filled: Filled = None,
    mouth: MouthOption = "wide",
    shouldered: Shouldered = False,
    glass: GlassOption = None,
    start: Annotated[
        float | None,
        quantity("--from", "temperature", "When it goes in; the fridge's if left out."),
    ] = None,
    freezer: Annotated[
        float | None,
        quantity("--freezer", "temperature", "Of the freezer; the kitchen's if left out."),
    ] = None,
    until: Annotated[
        float | None,
        quantity("--until", "temperature", "What its core shall reach; −10 °C if left out."),
    ] = None,
    time: Annotated[
        float | None,
        quantity("--time", "time", "Time it may take: then the largest vessel is told too."),
    ] = None,
    room: RoomTemperature = None,
    kitchen: KitchenFile = None,
    seed: Seed = 1,
    draws: DrawCount = 10_000,
    as_json: Json = False,
) -> None:
    """How long a jar takes to freeze, and how full it may be."""
    from counterproof.kitchen_questions import cold as questions

    asked = asking.around(kitchen, seed, draws, room=room)
    jarred = questions.Jarred(food, volume, vessel, diameter, filled, mouth, shouldered, glass)
    answer = questions.freeze(
        jarred, asked, start=start, freezer=freezer, until=until, wanted_time=time
    )
    asking.told(answer, asked, as_json=as_json)


@family.command()
def thaw(
    volume: Brimful,
    food: FoodName = None,
    vessel: VesselOption = "jar",
    diameter: Diameter = None,
    filled: Filled = None,
    mouth: MouthOption = "wide",
    shouldered: Shouldered = False,
    glass: GlassOption = None,
    where: Annotated[
        Literal["fridge", "water", "microwave", "counter"],
        typer.Option("--where", help="Where it thaws; the counter is told, never planned."),
    ] = "fridge",
    start: Annotated[
        float | None,
        quantity("--from", "temperature", "Of what is frozen; the freezer's if left out."),
    ] = None,
    ambient: Annotated[
        float | None, quantity("--ambient", "temperature", "There; the kitchen's if left out.")
    ] = None,
    power: Annotated[
        float | None, quantity("--power", "power", "Rated output of the microwave oven.")
    ] = None,
    available: Annotated[
        float | None,
        quantity("--available", "time", "Time there is: then it is told whether it is enough."),
    ] = None,
    room: RoomTemperature = None,
    kitchen: KitchenFile = None,
    seed: Seed = 1,
    draws: DrawCount = 10_000,
    as_json: Json = False,
) -> None:
    """How long a frozen jar takes to thaw, and when to start."""
    from counterproof.kitchen_questions import cold as questions

    asked = asking.around(kitchen, seed, draws, room=room)
    jarred = questions.Jarred(food, volume, vessel, diameter, filled, mouth, shouldered, glass)
    answer = questions.thaw(
        jarred, asked, where, start=start, ambient=ambient, power=power, available=available
    )
    asking.told(answer, asked, as_json=as_json)
