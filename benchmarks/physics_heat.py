"""What the heat side of the physics gives, beside what others printed: numbers for the page.

    python benchmarks/physics_heat.py            measure, write, render docs/physics.md
    python benchmarks/physics_heat.py --page     render the page again from what was measured

The page is made from every `measurements/physics_*.json` that has a template beside it, so that
heat, cooling, freezing and carbonation can each be measured anew without the others.
"""

# ruff: noqa: SIM905 (a word list is read as a sentence)

from __future__ import annotations

import argparse
import hashlib
import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import numpy as np
from jinja2 import Environment, FileSystemLoader, StrictUndefined

import counterproof.physics
from counterproof.draws import DRAWS, Lognormal, Parameter, Streams
from counterproof.physics import (
    air,
    evaporation,
    heating,
    hob,
    questions_heat,
    questions_plugged,
    vessels,
    water,
)
from counterproof.physics import carbon_dioxide as co2
from counterproof.physics.answer import Answer, printed
from counterproof.physics.heating import Contents, Stove
from counterproof.physics.places import Place, Ring
from counterproof.physics.questions_dry_heat import Cavity, bake
from counterproof.physics.values import Draws, Take, middle
from counterproof.physics.vessels import Leaks
from counterproof.sourced import Sourced

HERE = Path(__file__).parent
MEASUREMENTS = HERE / "measurements"
PAGE = HERE.parent / "docs" / "physics.md"
SECTIONS = ("heat", "cooling", "freezing", "carbonation")
SHOWN = (
    "air boiling carbon_dioxide convection evaporation food_properties frozen frying heating hob "
    "kettle microwave oven parting places questions_dry_heat questions_heat questions_plugged simmering steady_power values "
    "vessels water"
).split()
KWH = 3.6e6
# What others printed, as the page shows it beside ours.
PRINTED = {
    "gas_litre_kwh": [0.29, 0.30],  # MacKay 2008, How much is inside hot water?, part 5
    "egg_open_wh": 300,  # Swiss agency for efficient energy use, test of cooking methods
    "egg_lid_wh": 100,  # the same
    "lower_by_20": 0.15,  # the same
    "label_hob_wh_per_kg": [195, 210],  # Commission Regulation (EU) 66/2014, from memory
    # Label classes A and B of large ovens, read in a secondary page in 2026.
    "label_oven_kwh": [0.8, 1.1],
    "dial": 0.2,  # common practice, no source
}

Number = float | Draws


def drawn(streams: Streams) -> Take:
    """Return a `Take` that draws every constant, lognormal with its mean kept."""

    def take(key: str, constant: Sourced, /) -> Number:
        return streams.values(
            Parameter(key, Lognormal.from_spread(constant.value, constant.spread))
        )

    return take


def measured() -> dict[str, Any]:
    """Return every number of the heat section."""
    take = drawn(Streams(seed=1, n=DRAWS))
    return {
        "draws": DRAWS,
        "modules": SHOWN,
        "sha256": digest(),
        "correlations": correlations(),
        "litre": litre(take),
        "lids": lids(),
        "simmer": simmers(take),
        "oven": ovens(take),
        "egg_pan": egg_pan(take),
        "label_hob": label_hob(take),
        "two_counted": two_counted(),
        "estimates_apart": {f"{at:.0f}": apart(at) for at in (60.0, 95.0)},
        "gas_share": hob.EFFICIENCY["gas"].value,
        "simmer_below": questions_heat.SIMMER_BELOW.value,
        "printed": PRINTED,
    }


def digest() -> str:
    """Return the checksum of what was measured: the source of the modules shown."""
    folder = Path(counterproof.physics.__file__).parent
    text = b"".join((folder / f"{name}.py").read_bytes() for name in sorted(SHOWN))
    return hashlib.sha256(text).hexdigest()


