"""What freezing, fizz, steeping and mixing give, beside what others printed: numbers for the page.

    python benchmarks/physics_drinks.py            measure, write, render docs/physics_drinks.md
    python benchmarks/physics_drinks.py --page     render the page again from what was measured

Printed tables are read from the tests that hold our results against them, so that each stands once.
"""

from __future__ import annotations

import argparse
import importlib.util
import json
from itertools import pairwise
from pathlib import Path
from types import ModuleType
from typing import Any

import numpy as np
from jinja2 import Environment, FileSystemLoader, StrictUndefined

from counterproof.draws import DRAWS, Lognormal, Parameter, Streams
from counterproof.physics import carbonation, charging, fizz_loss, freezing_formulas, sucrose
from counterproof.physics import steeping as steeped
from counterproof.physics.answer import Answer, printed
from counterproof.physics.charging import Bottle
from counterproof.physics.cold_scene import Filling, Vessel
from counterproof.physics.cylinder import cylinder, full_of_liquid
from counterproof.physics.enthalpy_method import Direction, history
from counterproof.physics.fizz_scene import Machine, Pressure
from counterproof.physics.headspace import PINT, QUART, Jar, fill
from counterproof.physics.mixing import Part
from counterproof.physics.questions_carbonate import carbonate, carbonate_for
from counterproof.physics.questions_freeze import freeze
from counterproof.physics.questions_mix import mix, mix_for
from counterproof.physics.questions_steep import steep
from counterproof.physics.questions_thaw import thaw
from counterproof.physics.serving import Serving
from counterproof.physics.steeping import Piece
from counterproof.physics.values import Draws, Take, middle
from counterproof.sourced import Sourced

HERE = Path(__file__).parent
TESTS = HERE.parent / "tests" / "physics"
MEASUREMENTS = HERE / "measurements" / "physics_drinks.json"
SPEED = HERE / "measurements" / "physics_drinks_speed.json"
TEMPLATE = "physics_drinks_page.md.j2"
PAGE = HERE.parent / "docs" / "physics_drinks.md"

ZERO = 273.15
HOUR = 3600.0
CORDIAL = Filling("cordial of 18 °Brix", {"water": 0.82, "carbohydrate": 0.18}, sugar=0.18)
JARS = (("pint", PINT), ("quart", QUART))
MACHINE = Machine(Bottle(1e-3, 0.84e-3), 1, 3, 0.425, 0.6e-3, 30.0)


def drawn(streams: Streams) -> Take:
    """Return a `Take` that draws every constant, lognormal with its mean kept."""

    def take(key: str, constant: Sourced, /) -> float | Draws:
        if constant.spread == 0.0:
            return constant.value
        return streams.values(
            Parameter(key, Lognormal.from_spread(constant.value, constant.spread))
        )

    return take


def tables(name: str) -> ModuleType:
    """Return a test module, for the printed tables in it."""
    spec = importlib.util.spec_from_file_location(name, TESTS / f"{name}.py")
    if spec is None or spec.loader is None:
        raise FileNotFoundError(name)
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def measured() -> dict[str, Any]:
    """Return every number of the page but the times it takes."""
    take = drawn(Streams(seed=1, n=DRAWS))
    return {
        "draws": DRAWS,
        "solver": solver(),
        "jars": jars(take),
        "headspace": headspaces(),
        "fizz": fizz(take),
        "cylinder": cylinders(),
        "steep": steeping(take),
        "mix": mixes(take),
        "assumed": {
            "poured": fizz_loss.POURED.value,
            "stirred": fizz_loss.STIRRED.value,
            "pulse": charging.PULSE.value,
            "root": [2e-10, 6e-10],
        },
    }


def _ranged(answer: Answer, key: str, unit: float = 1.0) -> dict[str, float]:
    value = printed(np.asarray(answer.result[key], dtype=float) / unit)
    if isinstance(value, dict):
        return value
    return dict.fromkeys(("mean", "p05", "p50", "p95"), value)


def solver() -> dict[str, Any]:
    """Return errors against Neumann, Plank and Pham, and the order of convergence."""
    checks = tables("test_enthalpy_method")
    exact = checks._neumann(18.0, 5.0) * 10_800.0**0.5  # noqa: SLF001 (written once, in the test)
    rows = []
    for cells, steps in ((40, 60), (80, 120), (160, 240), (320, 240)):
        found = checks._frozen_half_space(cells, steps)  # noqa: SLF001 (as above)
        error = float(found.lost[-1, 0]) * 0.08 / exact - 1.0
        rows.append({"cells": cells, "error": error, "imbalance": found.imbalance})
    orders = [np.log2(a["error"] / b["error"]) for a, b in pairwise(rows)]
    plank = []
    for rate in (5.0, 10.0, 30.0):
        by_hand = float(
            freezing_formulas.plank("slab", size=0.04, latent=333.6e6, drop=18.0,
                                    coefficient=rate, conductivity=2.2)
        )  # fmt: skip
        ours = history(checks.WATER, (Direction("slab", 0.02, 40),), start=ZERO,
                       ambient=np.array([ZERO - 18.0]), coefficient=np.array([rate]),
                       until=ZERO - 0.01, guess=np.array([by_hand]))  # fmt: skip
        plank.append({"coefficient": rate, "over": float(ours.reached[0]) / by_hand - 1.0})
    by_pham = float(
        freezing_formulas.pham("slab", size=0.04, start=ZERO + 20, ambient=ZERO - 18.0,
                               until=ZERO - 10, latent=333.6e6, capacities=(4186e3, 2050e3),
                               coefficient=10.0, conductivity=2.2)
    )  # fmt: skip
    ours = history(checks.WATER, (Direction("slab", 0.02, 40),), start=ZERO + 20,
                   ambient=np.array([ZERO - 18.0]), coefficient=np.array([10.0]), until=ZERO - 10,
                   guess=np.array([by_pham]))  # fmt: skip
    return {
        "neumann": rows,
        "order": float(np.mean(orders)),
        "plank": plank,
        "pham_over": by_pham / float(ours.reached[0]) - 1.0,
    }


