"""The kitchen's questions by form: the same answers as by command, faults beside their entries."""

import pytest

from counterproof.draws import Streams
from counterproof.errors import InputError, NotFilledIn
from counterproof.kitchen_questions import cold, drinks, heat
from counterproof.kitchen_questions.amounts import Amount
from counterproof.kitchen_questions.answers import answered
from counterproof.kitchen_questions.around import Around, Load
from counterproof.kitchen_questions.entries import FORMS, Form
from counterproof.recipe.kitchen import Kitchen
from counterproof.use_cases import Workbench


@pytest.fixture(scope="module")
def around(bench: Workbench) -> Around:
    """A kitchen of defaults."""
    return Around(bench, Kitchen(), Streams(seed=1, n=200))


@pytest.mark.parametrize("form", FORMS, ids=lambda form: form.process)
def test_every_form_answers_as_it_begins(form: Form, around: Around) -> None:
    told = {entry.key: entry.begins for entry in form.entries}
    answer = answered(form.process, told, around)
    assert answer.process == form.process
    assert answer.result


@pytest.mark.parametrize("form", FORMS, ids=lambda form: form.process)
def test_entries_are_named_once_and_choices_begin_with_one_of_them(form: Form) -> None:
    assert len({entry.key for entry in form.entries}) == len(form.entries)
    for entry in form.entries:
        if entry.kind == "choice":
            assert entry.begins in {value for value, _ in entry.choices}


def test_a_form_gives_what_the_question_itself_gives(around: Around) -> None:
    by_form = answered("heat", {"water": "2 L", "from": "10 C", "to": "90 C", "lid": "yes"}, around)
    by_hand = heat.heat(Load(Amount(volume=2e-3)), around, heat.Setting(), start=283.15, end=363.15)
    assert by_form.to_dict() == by_hand.to_dict()


def test_a_wanted_result_turns_the_question_round(around: Around) -> None:
    told = {"temperature": "4 C", "gauge": "3 bar", "want": "6 g/L"}
    by_form = answered("carbonate", told, around)
    by_hand = drinks.carbonate(drinks.Fizz(temperature=277.15), around, want=6.0)
    assert by_form.result["gauge_bar"] == by_hand.result["gauge_bar"]


def test_measured_points_are_read_one_a_line(around: Around) -> None:
    told = {"volume": "4 L", "covered": "yes", "measured": "30min=80C\n60min=68C"}
    by_form = answered("cool", told, around)
    by_hand = cold.cool(
        cold.Served(volume=4e-3), around, cold.Corner("fridge", None, fan=False),
        start=None, authorities=("us",), already=None,
        measured=[(1800.0, 353.15), (3600.0, 341.15)],
    )  # fmt: skip
    assert by_form.result["spans"] == by_hand.result["spans"]


def test_every_fault_stands_beside_its_entry(around: Around) -> None:
    with pytest.raises(NotFilledIn) as caught:
        answered("heat", {"water": "2", "to": "ninety", "appliance": "campfire"}, around)
    assert set(caught.value.faults) == {"water", "to", "appliance"}


@pytest.mark.parametrize(
    ("process", "told", "key"),
    [
        ("fry", {"food": "onions", "mass": "300 g"}, "time"),
        ("cool", {"volume": "4 L", "measured": "hot"}, "measured"),
        ("cool", {"volume": "4 L", "portions": "2.5"}, "portions"),
        ("steep", {"size": "5 mm", "time": "5 min", "temperature": "90 C", "want": "x"}, "want"),
    ],
)
def test_what_has_to_be_said_or_cannot_be_is_told(
    around: Around, process: str, told: dict[str, str], key: str
) -> None:
    with pytest.raises(NotFilledIn) as caught:
        answered(process, told, around)
    assert set(caught.value.faults) == {key}


def test_a_question_that_is_none_is_refused(around: Around) -> None:
    with pytest.raises(InputError, match="no question"):
        answered("sous", {}, around)
