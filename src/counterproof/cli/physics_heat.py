"""Questions of heat: heat, simmer, fry, bake, kettle, microwave."""

from __future__ import annotations

from typing import Annotated

import typer

from counterproof.cli import asking
from counterproof.cli.asking import Altitude, Appliance, FoodMass, FoodName, Lid, RoomTemperature
from counterproof.cli.numbers import number
from counterproof.cli.options import DrawCount, Json, KitchenFile, Seed
from counterproof.cli.quantities import amount, quantity
from counterproof.kitchen_questions.amounts import Amount

family = typer.Typer()

Water = Annotated[Amount | None, amount("--water", "Water in the pot.")]
Diameter = Annotated[
    float | None, quantity("--diameter", "length", "Inner diameter of the pot or pan.")
]
RingPower = Annotated[
    float | None,
    quantity("--power", "power", "What the ring takes; that of a large ring if left out."),
]


@family.command()
def heat(
    water: Water = None,
    food: FoodName = None,
    mass: FoodMass = None,
    start: Annotated[
        float | None, quantity("--from", "temperature", "At the start; the cold tap's if left out.")
    ] = None,
    end: Annotated[
        float | None, quantity("--to", "temperature", "Wanted; the boil if left out.")
    ] = None,
    time: Annotated[
        float | None, quantity("--time", "time", "Time it may take: then the power is the answer.")
    ] = None,
    power: RingPower = None,
    appliance: Appliance = None,
    lid: Lid = True,
    diameter: Diameter = None,
    altitude: Altitude = None,
    room: RoomTemperature = None,
    kitchen: KitchenFile = None,
    seed: Seed = 1,
    draws: DrawCount = 10_000,
    as_json: Json = False,
) -> None:
    """How long, and how much energy, it takes to heat something on a hob."""
    from counterproof.kitchen_questions import heat as questions
    from counterproof.kitchen_questions.around import Load

    asked = asking.around(kitchen, seed, draws, altitude=altitude, room=room)
    setting = questions.Setting(appliance, power, lid, diameter)
    answer = questions.heat(
        Load(water, food, mass), asked, setting, start=start, end=end, time=time
    )
    asking.told(answer, asked, as_json=as_json)


@family.command()
def simmer(
    water: Water = None,
    food: FoodName = None,
    mass: FoodMass = None,
    time: Annotated[float | None, quantity("--time", "time", "How long it simmers.")] = None,
    boil_off: Annotated[
        Amount | None, amount("--boil-off", "Water that is to leave: then the time is the answer.")
    ] = None,
    temperature: Annotated[
        float | None,
        quantity("--temperature", "temperature", "Kept; just below the boil if left out."),
    ] = None,
    hard: Annotated[
        bool, typer.Option("--hard", help="Leave the ring at its power: a rolling boil.")
    ] = False,
    power: RingPower = None,
    appliance: Appliance = None,
    lid: Lid = True,
    diameter: Diameter = None,
    altitude: Altitude = None,
    room: RoomTemperature = None,
    kitchen: KitchenFile = None,
    seed: Seed = 1,
    draws: DrawCount = 10_000,
    as_json: Json = False,
) -> None:
    """What it takes to keep a pot simmering, and what boils away."""
    from counterproof.kitchen_questions import heat as questions
    from counterproof.kitchen_questions.around import Load

    asked = asking.around(kitchen, seed, draws, altitude=altitude, room=room)
    answer = questions.simmer(
        Load(water, food, mass),
        asked,
        questions.Setting(appliance, power, lid, diameter),
        time=time,
        boil_off=boil_off,
        temperature=temperature,
        hard=hard,
    )
    asking.told(answer, asked, as_json=as_json)


