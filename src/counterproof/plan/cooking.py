"""Energy and boil-off of each process, from the kitchen physics.

The physics answers at the middle of its constants; what is uncertain about them comes back as
keyed deviations (hob, losses, boil-off), so that every energy is a product of independent
parameters: shared where it is the same hob, and exact at the mean.
"""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import dataclass
from typing import Final

import numpy as np

from counterproof.draws import Lognormal, Parameter, Product, Uniform
from counterproof.errors import OutOfRange
from counterproof.kitchen_physics import WATER
from counterproof.marks import Mark
from counterproof.physics import hob, kettle, microwave, oven, steady_power
from counterproof.physics.answer import Answer
from counterproof.physics.heating import Contents
from counterproof.physics.questions_dry_heat import Cavity, bake, fry
from counterproof.physics.questions_heat import heat, simmer
from counterproof.physics.questions_plugged import boil_kettle, microwave_food
from counterproof.physics.values import ZERO_CELSIUS
from counterproof.plan import constants as c
from counterproof.plan.covering import TO_COVER, level_of, liquid_over
from counterproof.plan.energy_taken import (
    AN_HOUR,
    deviation,
    in_a_minute,
    in_kilowatts,
    in_kwh,
    through_hob,
    through_plug,
    with_losses,
)
from counterproof.plan.model import Carrier, EnergyUse, Leaving
from counterproof.plan.pot import KEPT_HOT, goes_on
from counterproof.plan.scene import Scene
from counterproof.reading.model import Constituent, MarkedStep, Process
from counterproof.sourced import Sourced
from counterproof.ways import Way

_IN_WATER: Final = re.compile(
    r"\b(?:in|with|of) (?:[\w-]+ ){0,4}water\b|\bwater to cover\b|\bcover\w* (?:[\w-]+ ){0,4}water\b"
)
IN_A_PAN: Final = frozenset({"fry", "toast"})
SETTINGS: Final = {
    "grill": "grill",
    "toast": "toaster",
    "slow_cook": "slow cooker, low",
    "blend": "blender",
}
_TEMPERATE: Final = Sourced(
    343.15, "K", 0.04, "assumed", "", "what a microwave oven is to heat: 70 °C"
)


@dataclass
class Taken:
    """What the processes so far have taken."""

    energy: list[EnergyUse]
    leaving: list[Leaving]
    marks: list[tuple[int, Mark]]
    told: dict[str, None]
    warming: list[tuple[str, float]]  # what is heated before a process can begin, and its time [s]


