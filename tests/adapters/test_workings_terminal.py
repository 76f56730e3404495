"""How a number came about, in a terminal and as JSON."""

from __future__ import annotations

import io

import pytest
from rich.console import Console

from counterproof.adapters.workings_terminal import print_working, working
from counterproof.draws import Streams
from counterproof.errors import UsageFault
from counterproof.press.figures import term_text, text_of
from counterproof.proof import Edition
from counterproof.recipe.kitchen import Kitchen
from counterproof.recipe.text import read_text
from counterproof.use_cases import Order, Workbench, proof

TEXT = "# Dish\n\nServes 4\n\n- 400 g beef [red]\n- 2 onions\n\n1. Simmer for 20 minutes.\n"


@pytest.fixture(scope="module")
def edition(bench: Workbench) -> Edition:
    return proof(Order(read_text(TEXT), Kitchen()), bench, Streams(seed=1, n=500))


def printed(edition: Edition, asked: str, width: int = 400) -> str:
    text = io.StringIO()
    print_working(edition, asked, Console(file=text, width=width))
    return text.getvalue()


def test_every_step_stands_in_its_order_with_its_value(edition: Edition) -> None:
    number, one = working(edition, "line:1")
    lines = printed(edition, "line:1").splitlines()
    assert lines[0] == f"[{number}] {one.name}: {text_of(one, edition.middle)}"
    assert len(lines) == 1 + len(one.terms)
    for term, line in zip(one.terms, lines[1:], strict=True):
        assert term.says in line
        assert term_text(term, edition) in line
        assert term.source in line
    assert f"[{edition.number_of('mass:1')}]" in lines[1]


def test_a_number_is_found_by_its_place_too(edition: Edition) -> None:
    number = edition.number_of("mass:2")
    assert printed(edition, str(number)) == printed(edition, "mass:2")


@pytest.mark.parametrize("asked", ["lime:1", "0", "99999999999", "", "[bold]"])
def test_a_number_that_is_not_there_names_those_that_are(edition: Edition, asked: str) -> None:
    with pytest.raises(UsageFault) as fault:
        working(edition, asked)
    assert "no number" in fault.value.message
    keys = {one.key for one in edition.derivations}
    named = fault.value.remedy.rstrip(".").split("such as ")[1].split(", ")
    assert set(named) <= keys


@pytest.mark.parametrize("width", [40, 80, 200])
def test_nothing_is_cut_in_a_narrow_terminal(edition: Edition, width: int) -> None:
    text = printed(edition, "serving", width)
    assert all(len(line) <= width for line in text.splitlines())
    squeezed = "".join(text.split())
    for one in edition.derivations[0].terms:
        assert one.says.split()[0] in squeezed
