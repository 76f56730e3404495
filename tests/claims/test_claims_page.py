"""Every example of docs/claims.md does what the page says."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest

from counterproof.adapters.kitchens import load_prices
from counterproof.draws import Streams
from counterproof.use_cases import Workbench
from counterproof.vetting_cases import Episode, vetted_script

PAGE = (Path(__file__).parents[2] / "docs" / "claims.md").read_text()
BLOCKS = dict(re.findall(r"```(figures|claims)\n(.*?)```", PAGE, re.DOTALL))
VERDICTS = re.findall(r"^\| `(\[\? .+?\])` \| (.+?) \|$", PAGE, re.MULTILINE)


@pytest.fixture(scope="module")
def stew(season: dict[str, Episode]) -> Episode:
    first = season["01"]
    return replace(first, order=replace(first.order, prices=load_prices(first.order.recipe)))


def test_every_figure_of_the_page_is_understood(
    stew: Episode, bench: Workbench, claim_streams: Streams
) -> None:
    text = BLOCKS["figures"]
    found = vetted_script(text, stew, bench, claim_streams)
    assert len(found.figures) == text.count("[=")
    doubts = {
        one.expression.text: mark.message
        for one in found.figures
        for mark in one.marks
        if mark.level != "note"
    }
    assert not doubts


def test_every_claim_of_the_page_is_understood(
    stew: Episode, bench: Workbench, claim_streams: Streams
) -> None:
    text = BLOCKS["claims"]
    found = vetted_script(text, stew, bench, claim_streams)
    assert len(found.claims) == text.count("[?")
    assert not [one.reason for one in found.claims if one.verdict == "cannot be judged"]
    assert not [one.contradicted for one in found.claims if one.contradicted]


@pytest.mark.parametrize(("asked", "verdict"), VERDICTS)
def test_every_verdict_of_the_page_is_given(
    asked: str, verdict: str, stew: Episode, bench: Workbench
) -> None:
    (found,) = vetted_script(asked, stew, bench, Streams(seed=1, n=10_000)).claims
    assert found.verdict == verdict