def jars(take: Take) -> list[dict[str, Any]]:
    """Return how long jars freeze and thaw, in hours."""
    rows = []
    for filling in (Filling(), CORDIAL):
        for name, volume in JARS:
            jar = Vessel(volume)
            cold = freeze(filling, jar, take=take)
            rows.append({
                "what": f"{name} jar of {filling.name}",
                "freezer": _ranged(cold, "time_s", HOUR),
                "beside": {k: v / HOUR for k, v in cold.result["beside"].items()},
                "middle": freeze(filling, jar).result["time_s"] / HOUR,
                "error": cold.result["interpolant_error_share"],
                "runs": cold.result["solver_runs"],
                "swells": cold.result["expansion_share"],
                "thaw": {
                    where: _ranged(thaw(filling, jar, where=where, take=take), "time_s", HOUR)
                    for where in ("fridge", "water", "microwave", "counter")
                },
            })  # fmt: skip
    return rows


def headspaces() -> list[dict[str, Any]]:
    """Return fill lines by jar."""
    rows = []
    for name, volume in (("quarter-litre", 0.25e-3), *JARS, ("two-litre", 2e-3)):
        for mouth in ("wide", "narrow"):
            width = Vessel(volume).width
            found = fill(Jar(volume, width, mouth), 0.088)
            rows.append({
                "jar": name, "mouth": mouth, "line_ml": 1e6 * found.line,
                "free_mm": 1e3 * found.depth, "computed_ml": 1e6 * found.computed,
                "tabled_ml": 1e6 * found.tabled, "rule": found.rule,
            })  # fmt: skip
    return rows


def fizz(take: Take) -> dict[str, Any]:
    """Return solubility against tables, the curve, pressures, pH, gas used."""
    checks = tables("test_carbonation")
    crc = np.array(checks.CRC)
    ours = 1e3 * np.asarray(carbonation.mole_fraction(crc[:, 0] + ZERO, 1e3 * crc[:, 1]))
    beer = np.array(checks.BEER)
    kelvin = (beer[:, 0] - 32) / 1.8 + ZERO
    partial = carbonation.partial_pressure(kelvin, 101325.0 + 6894.757 * beer[:, 1])
    more = carbonation.volumes(carbonation.dissolved(kelvin, partial)) / beer[:, 2] - 1
    machine = carbonate(ZERO + 4, Pressure(gauge=3e5), machine=MACHINE, take=take)
    curve = carbonate(ZERO + 4, Pressure(gauge=3e5)).result["by_temperature"]
    serving = Serving()
    return {
        "crc_rows": len(crc),
        "crc_digits": float(np.max(np.abs(ours - crc[:, 2]))),
        "crc_at_100_kpa": float(
            np.max(np.abs(ours[crc[:, 1] == 100] / crc[crc[:, 1] == 100, 2] - 1))
        ),
        "beer_rows": len(beer),
        "beer": [float(more.min()), float(more.mean()), float(more.max())],
        "curve": [
            {"celsius": c, "grams": g}
            for c, g in zip(curve["celsius"], curve["co2_g_per_l"], strict=True)
            if c % 4 == 0
        ],
        "cold_over_room": carbonate(ZERO + 4, Pressure(gauge=3e5)).result["cold_over_room_share"],
        "for_six": [
            {
                "celsius": c,
                "in_water": carbonate_for(6.0, temperature=ZERO + c).result["gauge_bar"],
                "in_glass": _ranged(
                    carbonate_for(6.0, temperature=ZERO + c, serving=serving, take=take),
                    "gauge_bar",
                ),
            }
            for c in (2.0, 6.0, 12.0, 20.0)
        ],
        "ph": [
            {"volumes": v, **{f"meq_{a:.0f}": float(carbonate_for(
                float(carbonation.concentration_of(v)), temperature=ZERO + 4, alkalinity=a).result["ph"])
                for a in (0.0, 1.0, 4.0)}}
            for v in (1.0, 2.0, 4.0)
        ],
        "machine": {
            "grams_per_l": _ranged(machine, "co2_g_per_l"),
            "in_glass": _ranged(machine, "in_glass_g_per_l"),
            "used_g": _ranged(machine, "gas_used_g"),
            "uptake": _ranged(machine, "uptake_share"),
            "litres": _ranged(machine, "litres_per_cylinder"),
        },
        "room": [{"rule": v.rule, "verdict": v.verdict} for v in machine.verdicts],
        "room_ppm": machine.result["room_added_ppm"],
        "room_m3": machine.result["room_needed_m3"],
    }  # fmt: skip