class Cooking:
    """Takes the processes one after the other, and remembers what is hot already."""

    def __init__(self, scene: Scene) -> None:
        self.scene = scene
        self.taken = Taken([], [], [], {}, [])
        self._heated: set[str] = set()
        self._oven_hot = False
        self._loaded = False
        self._seen: Counter[str] = Counter()

    def boiled_water(self) -> None:
        """Take the kettle for water that the recipe asks for boiling."""
        for line in self.scene.reading.lines:
            if line.food is None or line.mass is None or line.food.food_class != WATER:
                continue
            if "boiling" not in line.written.text.lower() or not self.scene.reading.steps:
                continue
            done = boil_kettle(line.mass.mean, self.scene.tap, place=self.scene.place)
            amount = in_kwh(done.result["input_j"] / line.mass.mean)
            kwh = Product(line.mass.scale * amount, line.mass.parameters)
            kwh = kwh.times(deviation("kettle", c.KETTLE))
            self._heated.add(line.food.id)
            first = self.scene.reading.steps[0].written.number
            way = through_plug(
                done, float(np.mean(done.result["efficiency_share"])), kettle.POWER, "kettle"
            )
            self._use("boil the water", "electricity", kwh, first, "kettle", way)

    def take(self, step: MarkedStep, process: Process) -> None:
        """Add what one process takes.

        Parameters
        ----------
        step : MarkedStep
            The step it stands in.
        process : Process
            The process.
        """
        try:
            self._take(step, process)
        except OutOfRange as beyond:
            mark = Mark("doubt", "beyond-the-model", f"{beyond.message} {beyond.remedy}")
            self.taken.marks.append((step.written.number, mark))

    def _take(self, step: MarkedStep, process: Process) -> None:
        kind, number = process.kind, step.written.number
        if process.appliance == "hob" and kind in KEPT_HOT | {"cook"}:
            self._wet_or_dry(step, process)
        elif process.appliance == "hob" and kind in IN_A_PAN:
            self._in_a_pan(step, process)
        elif process.appliance == "hob" and kind in {"heat", "melt"}:
            self._warm(step, process)
        elif kind in {"bake", "preheat"}:
            self._in_the_oven(step, process)
        elif kind == "microwave":
            self._in_the_microwave(step, process)
        elif kind in SETTINGS:
            power = steady_power.power_of(SETTINGS[kind])
            kwh = Product(power.value / 1000 / 60, (self._minutes(process),))
            kwh = kwh.times(deviation(f"appliance|{SETTINGS[kind]}", power))
            way = (Way("power", power.value / 1000, "kW", SETTINGS[kind], power), *AN_HOUR)
            self._use(named(process), "electricity", kwh, number, process.appliance or kind, way)

    def _wet_or_dry(self, step: MarkedStep, process: Process) -> None:
        contents = self.scene.contents(self.scene.in_pot(step))
        wet = contents.mass and float(contents.moisture) / float(contents.mass) > c.WET
        liquid = any(
            part.food.kind == "liquid" or part.food.food_class == WATER
            for part in self.scene.in_pot(step)
        )
        if process.kind in KEPT_HOT or (wet and liquid):
            self._kept_hot(step, process, contents)
        else:
            self._in_a_pan(step, process)

    def _kept_hot(self, step: MarkedStep, process: Process, contents: Contents) -> None:
        number = step.written.number
        if not contents.mass:
            return
        covered = process.covered is not False and process.kind != "boil"
        litres = 1000 * float(contents.volume(ZERO_CELSIUS + 20.0))
        liquid = any(part.food.kind == "liquid" for part in self.scene.in_pot(step))
        named_only = self._names_water(step) and not liquid
        self._bring_to_the_boil(step)
        if goes_on(step, process):
            return  # "bring to the boil, then simmer for 20 minutes"
        minutes = self._minutes(process)
        seconds = 60 * minutes.distribution.mean
        rolling = process.kind == "boil" and process.minutes is not None
        share = c.ROLLING.value if rolling else 1.0
        ring = self.scene.ring(litres, covered=covered, share=share)
        done = simmer(contents, seconds, hard=rolling, ring=ring, place=self.scene.place)
        self._note(number, done)
        spread = c.ROLLING if rolling else c.HOLDING[covered]
        watts, evaporating = with_losses(done, self.scene.reading.kitchen.simmer_loss)
        kwh = Product(in_a_minute(watts), (minutes,)).times(
            deviation(f"holding|{process.kind}|{covered}", spread), self._hob()
        )
        way = (*through_hob("kept hot", in_kilowatts(watts), "kW", self._ring), *AN_HOUR)
        self._use(named(process), self._carrier(), kwh, number, "hob", way)
        if named_only:
            return  # what boils off is the water that no line lists, not the food's own
        rate = 60 * evaporating
        off = deviation(
            f"boil-off|{process.kind}|{covered}", spread if rolling else c.BOIL_OFF[covered]
        )
        steam = Product(rate, (minutes,)).times(off)
        self.taken.leaving.append(Leaving("steam", steam, number, "boiled off", "air"))

    def _bring_to_the_boil(self, step: MarkedStep) -> None:
        """Heat what has joined the pot since it was last hot."""
        new = [part for part in self.scene.in_pot(step) if part.food.id not in self._heated]
        contents = self.scene.contents(new)
        if not new or not contents.mass:
            return
        self._heated.update(part.food.id for part in new)
        litres = 1000 * float(contents.volume(ZERO_CELSIUS + 20.0))
        ring = self.scene.ring(litres, covered=True)
        done = heat(contents, self.scene.tap, ring=ring, place=self.scene.place, history=False)
        self._heat("bring to the boil", done, step.written.number)
        seconds = float(np.mean(done.result["time_s"]))
        seconds += self._unlisted_water(step, new)
        self.taken.warming.append(("bring to the boil", seconds))

    def _names_water(self, step: MarkedStep) -> bool:
        """Whether a step names water to cook in that no line lists."""
        there = self.scene.in_pot(step)
        listed = any(part.food.food_class == WATER for part in there)
        return not listed and bool(_IN_WATER.search(step.written.text.lower()))

    def _unlisted_water(self, step: MarkedStep, new: list[Constituent]) -> float:
        """Heat the water that a step names and no line lists; return how long that takes. [s]"""
        if not self._names_water(step):
            return 0.0
        solids = [part for part in new if part.food.kind == "solid"]
        firm = self.scene.contents(solids)
        if not firm.mass:
            return 0.0
        number, kitchen = step.written.number, self.scene.reading.kitchen
        level = level_of(step.written.text) or TO_COVER
        scale = self.scene.reading.scale  # solved for the batch as written, as lines are
        over = liquid_over(float(firm.volume(ZERO_CELSIUS + 20.0)) / scale, level, kitchen)
        kilograms = 1000.0 * over.volume * scale
        ring = self.scene.ring(kilograms, covered=True)
        done = heat(
            Contents(kilograms), self.scene.tap, ring=ring, place=self.scene.place, history=False
        )
        key = f"measure|water|to cover|{level.times:g}×+{level.over:g}|{solids[0].food.id}"
        guess = Parameter(key, Lognormal.from_spread(1.0, over.spread))
        self._heat("heat the water", done, number, guess)
        self.taken.told[
            f"Step {number} names water that no line lists: taken as {kilograms:.2g} kg, give or "
            f"take {over.spread:.0%}, to cover what is in it; only its heat is counted."
        ] = None
        return float(np.mean(done.result["time_s"]))

    def _in_a_pan(self, step: MarkedStep, process: Process) -> None:
        parts = self.scene.named(step, process.kind) or self.scene.in_pot(step)
        solid = [part for part in parts if part.food.food_class not in {WATER, "oils"}]
        contents = self.scene.contents(solid)
        food = float(contents.mass) or c.UNNAMED_FRIED.value
        makeup = contents.makeup if float(contents.food) else {"water": 0.88, "carbohydrate": 0.12}
        minutes = self._minutes(process)
        ring = self.scene.ring(2.0, covered=False)
        done = fry(
            Contents(0.0, food, makeup),
            60 * minutes.distribution.mean,
            ring=ring,
            place=self.scene.place,
        )
        # A pan is hot after a minute; beyond that its energy goes with the time.
        per_minute = in_kwh(done.result["input_j"]) / minutes.distribution.mean
        kwh = Product(per_minute, (minutes,)).times(deviation("frying", c.FRYING), self._hob())
        self._heated.update(part.food.id for part in solid)
        way = (*through_hob("frying", 60 * per_minute, "kW", self._ring), *AN_HOUR)
        self._use(named(process), self._carrier(), kwh, step.written.number, "hob", way)

    def _warm(self, step: MarkedStep, process: Process) -> None:
        parts = [p for p in self.scene.named(step, process.kind) if p.food.food_class != "oils"]
        contents = self.scene.contents(parts)
        if not contents.mass:
            return
        end = c.WARM.value if process.celsius is None else ZERO_CELSIUS + process.celsius
        if not self.scene.tap < end <= self.scene.place.boil:
            return  # "heat the oil to 180 °C" speaks of fat, which is counted with the frying
        litres = 1000 * float(contents.volume(ZERO_CELSIUS + 20.0))
        ring = self.scene.ring(litres, covered=False)
        done = heat(contents, self.scene.tap, end, ring=ring, place=self.scene.place, history=False)
        self._heat(named(process), done, step.written.number)

    def _in_the_oven(self, step: MarkedStep, process: Process) -> None:
        kitchen, number = self.scene.reading.kitchen, step.written.number
        celsius = process.celsius or self._oven_celsius() or c.OVEN.value - ZERO_CELSIUS
        kelvin = ZERO_CELSIUS + celsius
        cavity = Cavity(kitchen.oven)
        carrier: Carrier = "gas" if oven.CARRIER[kitchen.oven] == "gas" else "electricity"
        minutes = self._minutes(process) if process.kind == "bake" else None
        contents = self.scene.contents(self.scene.in_pot(step)) if minutes else None
        seconds = 60 * minutes.distribution.mean if minutes else 0.0
        done = bake(kelvin, seconds, contents, cavity=cavity, place=self.scene.place)
        self._note(number, done)
        if not self._oven_hot:
            self._oven_hot = True
            kwh = Product(
                in_kwh(done.result["preheat_j"]), (deviation("oven|preheat", c.PREHEATING),)
            )
            way = (Way("preheating", kwh.scale, "kWh", kitchen.oven, oven.BODY),)
            self._use("preheat the oven", carrier, kwh, number, "oven", way)
            heats = float(np.mean(done.result["preheat_s"]))
            self.taken.warming.append(("preheat the oven", heats))
        if minutes:
            hold = Product(in_a_minute(done.result["hold_w"]), (minutes,))
            hold = hold.times(deviation("oven|hold", c.OVEN_HOLDING))
            holding = Way(
                "oven hot", 60 * hold.scale, "kW", kitchen.oven, oven.HOLDING[cavity.kind]
            )
            self._use(named(process), carrier, hold, number, "oven", (holding, *AN_HOUR))
            if not self._loaded:  # what goes back in for a second time is hot already
                self._loaded = True
                load = Product(
                    in_kwh(done.result["load_j"]), (deviation("oven|load", c.OVEN_LOAD),)
                )
                way = (Way("oven load", load.scale, "kWh", "", oven.INTO_OVEN[cavity.kind]),)
                self._use("heat the food in the oven", carrier, load, number, "oven", way)

    def _oven_celsius(self) -> float | None:
        """The temperature that another step gives for the oven."""
        return next(
            (
                process.celsius
                for step in self.scene.reading.steps
                for process in step.processes
                if process.kind in {"preheat", "bake"} and process.celsius
            ),
            None,
        )

    def _in_the_microwave(self, step: MarkedStep, process: Process) -> None:
        contents = self.scene.contents(
            self.scene.named(step, process.kind) or self.scene.in_pot(step)
        )
        if not contents.mass:
            return
        place = self.scene.place
        done = microwave_food(contents, self.scene.tap, _TEMPERATE.value, place=place)
        kwh = Product(in_kwh(done.result["input_j"]), (deviation("microwave", c.MICROWAVING),))
        share = float(np.mean(done.result["useful_j"])) / float(np.mean(done.result["input_j"]))
        way = through_plug(done, share, microwave.EFFICIENCY, "microwave oven")
        self._use(named(process), "electricity", kwh, step.written.number, "microwave", way)

    def _minutes(self, process: Process) -> Parameter:
        """How long a process takes, keyed by what is said of it."""
        low, high = process.minutes or (None, None)
        tail = f"{process.kind}|{low}-{high}"
        self._seen[tail] += 1
        key = f"minutes|{tail}|{self._seen[tail]}"
        if low is not None and high is not None:
            return Parameter(key, Uniform(low, high))
        stated = low if low is not None else high
        if stated:
            return Parameter(key, Lognormal.from_spread(stated, c.OPEN_ENDED.spread))
        default = c.DEFAULT_MINUTES.get(process.kind, c.DEFAULT_MINUTES["cook"])
        return Parameter(key, Lognormal.from_spread(default.value, default.spread))

    @property
    def _ring(self) -> str:
        return self.scene.reading.kitchen.hob

    def _hob(self) -> Parameter:
        return deviation(f"hob|{self._ring}", hob.efficiency_of(self._ring))

    def _carrier(self) -> Carrier:
        return "gas" if self.scene.carrier == "gas" else "electricity"

    def _heat(self, name: str, done: Answer, step: int, *guessed: Parameter) -> None:
        """Add what the hob takes to heat a pot, times what of it is guessed."""
        spread = (*guessed, deviation("heating", c.HEATING), self._hob())
        kwh = Product(in_kwh(done.result["input_j"]), spread)
        way = through_hob("heat", kwh.scale, "kWh", self._ring)
        self._use(name, self._carrier(), kwh, step, "hob", way)

    def _use(
        self,
        name: str,
        carrier: Carrier,
        kwh: Product,
        step: int,
        appliance: str,
        way: tuple[Way, ...],
    ) -> None:
        self.taken.energy.append(EnergyUse(name, carrier, kwh, step, appliance=appliance, way=way))

    def _note(self, number: int, done: Answer) -> None:
        """Flags that call for a choice go beside the step, the rest is told once."""
        for flag in done.flags:
            if flag.level == "doubt" and flag.name == "ring-too-weak":
                self.taken.marks.append((number, Mark("doubt", flag.name, flag.message)))
            else:
                self.taken.told[f"Cooking: {flag.message}"] = None


def named(process: Process) -> str:
    """A process with its time, as an activity is listed.

    Parameters
    ----------
    process : Process
        As the step was read.

    Returns
    -------
    str
        Such as "simmer, 25–30 min".
    """
    kind = process.kind.replace("_", " ")
    if not process.minutes:
        return kind
    low, high = process.minutes
    if low == high or high is None:
        return f"{kind}, {low:g} min"
    return f"{kind}, up to {high:g} min" if low is None else f"{kind}, {low:g}–{high:g} min"
