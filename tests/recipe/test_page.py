"""Saved web pages, with JSON-LD or microdata, whole or damaged.

Microdata as the HTML standard defines it (https://html.spec.whatwg.org/multipage/microdata.html):
itemscope begins an item, itemprop names a property, "content" of a meta element is its value.
"""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from counterproof.errors import CounterproofError, NotARecipe
from counterproof.recipe.page import read_page

BLOCK = '{"@type": "Recipe", "name": "Toast", "recipeIngredient": ["2 slices bread"]}'


def page(block: str, kind: str = "application/ld+json") -> str:
    return f'<html><head><script type="{kind}">{block}</script></head><body>Hm.</body></html>'


@pytest.mark.parametrize(
    "text",
    [
        page(BLOCK),
        page(BLOCK, "application/ld+json; charset=utf-8"),
        page(f"<!-- {BLOCK} -->"),
        page(f"//<![CDATA[\n{BLOCK}\n//]]>"),
        page(f"/*<![CDATA[*/{BLOCK}/*]]>*/"),
        page(BLOCK.replace("2 slices", "2 sli\tces").replace("sli\tces", "slices")),
        page(BLOCK).replace("</script></head><body>Hm.</body></html>", ""),
        f"<body>{page(BLOCK)}",
    ],
)
def test_json_ld_however_it_is_wrapped(text: str) -> None:
    recipe = read_page(text, "toast.html")
    assert (recipe.title, recipe.file) == ("Toast", "toast.html")
    assert [line.text for line in recipe.lines] == ["2 slices bread"]


def test_line_breaks_inside_strings_are_forgiven() -> None:
    assert read_page(page(BLOCK.replace("2 slices", "2\nslices"))).lines[0].text == "2 slices bread"


@pytest.mark.published
def test_microdata() -> None:
    text = """
    <article itemscope itemtype="https://schema.org/Recipe">
    <h2 itemprop="name">Pea &amp; mint soup</h2>
    <img itemprop="image" src="soup.jpg">
    <meta itemprop="recipeYield" content="4 servings">
    <ul><li itemprop="recipeIngredient">500&nbsp;g frozen peas
    <li itemprop="recipeIngredient"><span>1</span> <span>onion</span></li></ul>
    <div itemprop="recipeInstructions" itemscope itemtype="https://schema.org/HowToStep">
      <p itemprop="text">Simmer.</p></div>
    <div itemprop="recipeInstructions" itemscope itemtype="https://schema.org/HowToStep">
      <p itemprop="text">Blend.</p></div>
    <div itemprop="nutrition" itemscope itemtype="https://schema.org/NutritionInformation">
      <span itemprop="calories">200</span></div>
    <script>document.write("<li itemprop='recipeIngredient'>1 advert</li>")</script>
    </article>"""
    recipe = read_page(text)
    assert recipe.title == "Pea & mint soup"
    assert recipe.serves == (4, 4)
    assert [line.text for line in recipe.lines] == ["500 g frozen peas", "1 onion"]
    assert [step.text for step in recipe.steps] == ["Simmer.", "Blend."]


def test_a_page_may_hold_a_recipe_inside_another_item() -> None:
    text = """<div itemscope itemtype="http://schema.org/WebPage"><div itemprop="mainEntity"
    itemscope itemtype="http://schema.org/Recipe"><b itemprop="name">Toast</b>
    <i itemprop="ingredients">bread</i></div></div>"""
    assert read_page(text).title == "Toast"


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "no schema.org recipe"),
        ("<html><body><h1>Toast</h1><p>2 slices bread</p></body></html>", "no schema.org recipe"),
        (page("{"), "1 block of data could not be read"),
        (page("{") + page("nul") + page("[" * 50_000), "3 blocks of data could not be read"),
        (page('{"@type": "Recipe", "name": "Air"}'), "no ingredients"),
    ],
)
def test_a_page_without_a_recipe(text: str, words: str) -> None:
    with pytest.raises(NotARecipe, match=words) as caught:
        read_page(text, "page.html")
    assert caught.value.file == "page.html"
    assert "text file" in caught.value.remedy


PIECES = st.sampled_from(
    """<div itemscope itemtype='http://schema.org/Recipe'>|</div>|<li itemprop=recipeIngredient>|1 egg|
    <meta itemprop=name content=x>|<script type=application/ld+json>|BLOCK|</script>|</p>|<br/>|<|
    <p itemprop='recipeInstructions name'>|&amp|&#x110000;|<!--|-->|<![CDATA[|]]>|<!doctype|>|
    <link itemprop=recipeYield href=4>|<style>|</style>|<ul>|</li>""".replace("\n    ", "")
    .replace("BLOCK", BLOCK)
    .split("|")
)


@pytest.mark.property
@settings(max_examples=200, deadline=None)
@given(st.lists(PIECES | st.text(max_size=5), max_size=15).map("".join))
def test_any_page_gives_a_recipe_or_one_error(text: str) -> None:
    try:
        recipe = read_page(text)
    except CounterproofError as fault:
        told = fault.remedy
        assert told
    else:
        assert recipe.lines


# RDFa Lite 1.1 (https://www.w3.org/TR/rdfa-lite/): typeof begins a thing, property names one of
# its properties.
@pytest.mark.parametrize("key", ["recipeIngredient", "ingredients", "schema:recipeIngredient"])
def test_rdfa_is_read_as_microdata_is(key: str) -> None:
    recipe = read_page(
        '<div vocab="https://schema.org/" typeof="Recipe"><h1 property="name">Toast</h1>'
        f'<ul><li property="{key}">2 slices bread<li property="{key}">butter</ul>'
        '<div property="recipeInstructions">Toast the bread.</div></div>'
    )
    assert recipe.title == "Toast"
    assert [line.text for line in recipe.lines] == ["2 slices bread", "butter"]
    assert [step.text for step in recipe.steps] == ["Toast the bread."]