def correlations() -> list[dict[str, Any]]:
    """Return the largest relative error of each correlation against CoolProp."""
    from CoolProp.CoolProp import PropsSI  # noqa: PLC0415 (2 s to import; the page needs it not)

    warm, room = np.linspace(273.16, 423.15, 301), np.linspace(233.15, 423.15, 191)
    cold = np.linspace(233.15, 304.0, 142)

    def line(key: str, quality: int, fluid: str, at: Draws) -> Draws:
        return np.array([PropsSI(key, "T", t, "Q", quality, fluid) for t in at])

    def flat(key: str, fluid: str, at: Draws, pascal: float) -> Draws:
        return np.array([PropsSI(key, "T", t, "P", pascal, fluid) for t in at])

    latent = line("H", 1, "Water", warm) - line("H", 0, "Water", warm)
    rows: list[tuple[str, Callable[[Draws], Number], Draws, Draws]] = [
        (
            "water, saturation pressure",
            water.saturation_pressure,
            warm,
            line("P", 0, "Water", warm),
        ),
        ("water, density", water.density, warm, line("D", 0, "Water", warm)),
        ("water, heat capacity", water.heat_capacity, warm, line("C", 0, "Water", warm)),
        ("water, conductivity", water.conductivity, warm, line("L", 0, "Water", warm)),
        ("water, viscosity", water.viscosity, warm, line("V", 0, "Water", warm)),
        ("water, latent heat", water.latent_heat, warm, latent),
        ("steam, density", water.vapour_density, warm, line("D", 1, "Water", warm)),
        ("air, density", air.density, room, flat("D", "Air", room, 101325.0)),
        ("air, heat capacity", air.heat_capacity, room, flat("C", "Air", room, 101325.0)),
        ("air, conductivity", air.conductivity, room, flat("L", "Air", room, 101325.0)),
        ("air, viscosity", air.viscosity, room, flat("V", "Air", room, 101325.0)),
        ("CO2, density at 1 atm", co2.density, room, flat("D", "CO2", room, 101325.0)),
        ("CO2, pressure over its liquid", co2.saturation_pressure, cold, line("P", 0, "CO2", cold)),
    ]
    return [
        {
            "name": name,
            "low": float(at[0]) - 273.15,
            "high": float(at[-1]) - 273.15,
            "error": float(np.max(np.abs(ours(at) / there - 1))),
        }
        for name, ours, at, there in rows
    ]


def _ranged(answer: Answer, key: str, unit: float = 1.0) -> dict[str, float]:
    value = printed(np.asarray(answer.result[key], dtype=float) / unit)
    if isinstance(value, dict):
        return value
    return dict.fromkeys(("mean", "p05", "p50", "p95"), value)


def litre(take: Take) -> list[dict[str, Any]]:
    """Return one litre from 15 °C to the boil, covered, on each hob and in a kettle."""
    rows = []
    for kind in ("gas", "solid plate", "ceramic", "induction"):
        asked = questions_heat.heat(Contents(1.0), 288.15, ring=Ring(kind), take=take)
        rows.append({
            "on": f"{kind} hob",
            "kwh": _ranged(asked, "input_j", KWH),
            "minutes": _ranged(asked, "time_s", 60.0),
        })  # fmt: skip
    asked = questions_plugged.boil_kettle(1.0, 288.15, take=take)
    rows.append({
        "on": "kettle",
        "kwh": _ranged(asked, "input_j", KWH),
        "minutes": _ranged(asked, "time_s", 60.0),
    })  # fmt: skip
    return rows


def lids() -> list[dict[str, Any]]:
    """Return printed lid tests beside the model at both estimates of evaporation."""
    place = Place()
    rows = []
    for name, litres, diameter, covered, bare in (
        ("2 US quarts, magazine kitchen test 2012", 1.89, 0.20, 630.0, 800.0),
        ("8 US quarts, the same", 7.57, 0.28, 1580.0, 2082.0),
        ("1 L on a strong flame, MacKay 2008", 1.0, 0.16, 289.0, 305.0),
    ):
        found = []
        for between in (0.0, 0.5, 1.0):
            times = []
            power: Number = 0.0
            for lid in (True, False):
                pot = vessels.pot_for(litres / 1000, diameter=diameter, covered=lid)
                stove = Stove(pot, place.air, place.boil, Leaks(between=between))
                if lid:
                    power = heating.power_for(Contents(litres), stove, 288.15, place.boil, covered)
                times.append(
                    heating.heat_up(Contents(litres), stove, 288.15, place.boil, power).time
                )
            found.append(float(times[1] / times[0]) - 1.0)
        rows.append({
            "test": name, "diameter": diameter, "printed": bare / covered - 1.0,
            "low": found[0], "middle": found[1], "high": found[2],
        })  # fmt: skip
    return rows


def simmers(take: Take) -> list[dict[str, Any]]:
    """Return what keeps 4 L at a simmer in a pot of 22 cm, by hob and lid."""
    rows = []
    for kind in ("gas", "solid plate", "ceramic", "induction"):
        for covered in (True, False):
            ring = Ring(kind, covered=covered, diameter=0.22)
            asked = questions_heat.simmer(Contents(4.0), 3600.0, ring=ring, take=take)
            rows.append({
                "on": f"{kind} hob",
                "covered": covered,
                "into_pot": _ranged(asked, "into_pot_w"),
                "bought": _ranged(asked, "power_w"),
                "share": _ranged(asked, "share_of_full_power"),
                "kg_per_h": _ranged(asked, "evaporation_kg_per_h"),
            })  # fmt: skip
    return rows


