"""Words that a spreadsheet or a browser would act on, made harmless."""

from __future__ import annotations

import csv
import io

import pytest

from counterproof.press.harmless import cell, link


# OWASP, "CSV Injection": fields that begin with these are taken for formulas.
@pytest.mark.published
@pytest.mark.parametrize("first", ["=", "+", "-", "@", "\t", "\r"])
def test_no_cell_begins_as_a_formula(first: str) -> None:
    assert cell(f"{first}HYPERLINK(1)") == f"'{first}HYPERLINK(1)"


@pytest.mark.parametrize("number", ["-0.3", "+12", "1e-5", "−0.3", "12", "", "an onion", "-1.5E+3"])
def test_numbers_and_plain_words_stay(number: str) -> None:
    assert cell(number) == number


def test_a_cell_survives_a_writer_and_a_reader() -> None:
    text = '=1+1,"quoted"\nand on'
    held = io.StringIO()
    csv.writer(held).writerow([cell(text)])
    assert next(csv.reader(io.StringIO(held.getvalue()))) == [f"'{text}"]


@pytest.mark.parametrize(
    "address",
    [
        "javascript:alert(1)",
        "http://example.org",
        "data:text/html,hello",
        'https://example.org/"onclick="x',
        "https://example.org/<b>",
        "HTTPS://",
        "//example.org",
        "",
    ],
)
def test_only_https_becomes_a_link(address: str) -> None:
    assert link(address) is None


def test_an_https_address_is_kept() -> None:
    assert link("https://example.org/a?b=c#d") == "https://example.org/a?b=c#d"
