"""The script's small language: what it understands, what it refuses, what it costs at most."""

from __future__ import annotations

import pytest

from counterproof.claims.grammar import asked, figured
from counterproof.claims.numbers_in_words import number_at
from counterproof.claims.operations import (
    Asked,
    Cooling,
    Figured,
    Liken,
    Lines,
    Literally,
    Named,
    Phase,
    Portion,
    Ratio,
    Scaled,
    Sum,
)
from counterproof.claims.script import read_script, resolved
from counterproof.errors import NotUnderstood

THIS = Portion(Named("this recipe"))


@pytest.mark.parametrize(
    ("text", "meant"),
    [
        ("one serving of this recipe", Figured(THIS)),
        ("one bowl", Figured(THIS)),
        ("one serving of this recipe with beef", Figured(Portion(Named("this recipe with beef")))),
        ("the whole batch of this recipe", Figured(Portion(Named("this recipe"), whole=True))),
        (
            "one serving of the bought alternative",
            Figured(Portion(Named("bought alternative"))),
        ),
        (
            "beef against this recipe, as a ratio",
            Figured(Ratio(Portion(Named("beef")), THIS)),
        ),
        ("stew with beef / stew", Figured(Ratio(Portion(Named("stew with beef")), Portion(Named("stew"))))),
        ("the sugar's share of one serving", Figured(Ratio(Lines(("sugar",), THIS), THIS, share=True))),
        (
            "the share of butter and cream in one serving",
            Figured(Ratio(Lines(("butter", "cream"), THIS), THIS, share=True)),
        ),
        ("the cooking of one serving", Figured(Phase("cooking", THIS))),
        ("packaging", Figured(Phase("packaging", THIS))),
        ("keeping it frozen", Figured(Phase("home storage", THIS, "freezer"))),
        ("one serving of this recipe, 26 times", Figured(Scaled(26.0, THIS))),
        ("one serving of this recipe, once a week for a year", Figured(Scaled(52.0, THIS))),
        ("the weight of one serving, in ounces", Figured(Portion(Named("this recipe"), taken="weight"), "ounces")),
        ("the energy of one serving in kwh", Figured(Portion(Named("this recipe"), taken="energy"), "kwh")),
        (
            "the carbon dioxide in one glass, in balloons",
            Figured(Liken(Portion(Named("this recipe"), taken="gas"), "balloon")),
        ),
        ("cordial glass, as balloons", Figured(Liken(Portion(Named("cordial")), "balloon"))),
        (
            "time for seven litres of soup to cool from 90 C to 21 C",
            Figured(Cooling("soup", 7.0, None, 90.0, 21.0, "room")),
        ),
        (
            "time for soup 5 cm deep to cool from 60 C to 21 C in the fridge",
            Figured(Cooling("soup", None, 0.05, 60.0, 21.0, "fridge")),
        ),
        ("this recipe minus half of beef", Figured(Sum(THIS, Scaled(0.5, Portion(Named("beef"))), -1))),
        ("2 × (this recipe plus beef)", Figured(Scaled(2.0, Sum(THIS, Portion(Named("beef")), 1)))),
        ("2.5 kg", Figured(Literally(2.5, "kg"))),
        ("THIS RECIPE", Figured(THIS)),
    ],
)  # fmt: skip
def test_a_figure_is_understood(text: str, meant: Figured) -> None:
    assert figured(text) == meant


