"""A version written into the settings: everything else stays as the cook wrote it."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterproof.adapters.tables import load_tables
from counterproof.desk.settings_text import with_swap, words_for
from counterproof.errors import BrokenFrontMatter, SwapNotFound
from counterproof.reading.foods import Matcher
from counterproof.reading.versions import version_applied
from counterproof.recipe.text import read_text

BODY = "# Soup\n\n- 2 leeks\n- 300 g potatoes\n\n## Method\n\n1. Boil them.\n"
FRONTS = {
    "none": "",
    "no versions": "---\nmeasures: uk\n---\n",
    "versions": "---\nversions:\n    oven:   # mine\n        kitchen: {hob: gas}\nmeasures: uk\n---\n",
    "flow": "---\nversions: {oven: {kitchen: {hob: gas}}}\n---\n",
    "last": "---\nmeasures: uk  # cups of 250 ml\n\nversions:\n  oven: {serves: 2}\n---\n",
}


@pytest.mark.parametrize("front", FRONTS.values(), ids=FRONTS)
def test_a_swap_is_added_and_no_line_is_lost(front: str) -> None:
    text = front + BODY
    made = with_swap(text, "swede", "potatoes", "400 g swede")
    recipe = read_text(made)
    assert recipe.versions[-1].name == "swede"
    assert recipe.versions[-1].swap == {"potatoes": "400 g swede"}
    assert recipe.versions[:-1] == tuple(
        v.__class__(**{**{f: getattr(v, f) for f in v.__slots__}, "at": new.at})
        for v, new in zip(read_text(text).versions, recipe.versions[:-1], strict=True)
    )
    kept = made.split("\n")
    for line in text.split("\n"):
        if not line.startswith("versions: {"):
            assert line in kept


@pytest.mark.property
@given(
    name=st.text(st.characters(codec="utf-8", exclude_categories=["C"]), min_size=1, max_size=20),
    line=st.sampled_from(["potatoes", "2 leeks"]),
    instead=st.text(st.characters(codec="utf-8", exclude_categories=["C"]), min_size=1, max_size=40),
)  # fmt: skip
def test_any_words_are_written_so_that_they_read_back(name: str, line: str, instead: str) -> None:
    try:
        made = with_swap(BODY, name, line, instead)
    except BrokenFrontMatter:
        assert not name.split() or not instead.split()
        return
    (version,) = read_text(made).versions
    assert version.name == " ".join(name.split())
    assert version.swap == {line: " ".join(instead.split())}


@pytest.mark.parametrize(("name", "instead"), [("", "x"), ("x", " "), ("oven", "400 g swede")])
def test_a_swap_that_says_too_little_or_is_there_is_refused(name: str, instead: str) -> None:
    with pytest.raises(BrokenFrontMatter):
        with_swap(FRONTS["last"] + BODY, name, "potatoes", instead)


def test_words_are_found_that_mean_one_line_alone() -> None:
    text = "# Soup\n\n- 2 leeks\n- 300 g potatoes, diced\n- 1 kg carrots, grated\n- 250 g mince\n- 1 onion\n- 2 onions\n\n## Method\n\n1. Boil.\n"
    recipe = read_text(text)
    matcher = Matcher(load_tables())
    for at in (3, 4, 5, 6):
        words = words_for(recipe, at, matcher)
        made = read_text(with_swap(text, "trial", words, "1 kg swede"))
        changed, marks = version_applied(made, made.versions[0], matcher)
        assert [line.text for line in changed.lines].index("1 kg swede") == at - 3
        assert marks == ()
    for at in (1, 7, 8):  # the title; two lines that no words tell apart
        with pytest.raises(SwapNotFound):
            words_for(recipe, at, matcher)
