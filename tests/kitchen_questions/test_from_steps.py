"""The questions that steps raise, filled in from the recipe."""

from counterproof.adapters.files import demo_season, episodes, load_recipe
from counterproof.adapters.kitchens import load_kitchen
from counterproof.draws import Streams
from counterproof.kitchen_questions.answers import answered
from counterproof.kitchen_questions.around import Around
from counterproof.kitchen_questions.from_steps import Raised, raised_by
from counterproof.plan.planning import plan_of
from counterproof.use_cases import Order, Workbench, mark


def _raised(bench: Workbench, episode: int) -> tuple[Raised, ...]:
    recipe, _ = load_recipe(str(episodes(demo_season())[episode]))
    reading = mark(Order(recipe, load_kitchen(recipe)), bench)
    return raised_by(reading, plan_of(reading, bench.tables, bench.coolings), bench.tables)


def test_a_soup_that_is_cooled_asks_with_its_trays(bench: Workbench) -> None:
    found = {(one.step, one.process): one.told for one in _raised(bench, 2)}
    cooling = next(told for (_, process), told in found.items() if process == "cool")
    assert cooling["vessel"] == "tray"
    assert cooling["volume"].endswith(" L")
    assert float(cooling["portions"]) >= 1


def test_a_jar_is_frozen_in_the_size_it_is_packed_in(bench: Workbench) -> None:
    frozen = next(one for one in _raised(bench, 1) if one.process == "freeze")
    assert frozen.told == {"volume": "570 ml"}


def test_what_is_raised_can_be_answered(bench: Workbench) -> None:
    for episode in (0, 2, 3):
        for one in _raised(bench, episode):
            if one.process in {"freeze", "thaw"}:
                continue  # they take seconds and are asked above with what they begin with
            kitchen = Around(bench, load_kitchen(load_recipe(str(episodes(demo_season())[episode]))[0]), Streams(seed=1, n=100))  # fmt: skip
            warmth = {"temperature": "180 C"} if one.process == "bake" else {}
            told = {"time": "10 min", "to": "75 C", **warmth, **one.told}
            assert answered(one.process, told, kitchen).result