@pytest.mark.parametrize(
    ("text", "meant"),
    [
        ("this recipe is lower than with beef", Asked(THIS, "<", Portion(Named("with beef")))),
        (
            "the bread is less than a quarter of one serving",
            Asked(Portion(Named("bread")), "<", Scaled(0.25, THIS)),
        ),
        (
            "stew with beef > 4 × stew",
            Asked(Portion(Named("stew with beef")), ">", Scaled(4.0, Portion(Named("stew")))),
        ),
        (
            "“less than half”: cordial < 0.5 × canned",
            Asked(
                Portion(Named("cordial")), "<", Scaled(0.5, Portion(Named("canned"))), None,
                "less than half",
            ),
        ),
        ("beef is at least three times this recipe", Asked(Portion(Named("beef")), ">=", Scaled(3.0, THIS))),
        ("with block is a third less than this recipe", Asked(Portion(Named("with block")), "<=", Scaled(1 - 1 / 3, THIS))),
        ("the cheese is most of one serving", Asked(Portion(Named("cheese")), ">", Scaled(0.5, THIS))),
        ("beef is about twice this recipe", Asked(Portion(Named("beef")), "about", Scaled(2.0, THIS))),
        (
            "beef is between three and five times this recipe",
            Asked(Portion(Named("beef")), ">=", Scaled(3.0, THIS), Scaled(5.0, THIS)),
        ),
        (
            "one serving is less than 500 g CO2e",
            Asked(THIS, "<", Literally(0.5, "kg CO2e")),
        ),
        ("keeping it frozen is less than a tenth of one serving", Asked(Phase("home storage", THIS, "freezer"), "<", Scaled(0.1, THIS))),
    ],
)  # fmt: skip
def test_a_claim_is_understood(text: str, meant: Asked) -> None:
    found = asked(text)
    assert (found.left, found.relation, found.high, found.words) == (
        meant.left,
        meant.relation,
        meant.high,
        meant.words,
    )
    assert repr(found.right)[:40] == repr(meant.right)[:40]


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("two and a half kilos", 2.5),
        ("a third less", 1 / 3),
        ("three quarters", 0.75),
        ("forty-five", 45),
        ("seven hundred and fifty", 750),
        ("a hundred", 100),
        ("1,200", 1200),
        ("2½", 2.5),
        ("½", 0.5),
        ("3/4", 0.75),
        ("half a dozen", 6),
        ("two thousand and twenty", 2020),
        ("one and three quarters", 1.75),
        ("2.5 million", 2.5e6),
    ],
)
def test_numbers_are_read_as_people_say_them(text: str, value: float) -> None:
    read = number_at(text)
    assert read is not None
    assert read[0] == pytest.approx(value)


@pytest.mark.parametrize("text", ["a", "and a half", "onion", "", "-", "1/0"])
def test_what_is_no_number_is_none(text: str) -> None:
    assert number_at(text) is None


@pytest.mark.parametrize(
    "text",
    [
        "(" * 50 + "this recipe" + ")" * 50,
        "9 × " * 60 + "this recipe",
        "9 × 9 × 9 ** 9 ** 9",
        "999999999999 × this recipe",
        "this recipe plus " * 20 + "this recipe",
        "оne serving of this recipe",  # the first letter is Cyrillic
        "(" * 390,
        "x" * 401,
        "one serving of (this recipe",
        "",
        "   ",
    ],
)
def test_attacks_end_in_one_clear_doubt(text: str) -> None:
    with pytest.raises(NotUnderstood) as fault:
        figured(text)
    assert fault.value.remedy


@pytest.mark.parametrize(
    "text",
    ["__import__('os')", "this.__class__", "{{7*7}}", "eval(1)", "lambda: 1", "recipe[0]", "a_b"],
)
def test_code_is_only_words(text: str) -> None:
    with pytest.raises(NotUnderstood):
        figured(text)


SCRIPT = r"""# Title

[Stage direction.] See [a link](http://example.org/?a=[=) and a note[^1].
- [ ] a task

One bowl is [= one
serving], so [? this recipe is lower than with beef]. A guarded \[= thing] stays.
`[= code]` and <!-- [= comment] --> stay too.

[^1]: The note.
"""


def test_only_signed_brackets_are_expressions() -> None:
    script = read_script(SCRIPT.replace("?a=[=", "?a=1"))
    assert [(one.kind, one.text, one.line) for one in script.expressions] == [
        ("figure", "one serving", 6),
        ("claim", "this recipe is lower than with beef", 7),
    ]
    shown = {script.expressions[0].start: "550 g", script.expressions[1].start: "it is lower"}
    text = resolved(script, shown)
    assert "One bowl is 550 g, so it is lower. A guarded" in text
    assert "[Stage direction.]" in text
    assert "`[= code]`" in text
    assert script.sentence_of(script.expressions[0], shown) == "One bowl is 550 g, so it is lower."


@pytest.mark.parametrize("text", ["[= one serving", "[= one [= two]]", "[= a\n\nb]"])
def test_an_expression_that_is_not_closed_is_named_with_its_line(text: str) -> None:
    with pytest.raises(NotUnderstood, match="not closed") as fault:
        read_script(f"First.\n{text}")
    assert fault.value.line == 2


def test_a_script_of_a_megabyte_is_refused_at_once() -> None:
    with pytest.raises(NotUnderstood, match="characters"):
        read_script("[" * 1_000_000)
    with pytest.raises(NotUnderstood, match="more than 500"):
        read_script("[= one serving] " * 2000)
