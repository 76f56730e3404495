"""The kitchen's questions on the desk: asked, filled in from a step, answered, explained."""

import re
from typing import Any

import pytest

from counterproof.kitchen_questions.entries import FORMS

Asking = Any


def _answer(asking: Asking, process: str, **told: str) -> Any:
    body = {"name": asking.folder.first, "process": process, "told": told}
    return asking.client.post("/answer", json=body)


def test_the_page_lists_every_question_and_what_the_recipe_raises(asking: Asking) -> None:
    html = str(asking.page("/leaf/questions")["html"])
    assert {form.process for form in FORMS} <= set(re.findall(r'data-ask="(\w+)"', html))
    assert 'data-step="1"' in html


@pytest.mark.parametrize("form", FORMS, ids=lambda form: form.process)
def test_every_entry_of_a_form_is_labelled(asking: Asking, form: Any) -> None:
    answer = asking.client.get("/question", params={"process": form.process})
    html = answer.json()["html"]
    for entry in form.entries:
        assert f'<label for="entry-{entry.key}">' in html
        assert f'id="entry-{entry.key}"' in html


def test_a_form_is_filled_in_from_its_step(asking: Asking) -> None:
    html = str(asking.page("/leaf/questions")["html"])
    process, step = next(re.finditer(r'data-ask="(simmer)" data-step="(\d+)"', html)).groups()
    asked = {"process": process, "step": step, "name": asking.folder.first}
    filled = asking.client.get("/question", params=asked).json()["html"]
    assert "Filled in from step" in filled
    assert re.search(r'name="food" value="[a-z]', filled)


def test_an_answer_tells_its_working_under_it(asking: Asking) -> None:
    answer = _answer(asking, "carbonate", temperature="4 C", gauge="3 bar")
    assert answer.status_code == 200, answer.text
    html = answer.json()["html"]
    assert 'class="curve"' in html
    for part in ("In numbers", "Worked out from", "Assumed", "Sources", "Cautions"):
        assert part in html
    assert "style=" not in html


def test_what_is_wrong_stands_beside_its_entry(asking: Asking) -> None:
    answer = _answer(asking, "heat", water="2", to="90 C")
    assert answer.status_code == 422
    assert set(answer.json()["error"]["faults"]) == {"water"}


def test_what_physics_has_no_answer_to_is_told(asking: Asking) -> None:
    answer = _answer(asking, "heat", water="2 L", to="140 C", lid="yes")
    assert answer.status_code == 422
    assert "hotter" in answer.json()["error"]["message"]


def test_words_of_a_stranger_are_escaped(asking: Asking) -> None:
    html = _answer(asking, "heat", water="1 L", food="<b>onion</b>", mass="100 g").json()["html"]
    assert "<b>onion" not in html


def test_an_unknown_question_is_refused(asking: Asking) -> None:
    assert asking.client.get("/question", params={"process": "sorcery"}).status_code == 422
    assert _answer(asking, "sorcery").status_code == 422


def test_a_stranger_gets_no_answer(asking: Asking) -> None:
    assert asking.stranger.post("/answer", json={}).status_code == 401
    assert asking.stranger.get("/leaf/questions").status_code == 401
