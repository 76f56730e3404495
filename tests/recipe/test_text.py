"""Reading, writing and settling a recipe's text."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from counterproof.errors import BrokenFrontMatter, CounterproofError, NotARecipe
from counterproof.recipe.text import read_text, same_words, settle, write_text

BARE = "# Toast\n\n## Ingredients\n\n- 2 slices bread\n\n## Method\n\n1. Toast the bread.\n"


def texts(text: str) -> list[str]:
    return [line.text for line in read_text(text).lines]


@pytest.mark.parametrize(
    "heading",
    [
        "## Ingredients",
        "### INGREDIENTS:",
        "**Ingredients**",
        "Ingredients",
        "Ingredients:",
        "You need",
        "You will need:",
        "## You'll need",
        "What you need",
        "## What you’ll need",
        "For the toast:",
        "Ingredients (serves 2)",
        "Ingredients for 2",
    ],
)
@pytest.mark.parametrize(
    "method",
    ["Method", "## Steps", "Directions:", "**Instructions**", "Preparation", "How to make it"],
)
def test_headings_in_the_cooks_words(heading: str, method: str) -> None:
    recipe = read_text(f"# Toast\n\n{heading}\n\n- bread\n- butter\n\n{method}\n\nToast. Spread.\n")
    assert [line.text for line in recipe.lines] == ["bread", "butter"]
    assert [step.text for step in recipe.steps] == ["Toast. Spread."]
    if "2" in heading:
        assert recipe.serves == (2, 2)


@pytest.mark.parametrize("sign", ["- ", "* ", "+ ", "• ", "•", "– ", "1. ", "- [ ] ", "", "▢ "])
def test_list_signs_are_no_part_of_a_line(sign: str) -> None:
    text = f"# Toast\n\n## Ingredients\n\n{sign}2 slices bread\n{sign}10 g butter\n\n## Method\n\nGo.\n"
    assert texts(text) == ["2 slices bread", "10 g butter"]


def test_a_yield_line_is_read_wherever_it_stands() -> None:
    for text in (
        BARE.replace("# Toast\n", "# Toast\n\nServes 2\n"),
        BARE + "\nServes 2\n",
        BARE.replace("## Method", "Serves 2.\n\n## Method"),
        BARE + "\n## Notes\n\nServes 2\n",
    ):
        recipe = read_text(text)
        assert recipe.serves == (2, 2)
        assert len(recipe.lines) == len(recipe.steps) == 1


def test_a_second_yield_is_a_doubt_and_is_kept() -> None:
    recipe = read_text(BARE.replace("# Toast\n", "---\nserves: 4\n---\n# Toast\n\nServes 2\n"))
    assert recipe.serves == (4, 4)
    assert recipe.intro == "Serves 2"
    assert [(mark.level, mark.kind) for mark in recipe.marks] == [("doubt", "other-yield")]
    assert "Line 6" in recipe.marks[0].message


@pytest.mark.parametrize(
    "head",
    ["\nFor the top\n\n", "\nFor the top\n", "For the top\n", "For the top:\n", "\nTOPPING\n"],
)
@pytest.mark.parametrize("sign", ["", "- "])
def test_parts_of_a_dish_in_a_list_without_marked_headings(head: str, sign: str) -> None:
    if sign and not head.startswith("\n"):
        head = sign + head
    text = f"Bake\n\n{sign}2 eggs\n{sign}1 leek\n{head}{sign}100 g crumbs\n{sign}salt\n\nBake it all.\n"
    recipe = read_text(text)
    assert [line.text for line in recipe.lines] == ["2 eggs", "1 leek", "100 g crumbs", "salt"]
    assert [bool(line.section) for line in recipe.lines] == [False, False, True, True]


def test_an_afterword_beside_the_method_is_no_step() -> None:
    recipe = read_text(BARE + "\n## With jam\n\nSimmer the jam for 2 hours beforehand.\n")
    assert len(recipe.steps) == 1
    assert "2 hours" in recipe.notes


def test_an_inline_note_does_not_end_the_method() -> None:
    recipe = read_text(
        "Soup\n\n1 onion\n1 l stock\n\nBoil it.\n\nNote: mind the steam.\n\nBlend it.\n"
    )
    assert [step.text for step in recipe.steps] == ["Boil it.", "Blend it."]
    assert recipe.notes == "Note: mind the steam."


@pytest.mark.parametrize(
    ("text", "line", "words"),
    [
        ("", None, "empty"),
        (" \n\n\t\n", None, "empty"),
        ("---\nserves: 4\n---\n", 1, "no recipe"),
        ("# Toast\n", 1, "No ingredients"),
        ("\n\nIt was a dark and stormy night, and nobody had thought of supper.\n", 3, "No ingr"),
        ("# Toast\n\n## Ingredients\n\n## Method\n\n1. Toast it.\n", 1, "No ingredients"),
    ],
)
def test_not_a_recipe(text: str, line: int | None, words: str) -> None:
    with pytest.raises(NotARecipe, match=words) as caught:
        read_text(text, "supper.md")
    assert caught.value.file == "supper.md"
    assert caught.value.line == line
    assert "Ingredients" in caught.value.remedy


@pytest.mark.parametrize(
    ("front", "line", "words"),
    [
        ("serves: [4\nmakes: 1", 3, "YAML"),
        ("serves: four hundred", 2, 'serves: "four hundred" is no number of servings'),
        ("title: Toast\nserves: 0", 3, "serves"),
        ("serves: true", 2, "serves"),
        ("measures: cups", 2, "not one of us, uk, metric, au"),
        ("eaten: 1.5", 2, "eaten"),
        ("pack: {lid: steel}", 2, "container: is needed"),
        ("keep:\n  - where: fridge\n    days: soon", 4, 'days: "soon" is not a number'),
        ("keep: {where: attic, days: 2}", 2, "not one of fridge, freezer, cupboard"),
        ("versions: {beef: {swap: beans}}", 2, "swap"),
        ("versions:\n  beef: {swap: {beans: ''}}", 3, "the line that stands in its place"),
        ("versions:\n  a: {serves: 2}\n  gas: {hob: {kind: coal}}", 4, "coal"),
        ("a: &x 1\nb: *x", 2, "special meaning"),
        ("serves: 2\nserves: 3", 3, "a key is written twice"),
        ("- one\n- two", 2, "list of keys"),
        ("just words", 2, "list of keys"),
        ("serves: 2\n\tmakes: 3", 3, "tab"),
        ("serves: 2\nmakes: soup: hot", 3, "second colon"),
        ("title: 'Mum's soup'", 2, "YAML"),
        ('title: "Soup', 2, "quotation mark is not closed"),
        ("serves: 2\nmakes 3 jars\neaten: 1", 4, "no colon"),
        ("[" * 900, 2, "nested too deeply"),
        ("[" * 5000, 2, "brackets"),
        ("a: b\n" * 20_000, 1, "characters"),
    ],
)
def test_broken_front_matter(front: str, line: int, words: str) -> None:
    with pytest.raises(BrokenFrontMatter) as caught:
        read_text(f"---\n{front}\n---\n{BARE}", "toast.md")
    assert words in caught.value.message
    assert caught.value.file == "toast.md"
    assert caught.value.line == line
    assert caught.value.remedy


def test_all_faults_are_told_at_once_each_with_its_line() -> None:
    front = "serves: many\nmeasures: imperial\nkeep:\n  - {where: attic, days: 1}\neaten: 3"
    with pytest.raises(BrokenFrontMatter) as caught:
        read_text(f"---\n{front}\n---\n{BARE}")
    for said in ("4 values", "line 2, serves", "line 3, measures", "line 5, keep", "line 6, eaten"):
        assert said in caught.value.message


def test_front_matter_that_never_ends() -> None:
    with pytest.raises(BrokenFrontMatter, match="never end") as caught:
        read_text("---\nserves: 4\n\n# Toast\n", "toast.md")
    assert caught.value.line == 1


@pytest.mark.parametrize(
    ("key", "nearest", "known"),
    [
        ("serve: 4", "serves", "serve"),
        ("pack: {contaner: jar, container: jar}", "container", "contaner"),
        ("versions: {beef: {swaps: {a: b}}}", "swap", "swaps"),
        ("zzz: 1", None, "zzz"),
    ],
)
def test_an_unknown_key_is_a_doubt(key: str, nearest: str | None, known: str) -> None:
    recipe = read_text(f"---\n{key}\n---\n{BARE}")
    (mark,) = recipe.marks
    assert (mark.level, mark.kind) == ("doubt", "unknown-key")
    assert mark.message.startswith(f'line 2: "{known}"')
    assert mark.choices == ((nearest,) if nearest else ())


def test_yaml_is_version_1_2() -> None:
    recipe = read_text(f"---\nbought: {{what: NO, container: 12:30}}\n---\n{BARE}")
    assert recipe.bought is not None
    assert (recipe.bought.what, recipe.bought.container) == ("NO", "12:30")


def test_settling_writes_into_the_line_and_nowhere_else() -> None:
    text = "Sauce\r\n\r\n1 tin tomatoes \r\n2 tbsp oil\r\n\r\nWarm the tomatoes in the oil.\r\n"
    settled = settle(text, 3, "chopped tomatoes, 400 g")
    assert settled == text.replace(
        "1 tin tomatoes ", "1 tin tomatoes (meaning chopped tomatoes, 400 g) "
    )
    assert read_text(settled).lines[0].text == "1 tin tomatoes (meaning chopped tomatoes, 400 g)"
    again = settle(settled, 3, "plum tomatoes (whole)")
    assert again.splitlines()[2] == "1 tin tomatoes (meaning plum tomatoes, whole) "


def test_settling_keeps_a_comment_behind_the_words() -> None:
    text = BARE.replace("bread\n", "bread <!-- stale -->\n", 1)
    assert "- 2 slices bread (meaning rye) <!-- stale -->\n" in settle(text, 5, "rye")


@pytest.mark.parametrize("at", [0, 2, 99])
def test_settling_a_line_that_is_not_there(at: int) -> None:
    with pytest.raises(NotARecipe, match=f"no line {at}"):
        settle(BARE, at, "rye")


@pytest.mark.parametrize(
    "line",
    [
        "200 g flour*",
        "1 * 2 * 3 eggs",
        "*star* anise",
        "- dash of bitters",
        "1. rate flour",
        "[x] ticked",
        "# hash browns",
        "a | b",
        "5 g <!-- salt",
        "back\\slash",
        "\\*",
        "---",
        "**",
        "Method",
        "Serves 4",
        "Ingredients:",
        "![pic](x)",
        "snake_case_ flour_",
        "> 3 eggs",
    ],
)
@pytest.mark.property
def test_any_words_survive_being_written(line: str) -> None:
    recipe = read_text(BARE)
    words = [recipe.lines[0], type(recipe.lines[0])(2, line, line, None)]
    steps = [recipe.steps[0], type(recipe.steps[0])(2, line, line, None)]
    changed = type(recipe)(
        title=line, lines=tuple(words), steps=tuple(steps), intro=line, notes=line
    )
    assert same_words(read_text(write_text(changed)), changed)


@pytest.mark.parametrize(
    "unit",
    ["**a ", "__a", "[a](", "`", "a<!-- -->", "<!--", "a ", "about ", "> ", "- ", "|-", " #", ";a"],
)
def test_a_line_of_nothing_but_signs_is_one_line(unit: str) -> None:
    recipe = read_text(BARE.replace("2 slices bread", "2 slices bread " + unit * 20_000))
    assert len(recipe.lines) == 1
    assert recipe.lines[0].text.startswith("2 slices bread")


@pytest.mark.property
@settings(max_examples=150, deadline=None)
@given(st.text(alphabet=st.characters(exclude_categories=["Cs"]), max_size=300))
def test_any_text_gives_a_recipe_or_one_error(text: str) -> None:
    try:
        recipe = read_text(text)
    except CounterproofError as fault:
        told = fault.remedy
        assert told
        return
    assert recipe.lines


PIECES = st.sampled_from(
    """# Soup|## Ingredients|Ingredients:|## Method|Method: boil it|- 2 onions|3 eggs|salt|1. Boil it.
    |* 1 cup rice|Serves 4|Makes 2 jars, serves 8|For the sauce:|### For the top|**Notes**|---|===
    |> 2 eggs||  and more of it|<!-- gone -->|<!--|-->|Then simmer it all for an hour or two, stirring.
    |a|\\Method|\\# x|| a | b ||---|---|Tip: rest it.|Step 1: Chop.|- Sauce:|serves: 4|- [ ] leeks
    |What you need|For 4 people|Preparation|Preparation: 20 minutes|Title (serves 2)|For the top|- To serve|## Made up|***
    """.replace("\n    ", "").split("|")
)


@pytest.mark.property
@settings(max_examples=200, deadline=None)
@given(st.lists(PIECES, max_size=14))
def test_whatever_is_read_is_read_back(pieces: list[str]) -> None:
    try:
        recipe = read_text("\n".join(pieces))
    except CounterproofError:
        return
    assert same_words(read_text(write_text(recipe)), recipe)


@pytest.mark.parametrize(
    "text",
    [
        (
            "# Soup\n\n- 500 g carrots\n\n1. Simmer for 20 minutes.\n\n"
            "# Leek tart\n\n- 3 leeks\n- 250 g flour\n\n1. Bake for 40 minutes.\n"
        ),
        (
            "Soup\n\nServes 4\n\nIngredients\n500 g carrots\n1 onion\n\nMethod\nSimmer the carrots.\n\n"
            "Leek tart\n\nServes 4\n\nIngredients\n3 leeks\n\nMethod\nBake for 40 minutes.\n"
        ),
    ],
)
def test_a_second_recipe_in_the_text_is_a_doubt(text: str) -> None:
    recipe = read_text(text)
    (mark,) = [mark for mark in recipe.marks if mark.kind == "several-recipes"]
    assert mark.level == "doubt"
    title = next(at for at, line in enumerate(text.split("\n"), 1) if "Leek tart" in line)
    assert f"line {title}" in mark.message


@pytest.mark.parametrize(
    "text",
    [
        (
            "# Tart\n\n## For the pastry\n\n- 200 g flour\n\n1. Rub in the butter.\n\n"
            "## For the filling\n\n- 3 leeks\n\n1. Bake for 40 minutes.\n"
        ),
        (
            "# Tart\n\n## Ingredients\n\n- 3 leeks\n\n## Method\n\n1. Bake.\n\n"
            "## For the sauce\n\n### Ingredients\n\n- 1 egg\n\n### Method\n\n1. Whisk.\n"
        ),
        (
            "# Tart\n\n## Ingredients\n\n- 3 leeks\n\n## Method\n\n1. Bake.\n\n"
            "### Sauce\n\n- 1 egg\n- 100 ml cream\n"
        ),
    ],
)
def test_a_part_of_the_dish_is_no_second_recipe(text: str) -> None:
    assert "several-recipes" not in [mark.kind for mark in read_text(text).marks]


def test_a_key_unknown_in_the_kitchen_of_one_version_ends_nothing() -> None:
    recipe = read_text(
        "---\nversions:\n  odd: {kitchen: {hobb: gas, oven: fan, fridge: {litre: 9}}}\n---\n" + BARE
    )
    assert recipe.versions[0].kitchen == {"oven": "fan", "fridge": {}}
    unknown = [mark for mark in recipe.marks if mark.kind == "unknown-key"]
    assert [mark.level for mark in unknown] == ["doubt", "doubt"]
    assert {mark.choices for mark in unknown} == {("hob",), ("litres",)}
    assert all("line 3" in mark.message for mark in unknown)