def ovens(take: Take) -> dict[str, Any]:
    """Return an oven's work, and what 20 degrees less and a label cycle come to."""
    hot, cooler = (bake(273.15 + at, 2700.0, cavity=Cavity("fan")) for at in (180.0, 160.0))
    # The label cycle, as remembered: a brick of 0.9 kg dry matter and 1.05 kg water from 5 °C by
    # 55 K at about 175 °C; 50 minutes with the preheating.
    brick = Contents(1.05, 0.9, {"ash": 1.0})
    label = bake(448.15, 50 * 60.0 - 560.0, brick, start=278.15, take=take)
    at_180 = {
        kind: bake(453.15, 45 * 60.0, cavity=Cavity(kind), take=take)
        for kind in ("fan", "conventional", "gas")
    }
    return {
        "lower_by_20": 1.0 - cooler.result["input_j"] / hot.result["input_j"],
        "label_kwh": _ranged(label, "input_j", KWH),
        "at_180": [
            {
                "kind": kind,
                "preheat_kwh": _ranged(answer, "preheat_j", KWH),
                "preheat_minutes": _ranged(answer, "preheat_s", 60.0),
                "hold_w": _ranged(answer, "hold_w"),
                "kwh": _ranged(answer, "input_j", KWH),
            }
            for kind, answer in at_180.items()
        ],
    }


def egg_pan(take: Take) -> dict[str, Any]:
    """Return 1 L brought to the boil and boiled 10 minutes with the ring left on, and covered."""
    open_ring, lidded = Ring("ceramic", covered=False), Ring("ceramic")
    up = questions_heat.heat(Contents(1.0), 288.15, ring=open_ring, take=take)
    hard = questions_heat.simmer(Contents(1.0), 600.0, hard=True, ring=open_ring, take=take)
    low = questions_heat.simmer(Contents(1.0), 600.0, ring=open_ring, take=take)
    up_lidded = questions_heat.heat(Contents(1.0), 288.15, ring=lidded, take=take)
    low_lidded = questions_heat.simmer(Contents(1.0), 600.0, ring=lidded, take=take)

    def wh(*parts: Answer) -> Any:
        total = np.sum([part.result["input_j"] for part in parts], axis=0)
        return printed(total / 3600.0)

    return {
        "hard_wh": wh(up, hard), "turned_down_wh": wh(up, low),
        "covered_wh": wh(up_lidded, low_lidded),
    }  # fmt: skip


def label_hob(take: Take) -> Any:
    """Return Wh per kg of a label cycle: 15 to 90 °C, then 20 minutes there, covered."""
    ring = Ring("ceramic", diameter=0.18)
    up = questions_heat.heat(Contents(1.5), 288.15, 363.15, ring=ring, take=take)
    kept = questions_heat.simmer(Contents(1.5), 1200.0, temperature=363.15, ring=ring, take=take)
    return printed((up.result["input_j"] + kept.result["input_j"]) / 3600.0 / 1.5)


def apart(celsius: float) -> float:
    """Return the high estimate of evaporation over the low one, pot of 22 cm."""
    at, room = 273.15 + celsius, Place().air
    high = evaporation.analogy_flux(at, 0.22, room)
    return float(high / evaporation.pool_flux(at, room))


def two_counted() -> float:
    """Return the covered pot's own losses while a litre heats, over what passes into it."""
    result = questions_heat.heat(Contents(1.0), 288.15, take=middle).result
    return float((result["dry_loss_j"] + result["latent_loss_j"]) / result["into_pot_j"])


def rendered(sections: dict[str, Any]) -> str:
    """Return the page, made from the measurements and from nothing else."""
    pages = Environment(
        loader=FileSystemLoader(HERE),
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
        autoescape=False,  # noqa: S701 (the page is Markdown; nothing in it comes from outside)
    )
    pages.filters["percent"] = lambda share: f"{100 * share:.0f} %"
    pages.filters["range"] = _range
    return "".join(
        pages.get_template(f"physics_{name}_page.md.j2").render(**{name: values})
        for name, values in sections.items()
    )


def _range(value: dict[str, float], digits: int = 2) -> str:
    mean, low, high = (f"{value[key]:.{digits}f}" for key in ("mean", "p05", "p95"))
    return f"{mean} ({low}–{high})"


def sections() -> dict[str, Any]:
    """Return what was measured, by section, in the order of the page."""
    return {
        name: json.loads((MEASUREMENTS / f"physics_{name}.json").read_text("utf-8"))
        for name in SECTIONS
        if (MEASUREMENTS / f"physics_{name}.json").exists()
    }


def main() -> None:
    """Measure unless only the page is asked for, then render it."""
    parser = argparse.ArgumentParser(description="The heat side of the physics, in numbers.")
    parser.add_argument("--page", action="store_true", help="only render the page again")
    if not parser.parse_args().page:
        text = json.dumps(measured(), indent=1, ensure_ascii=False)
        (MEASUREMENTS / "physics_heat.json").write_text(text + "\n", "utf-8")
    PAGE.write_text(rendered(sections()), "utf-8")


if __name__ == "__main__":
    main()