def cylinders() -> dict[str, Any]:
    """Return the pressure of a cylinder of 425 g in 0.6 L."""
    rows = []
    for celsius in (-10.0, 0.0, 10.0, 20.0, 24.0, 28.0, 35.0, 45.0):
        found = cylinder(ZERO + celsius, 0.425, 0.6e-3)
        rows.append({"celsius": celsius, "bar": found.pressure / 1e5, "state": found.state})
    full = full_of_liquid(0.425, 0.6e-3)
    return {"rows": rows, "full": None if full is None else full - ZERO}


def steeping(take: Take) -> dict[str, Any]:
    """Return what finer, longer and hotter buy, and the time thickness costs."""
    rows = []
    for size in (10e-3, 5e-3, 3e-3):
        asked = steep(Piece("cube", size), 600.0, ZERO + 95, liquid=10.0, take=take)
        rows.append({
            "mm": 1e3 * size,
            "share": _ranged(asked, "extracted_share"),
            "half": _ranged(asked, "gain_half_the_size"),
            "twice": _ranged(asked, "gain_twice_as_long"),
            "hotter": _ranged(asked, "gain_10_k_hotter"),
        })  # fmt: skip
    slice_minutes = {
        f"{mm:.0f}": steeped.time_for(Piece("slice", 1e-3 * mm), 0.9, 3e-10) / 60.0
        for mm in (1.0, 2.0, 6.0)
    }
    return {"cubes": rows, "slice_minutes": slice_minutes}


def mixes(take: Take) -> dict[str, Any]:
    """Return a drink by hand and by us, and what order and ice do."""
    checks = tables("test_mixing")
    crc = np.array(checks.CRC)
    parts = (checks.LIME, checks.SYRUP, checks.SODA)
    ranged = mix(parts, take=take)
    iced = mix(parts, ice_mass=0.15)
    wet = mix((Part("water", 0.3),), ice_mass=0.0519)
    made = mix_for(checks.SYRUP, checks.LIME, checks.SODA, brix=8.0, acid=4.0, take=middle)
    spirits = np.array(checks.PERRY)
    by_us = [1e-3 / checks.spirits.volume(1 - w / 100, w / 100) for w in spirits[:, 0]]
    return {
        "density_kg_m3": float(np.max(np.abs(np.asarray(sucrose.density(crc[:, 0])) - crc[:, 1]))),
        "density_rows": len(crc),
        "spirits_kg_m3": 1e3 * float(np.max(np.abs(np.array(by_us) - spirits[:, 1]))),
        "spirits_rows": len(spirits),
        "soda": {k: float(np.mean(ranged.result[k])) for k in (
            "brix", "acid_g_per_l", "density_kg_per_l", "sugar_acid_ratio", "celsius")},
        "last": _ranged(ranged, "fizz_last_g_per_l"),
        "stirred": _ranged(ranged, "stirred_after_g_per_l"),
        "gain": _ranged(ranged, "order_gain_share"),
        "iced": {k: float(np.mean(iced.result[k])) for k in (
            "celsius", "brix", "ice_melted_g", "ice_left_g", "dilution_share")},
        "chilled_celsius": float(wet.result["celsius"]),
        "made_ml": made.result["parts_ml"],
    }  # fmt: skip


def rendered(drinks: dict[str, Any], speed: dict[str, Any]) -> str:
    """Return the page, made from the measurements and from nothing else."""
    pages = Environment(
        loader=FileSystemLoader(HERE),
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
        autoescape=False,  # noqa: S701 (the page is Markdown; nothing in it comes from outside)
    )
    pages.filters["percent"] = lambda share, digits=0: f"{100 * share:.{digits}f} %"
    pages.filters["range"] = _range
    pages.filters["number"] = lambda value, digits=0: f"{value:.{digits}f}"
    return pages.get_template(TEMPLATE).render(**drinks, speed=speed)


def _range(value: dict[str, float], digits: int = 1) -> str:
    mean, low, high = (f"{value[key]:.{digits}f}" for key in ("mean", "p05", "p95"))
    return f"{mean} ({low}–{high})"


def main() -> None:
    """Measure unless only the page is asked for, then render it."""
    parser = argparse.ArgumentParser(description="Freezing, fizz, steeping and mixing, in numbers.")
    parser.add_argument("--page", action="store_true", help="only render the page again")
    if not parser.parse_args().page:
        text = json.dumps(measured(), indent=1, ensure_ascii=False)
        MEASUREMENTS.write_text(text + "\n", "utf-8")
    drinks, speed = (json.loads(file.read_text("utf-8")) for file in (MEASUREMENTS, SPEED))
    PAGE.write_text(rendered(drinks, speed), "utf-8")


if __name__ == "__main__":
    main()