@family.command()
def fry(
    time: Annotated[float, quantity("--time", "time", "How long it fries.")],
    food: FoodName = None,
    mass: FoodMass = None,
    fat: Annotated[
        float | None,
        quantity("--fat", "mass", "Fat in the pan or pot; a spoonful in a pan if left out."),
    ] = None,
    deep: Annotated[bool, typer.Option("--deep", help="The food swims in fat.")] = False,
    start: Annotated[
        float | None, quantity("--from", "temperature", "Of the food; the fridge's if left out.")
    ] = None,
    power: RingPower = None,
    appliance: Appliance = None,
    diameter: Diameter = None,
    altitude: Altitude = None,
    room: RoomTemperature = None,
    kitchen: KitchenFile = None,
    seed: Seed = 1,
    draws: DrawCount = 10_000,
    as_json: Json = False,
) -> None:
    """What frying takes, in a pan or in deep fat."""
    from counterproof.kitchen_questions import heat as questions
    from counterproof.kitchen_questions.around import Load

    asked = asking.around(kitchen, seed, draws, altitude=altitude, room=room)
    answer = questions.fry(
        Load(None, food, mass),
        asked,
        questions.Setting(appliance, power, covered=False, diameter=diameter),
        time,
        fat=fat,
        deep=deep,
        start=start,
    )
    asking.told(answer, asked, as_json=as_json)


@family.command()
def bake(
    temperature: Annotated[
        float, quantity("--temperature", "temperature", "What the oven is set to.")
    ],
    time: Annotated[float, quantity("--time", "time", "Baking time, once it is hot.")],
    oven: Annotated[
        str | None,
        typer.Option(
            "--oven",
            metavar="OVEN",
            help="fan, conventional or gas; the kitchen's if left out.",
        ),
    ] = None,
    food: FoodName = None,
    mass: FoodMass = None,
    start: Annotated[
        float | None, quantity("--from", "temperature", "Of the food; the room's if left out.")
    ] = None,
    power: Annotated[
        float | None,
        quantity("--power", "power", "What the oven takes while it heats; a common one's."),
    ] = None,
    share: Annotated[
        float,
        number("--share", 0.01, 1.0, "This dish's share of the oven, 0 to 1."),
    ] = 1.0,
    room: RoomTemperature = None,
    kitchen: KitchenFile = None,
    seed: Seed = 1,
    draws: DrawCount = 10_000,
    as_json: Json = False,
) -> None:
    """What an oven takes to preheat and to bake."""
    from counterproof.kitchen_questions import heat as questions
    from counterproof.kitchen_questions.around import Load
    from counterproof.physics.questions_dry_heat import Cavity

    asked = asking.around(kitchen, seed, draws, room=room)
    cavity = Cavity(oven or asked.kitchen.oven, power, share)
    answer = questions.bake(
        Load(None, food, mass), asked, temperature, time, cavity=cavity, start=start
    )
    asking.told(answer, asked, as_json=as_json)


@family.command()
def kettle(
    water: Annotated[Amount, amount("--water", "Water in the kettle.")],
    start: Annotated[
        float | None,
        quantity("--from", "temperature", "Of the water; the cold tap's if left out."),
    ] = None,
    end: Annotated[
        float | None, quantity("--to", "temperature", "Wanted; the boil if left out.")
    ] = None,
    power: Annotated[
        float | None, quantity("--power", "power", "Of the kettle; a common one's if left out.")
    ] = None,
    altitude: Altitude = None,
    room: RoomTemperature = None,
    kitchen: KitchenFile = None,
    seed: Seed = 1,
    draws: DrawCount = 10_000,
    as_json: Json = False,
) -> None:
    """What an electric kettle takes."""
    from counterproof.kitchen_questions import heat as questions

    asked = asking.around(kitchen, seed, draws, altitude=altitude, room=room)
    answer = questions.kettle(water, asked, start=start, end=end, power=power)
    asking.told(answer, asked, as_json=as_json)


@family.command()
def microwave(
    end: Annotated[float, quantity("--to", "temperature", "Wanted, on average.")],
    water: Annotated[Amount | None, amount("--water", "Water in the dish.")] = None,
    food: FoodName = None,
    mass: FoodMass = None,
    start: Annotated[
        float | None, quantity("--from", "temperature", "At the start; the fridge's if left out.")
    ] = None,
    power: Annotated[
        float | None,
        quantity("--power", "power", "Rated output at the setting used; a common one's."),
    ] = None,
    altitude: Altitude = None,
    kitchen: KitchenFile = None,
    seed: Seed = 1,
    draws: DrawCount = 10_000,
    as_json: Json = False,
) -> None:
    """What a microwave oven takes to heat something."""
    from counterproof.kitchen_questions import heat as questions
    from counterproof.kitchen_questions.around import Load

    asked = asking.around(kitchen, seed, draws, altitude=altitude)
    answer = questions.microwave(Load(water, food, mass), asked, end, start=start, power=power)
    asking.told(answer, asked, as_json=as_json)
