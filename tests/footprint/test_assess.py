"""The footprint of a serving: exact means, keyed draws, nothing dropped."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as some

from counterproof.draws import Lognormal, Parameter, Product, Streams
from counterproof.footprint.assess import assess
from counterproof.footprint.model import Footprint
from counterproof.plan.model import EnergyUse, Plan
from counterproof.reading.model import MarkedLine, Reading
from counterproof.recipe.kitchen import Kitchen
from counterproof.rows import Tables

MadeLine = Callable[..., MarkedLine]
MadeReading = Callable[..., Reading]

SIMMER = Plan(
    energy=(
        EnergyUse(
            "simmer, 30 min",
            "electricity",
            Product(0.6, (Parameter("energy-use|simmer|30", Lognormal.from_spread(1.0, 0.2)),)),
            1,
        ),
    ),
    assumed=("The pot is covered.",),
)


def _by_food(found: Footprint) -> dict[str, np.ndarray]:
    return {
        part.item.food: draws for part, draws in zip(found.items, found.item_draws, strict=True)
    }


def test_a_recipe_worked_by_hand(
    tiny_tables: Tables, made_line: MadeLine, made_reading: MadeReading, streams: Streams
) -> None:
    # Bean stew for four:
    #   white beans, dried   400 g × 1.79 kg CO2e per kg dry (Other Pulses)         = 0.7160
    #   onion                200 g eaten, 0.222 kg bought × 0.50 per kg as bought  = 0.1110
    #   olive oil             30 g / 0.916 kg per litre × 5.42 per litre           = 0.1775
    #   simmering          0.6 kWh × 0.5 kg per kWh                                = 0.3000
    #                                                               batch            1.3045
    #                                                               serving          0.3261
    reading = made_reading(
        made_line("white-beans-dried", 0.4),
        made_line("onion", 0.2, measure="piece", spread=0.2, bought=1.11),
        made_line("olive-oil", 0.03, measure="tbsp", spread=0.06),
        serves=4,
    )
    found = assess(reading, tiny_tables, SIMMER, streams=streams)
    lines = [part.kgco2e.mean * 4 for part in found.items]
    assert lines == pytest.approx([0.7160, 0.1110, 0.17751, 0.3], abs=5e-6)
    assert found.static == pytest.approx(1.30451 / 4, abs=2e-6)
    assert found.batch.mean == pytest.approx(1.30451, abs=1e-5)
    assert found.per["kg"] == pytest.approx(1.30451 / 0.63, rel=1e-5)
    stages = {part.stage: part for part in found.stages}
    assert stages["production"].kgco2e.mean == pytest.approx(1.00451 / 4, abs=2e-6)
    assert stages["cooking"].kgco2e.mean == pytest.approx(0.075)
    assert stages["cooking"].computed


@pytest.mark.property
@settings(max_examples=15)
@given(seed=some.integers(0, 2**32))
def test_mean_of_the_draws_is_the_static_value(
    tiny_tables: Tables, made_line: MadeLine, made_reading: MadeReading, seed: int
) -> None:
    reading = made_reading(
        made_line("white-beans-dried", 0.4, spread=0.15),
        made_line("beef-chuck", 0.5),
        made_line("onion", 0.2, spread=0.2),
        made_line("butter", 0.03, spread=0.5),
    )
    found = assess(reading, tiny_tables, SIMMER, streams=Streams(seed=seed))
    # Five standard errors of plain sampling; stratified draws lie well inside.
    error = 5 * found.draws.std() / 100
    assert found.draws.mean() == pytest.approx(found.static, abs=error)
    assert found.draws.mean() == pytest.approx(found.static, rel=0.005)


def test_stages_add_up_to_the_serving(
    tiny_tables: Tables, made_line: MadeLine, made_reading: MadeReading, streams: Streams
) -> None:
    reading = made_reading(made_line("tomato", 1.0), made_line("nuts", 0.1))
    found = assess(reading, tiny_tables, SIMMER, streams=streams)
    assert sum(part.kgco2e.mean for part in found.stages) == pytest.approx(found.static)
    assert sum(part.kgco2e.mean for part in found.items) == pytest.approx(found.static)
    assert sum(part.share or 0 for part in found.items) == pytest.approx(1.0)
    tomato = next(part for part in found.items if part.item.food == "tomato")
    # Poore & Nemecek 2018, tomatoes: packaging 0.146 and transport 0.177 per kg, here / 4.
    assert tomato.stages["packaging"] == pytest.approx(0.146 / 4)
    assert tomato.stages["transport"] == pytest.approx(0.177 / 4)
    assert sum(tomato.stages.values()) == pytest.approx(2.09 / 4)


def test_stages_after_the_farm_are_constants_and_production_takes_the_draw(
    tiny_tables: Tables, made_line: MadeLine, made_reading: MadeReading, streams: Streams
) -> None:
    # Weighed exactly, so that only the factor varies.
    reading = made_reading(made_line("tomato", 1.0, spread=0.0), serves=1)
    found = assess(reading, tiny_tables, streams=streams)
    stages = {part.stage: part for part in found.stages}
    packaging = stages["packaging"].kgco2e
    assert not stages["packaging"].computed
    assert packaging.p05 == pytest.approx(packaging.p95) == pytest.approx(0.146)
    production = stages["production"].kgco2e
    rest = 0.012 + 0.177 + 0.146 + 0.017
    assert production.p05 == pytest.approx(found.serving.p05 - rest)
    assert production.p95 == pytest.approx(found.serving.p95 - rest)


def test_other_lines_draws_stay_bit_identical(
    tiny_tables: Tables, made_line: MadeLine, made_reading: MadeReading
) -> None:
    beans, onion, oil = (
        made_line("white-beans-dried", 0.4),
        made_line("onion", 0.2, measure="piece", spread=0.2),
        made_line("olive-oil", 0.03),
    )

    def drawn(*lines: MarkedLine) -> dict[str, np.ndarray]:
        # Streams of its own: nothing is kept from one assessment to the next.
        return _by_food(assess(made_reading(*lines), tiny_tables, streams=Streams(seed=5)))

    first = drawn(beans, onion, oil)
    for changed in (
        drawn(oil, beans, onion),
        drawn(made_line("beef-chuck", 0.3), beans, onion, made_line("tomato", 0.5), oil),
        drawn(beans, onion),
        drawn(beans, made_line("onion", 0.3, measure="piece"), oil),
    ):
        for food in changed.keys() & first.keys() - {"onion"}:
            assert changed[food].tobytes() == first[food].tobytes()


def test_loading_from_two_files_leaves_every_draw_alone(
    tiny_tables: Tables, made_line: MadeLine, made_reading: MadeReading
) -> None:
    lines = [made_line(food, 0.1) for food in ("beef-chuck", "onion", "nuts", "tomato", "butter")]
    whole = _by_food(assess(made_reading(*lines), tiny_tables, streams=Streams(seed=5)))
    for half in (lines[:2], lines[2:]):
        found = _by_food(assess(made_reading(*half), tiny_tables, streams=Streams(seed=5)))
        for food, draws in found.items():
            assert draws.tobytes() == whole[food].tobytes()


def test_the_whole_variance_is_shared_out_once(
    tiny_tables: Tables, made_line: MadeLine, made_reading: MadeReading, streams: Streams
) -> None:
    # Weighed all but exactly: what is left is which food was bought, a sum without products.
    reading = made_reading(
        made_line("beef-chuck", 0.05, spread=1e-6), made_line("tomato", 3.0, spread=1e-6)
    )
    found = assess(reading, tiny_tables, streams=streams)
    shares = {part.what: part.share_of_variance for part in found.settle_next}
    assert shares.keys() == {"which beef chuck", "which tomato"}
    assert sum(shares.values()) == pytest.approx(1.0, abs=0.03)


def test_order_of_lines_moves_no_digit_of_the_total(
    tiny_tables: Tables, made_line: MadeLine, made_reading: MadeReading
) -> None:
    lines = [made_line(food, 0.1) for food in ("beef-chuck", "onion", "nuts", "tomato", "butter")]
    forwards = assess(made_reading(*lines), tiny_tables, SIMMER, streams=Streams(seed=5))
    backwards = assess(made_reading(*lines[::-1]), tiny_tables, SIMMER, streams=Streams(seed=5))
    assert forwards.draws.tobytes() == backwards.draws.tobytes()
    assert forwards.serving == backwards.serving
    assert forwards.stages == backwards.stages


@pytest.mark.property
@settings(max_examples=20)
@given(power=some.integers(-3, 6))
def test_scaling_servings_scales_the_batch_exactly(
    tiny_tables: Tables, made_line: MadeLine, made_reading: MadeReading, power: int
) -> None:
    times = 2.0**power
    lines = [made_line("beef-chuck", 0.3), made_line("onion", 0.2), made_line("tomato", 0.5)]
    more = [
        replace(line, mass=line.mass.scaled(times), purchased=line.purchased.scaled(times))
        for line in lines
        if line.mass is not None and line.purchased is not None
    ]
    one = assess(made_reading(*lines, serves=4.0), tiny_tables, streams=Streams(seed=1, n=500))
    many = assess(
        made_reading(*more, serves=4.0 * times), tiny_tables, streams=Streams(seed=1, n=500)
    )
    assert many.draws.tobytes() == one.draws.tobytes()
    assert many.batch.mean == one.batch.mean * times


def test_nothing_is_dropped_in_silence(
    tiny_tables: Tables, made_line: MadeLine, made_reading: MadeReading, streams: Streams
) -> None:
    reading = made_reading(
        made_line("onion", 0.3),
        made_line(None, None),
        made_line("tomato", None),
        made_line("sea-bean", 0.1),
    )
    found = assess(reading, tiny_tables, streams=streams)
    assert [(line.number, line.why) for line in found.uncounted] == [
        (2, "no food"),
        (3, "no mass"),
        (4, "no factor"),
    ]
    assert found.coverage_mass == pytest.approx(0.75)
    document = found.to_dict()
    assert [line["number"] for line in document["lines"]] == [1, 2, 3, 4]
    assert document["lines"][3]["kgco2e"] is None


def test_no_lines_is_nothing(
    tiny_tables: Tables, made_reading: MadeReading, streams: Streams
) -> None:
    found = assess(made_reading(), tiny_tables, streams=streams)
    assert found.static == 0.0
    assert found.draws.tolist() == [0.0] * streams.n
    assert found.settle_next == ()
    assert found.to_dict()["per"]["kg"] is None


def test_second_opinion_where_a_set_covers_enough(
    tiny_tables: Tables, made_line: MadeLine, made_reading: MadeReading, streams: Streams
) -> None:
    reading = made_reading(made_line("onion", 0.5), made_line("olive-oil", 0.05), serves=1)
    (opinion,) = assess(reading, tiny_tables, streams=streams).second_opinion
    assert (opinion.set, opinion.coverage) == ("national", 1.0)
    assert opinion.kgco2e == pytest.approx(0.5 * 0.4 + 0.05 * 0.983)
    # Tomatoes are not in the national set: 0.5 of 1.05 kg is too little to show.
    wider = made_reading(*reading.lines, made_line("tomato", 0.5), serves=1)
    assert assess(wider, tiny_tables, streams=streams).second_opinion == ()


def test_one_set_can_be_asked_for(
    tiny_tables: Tables, made_line: MadeLine, made_reading: MadeReading, streams: Streams
) -> None:
    reading = made_reading(made_line("onion", 0.5), made_line("olive-oil", 0.05), serves=1)
    found = assess(reading, tiny_tables, streams=streams, factor_set="national")
    assert found.static == pytest.approx(0.5 * 0.4 + 0.05 * 0.983)
    assert found.basis.factor_sets == ("national",)
    part = assess(reading, tiny_tables, streams=streams, factor_set={"onion": "national"})
    assert part.static == pytest.approx(0.5 * 0.4 + 0.05 / 0.916 * 5.42)


def test_settle_next_names_what_varies_most_in_plain_words(
    tiny_tables: Tables, made_line: MadeLine, made_reading: MadeReading, streams: Streams
) -> None:
    reading = made_reading(
        made_line("onion", 2.0, measure="piece", spread=0.9),
        made_line("olive-oil", 0.02, measure="tbsp", spread=0.06),
    )
    first, second = assess(reading, tiny_tables, streams=streams).settle_next[:2]
    assert first.what == "how big the onion"
    assert second.what == "which onion"
    beef = made_reading(made_line("beef-chuck", 0.5), made_line("onion", 0.2))
    (only,) = assess(beef, tiny_tables, streams=streams).settle_next
    assert only.what == "which beef chuck"


def test_shares_of_the_variance_agree_with_freezing_a_parameter(
    tiny_tables: Tables, made_line: MadeLine, made_reading: MadeReading, streams: Streams
) -> None:
    # The long way round: average the draws inside narrow strata of one parameter.
    reading = made_reading(
        made_line("onion", 0.3, measure="piece", spread=0.4), made_line("tomato", 0.1), serves=1
    )
    found = assess(reading, tiny_tables, streams=streams)
    shares = {part.what: part.share_of_variance for part in found.settle_next}
    for what, key in {
        "how big the onion": "measure|onion|piece|300|1",
        "which tomato": "factor|global|Tomatoes|tomato|home",
    }.items():
        strata = np.argsort(streams.uniforms(key)).reshape(50, -1)
        long_way = found.draws[strata].mean(axis=1).var() / found.draws.var()
        assert shares[what] == pytest.approx(long_way, abs=0.02)


def test_a_region_without_grid_takes_the_world_and_says_so(
    tiny_tables: Tables, made_line: MadeLine, made_reading: MadeReading, streams: Streams
) -> None:
    reading = made_reading(made_line("onion", 0.5), kitchen=Kitchen(region="uk"))
    found = assess(reading, tiny_tables, SIMMER, streams=streams)
    assert "No electricity factor is known for uk: the world's stands in." in found.assumed
    assert "The pot is covered." in found.assumed
    gas = replace(SIMMER, energy=(replace(SIMMER.energy[0], carrier="gas"),))
    assert (
        "The gas factor for uk leaves out upstream."
        in assess(reading, tiny_tables, gas, streams=streams).assumed
    )
    world = made_reading(made_line("onion", 0.5))
    assert (
        "No gas factor is known for world: its use is not counted."
        in assess(world, tiny_tables, gas, streams=streams).assumed
    )


def test_the_average_is_said_to_be_a_lower_bound(
    tiny_tables: Tables, made_line: MadeLine, made_reading: MadeReading, streams: Streams
) -> None:
    reading = made_reading(made_line("onion", 0.5), kitchen=Kitchen(range_for="the-average"))
    found = assess(reading, tiny_tables, streams=streams)
    assert found.basis.range_for == "the-average"
    assert any("lower bound" in sentence for sentence in found.assumed)
    bought = assess(reading, tiny_tables, streams=streams, range_for="one-purchase")
    assert not any("lower bound" in sentence for sentence in bought.assumed)
    assert bought.static == pytest.approx(found.static)


def test_json_holds_every_key_of_the_contract(
    tiny_tables: Tables, made_line: MadeLine, made_reading: MadeReading, streams: Streams
) -> None:
    document = assess(
        made_reading(made_line("onion", 0.5), made_line("tomato", 0.2)),
        tiny_tables,
        SIMMER,
        streams=streams,
    ).to_dict()
    assert document.keys() >= {
        "functional_unit", "serving", "batch", "per", "stages", "lines", "activities", "coverage",
        "second_opinion", "settle_next", "assumed", "sources", "basis",
    }  # fmt: skip
    assert document["functional_unit"].keys() == {"name", "mass_kg", "litres"}
    assert document["per"].keys() == {"kg", "litre", "1000_kcal", "100_g_protein"}
    assert document["serving"]["kgco2e"].keys() == {"mean", "p05", "p50", "p95"}
    assert document["basis"].keys() >= {
        "middle", "range_for", "gwp", "factor_sets", "seed", "draws", "version", "data_sha256",
    }  # fmt: skip
    assert document["lines"][0].keys() >= {"number", "as_written", "kgco2e", "stages", "share"}
    assert document["activities"][2] == {
        "name": "simmer, 30 min",
        "stage": "cooking",
        "amount": 0.15,
        "unit": "kWh",
        "kgco2e": document["activities"][2]["kgco2e"],
        "source": "study-2018",
        "factor": "electricity, world, per kWh",
        "replaced": {},
        "step": 1,
    }
    assert [source["id"] for source in document["sources"]] == ["study-2018"]
