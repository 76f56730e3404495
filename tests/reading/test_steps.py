"""Steps read: our own sentences, in the ways cooks write them."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterproof.reading.steps import main_process, read_step, sentence_processes
from counterproof.recipe.model import WrittenLine


@pytest.mark.parametrize(
    ("sentence", "kind", "minutes", "celsius", "covered", "appliance"),
    [
        ("Simmer gently for 25–30 minutes with the lid on.", "simmer", (25, 30), None, True, "hob"),
        ("Bring to the boil, then simmer, uncovered, for 10 minutes.", "simmer", (10, 10), None, False, "hob"),
        ("Roast the squash at 200°C for half an hour.", "bake", (30, 30), 200, None, "oven"),
        ("Heat the oven to gas mark 4.", "preheat", None, 180, None, "oven"),
        ("Bake at 350 F (180 C) for an hour and a half, or until set.", "bake", (90, 90), 180, None, "oven"),
        ("Soak the beans overnight.", "soak", None, None, None, None),
        ("Leave to stand for at least two hours.", "rest", (120, None), None, None, None),
        ("Freeze for up to 3 months.", "freeze", (None, 129600), None, None, "freezer"),
        ("Drain the pasta.", "strain", None, None, None, None),
        ("Fry the onions over a low heat, stirring every 2 minutes.", "fry", None, None, None, "hob"),
        ("Chill in the fridge for 1 hour 30 minutes.", "chill", (90, 90), None, None, "fridge"),
        ("Cook in the microwave for 90 seconds.", "microwave", (1.5, 1.5), None, None, "microwave"),
        ("Whizz until smooth.", "blend", None, None, None, "blender"),
        ("Cook in the oven for 40 minutes.", "bake", (40, 40), None, None, "oven"),
        ("Let the dough rise, covered with a cloth, for one hour.", "rise", (60, 60), None, True, None),
        ("Steep the cardamom in the syrup for twenty minutes.", "steep", (20, 20), None, None, None),
        ("Cover with cold water.", "soak", None, None, None, None),
    ],
)  # fmt: skip
def test_a_sentence_gives_its_main_process(
    sentence: str,
    kind: str,
    minutes: tuple[float | None, float | None] | None,
    celsius: float | None,
    covered: bool | None,
    appliance: str | None,
) -> None:
    process = main_process(sentence_processes(sentence))
    assert process is not None
    assert (process.kind, process.minutes, process.celsius) == (kind, minutes, celsius)
    assert (process.covered, process.appliance) == (covered, appliance)


def test_several_processes_in_a_sentence_are_several_processes() -> None:
    sentence = "Bring the stock to a boil, simmer 20 minutes, strain and chill for 2 hours."
    found = [(p.kind, p.minutes) for p in sentence_processes(sentence)]
    assert found == [
        ("boil", None),
        ("simmer", (20, 20)),
        ("strain", None),
        ("chill", (120, 120)),
    ]


def test_things_named_after_processes_are_not_processes() -> None:
    sentence = "Put the melted butter in a frying pan with the boiling water and chopped herbs."
    assert {p.kind for p in sentence_processes(sentence)} <= {"prep", "add", "transfer"}


def test_to_drain_takes_the_liquid_and_to_strain_takes_the_solids() -> None:
    drained = main_process(sentence_processes("Drain the potatoes."))
    strained = main_process(sentence_processes("Strain the syrup through muslin."))
    assert drained is not None
    assert strained is not None
    assert (drained.leaves, strained.leaves) == ("liquid", "solids")


def test_every_sentence_of_a_step_is_read() -> None:
    step = read_step(
        WrittenLine(1, "Fry the leeks for 5 minutes. Add the stock and simmer 1 hour.")
    )
    timed = [(p.kind, p.minutes) for p in step.processes if p.minutes]
    assert timed == [("fry", (5, 5)), ("simmer", (60, 60))]


@pytest.mark.property
@given(st.text())
def test_any_text_is_read_without_an_error(text: str) -> None:
    assert read_step(WrittenLine(1, text)).written.text == text
