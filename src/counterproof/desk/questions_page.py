"""The kitchen's questions on the desk: each a small form, its answer under it with its curve."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from counterproof.desk.leaves import leaf as filled
from counterproof.desk.opened import Leaf, Opened
from counterproof.errors import CounterproofError, InputError
from counterproof.kitchen_questions.answers import answered
from counterproof.kitchen_questions.around import Around
from counterproof.kitchen_questions.entries import FORMS, form_of
from counterproof.kitchen_questions.from_steps import Raised, raised_by
from counterproof.numerals import plain_volume
from counterproof.physics.answer import Answer
from counterproof.plan.planning import plan_of
from counterproof.press import kitchen_answers
from counterproof.press.curves import curve
from counterproof.press.drawing import set_in
from counterproof.press.kitchen_curves import plot_of
from counterproof.press.kitchen_headlines import headline
from counterproof.use_cases import Order, Workbench, mark


def raised(order: Order, bench: Workbench) -> tuple[Raised, ...]:
    """Return the questions that a recipe's steps raise; none where it cannot be read.

    Parameters
    ----------
    order : Order
        The recipe and its kitchen.
    bench : Workbench
        Tables and matcher.

    Returns
    -------
    tuple of Raised
        In the recipe's order.
    """
    try:
        reading = mark(order, bench)
        return raised_by(reading, plan_of(reading, bench.tables, bench.coolings), bench.tables)
    except CounterproofError:
        return ()


def questions_page(folder: Opened, leaf: Leaf, found: tuple[Raised, ...]) -> str:
    """Return the page of all questions.

    Parameters
    ----------
    folder : Opened
        What is open.
    leaf : Leaf
        The recipe whose kitchen they are asked in.
    found : tuple of Raised
        What its steps raise.

    Returns
    -------
    str
        HTML; the form itself is put in by `question_form`.
    """
    steps = [(one, form_of(one.process)) for one in found]
    page = filled(
        "questions.html.j2", folder=folder, leaf=leaf, here="questions", forms=FORMS, steps=steps
    )
    return str(page)


def question_form(process: str, told: Mapping[str, str], step: int | None) -> str:
    """Return the form of a question.

    Parameters
    ----------
    process : str
        Which question.
    told : mapping of str to str
        What stands in its entries; those left out stand as they begin.
    step : int or None
        The step that raised it.

    Returns
    -------
    str
        HTML.

    Raises
    ------
    InputError
        If there is no such question.
    """
    form = form_of(process)
    if form is None:
        raise InputError("There is no such question.", remedy="Choose one of those on the page.")
    stands = {entry.key: told.get(entry.key, entry.begins) for entry in form.entries}
    return str(filled("question.html.j2", form=form, stands=stands, step=step))


def answer_page(process: str, told: Mapping[str, str], around: Around) -> dict[str, Any]:
    """Return a question's answer.

    Parameters
    ----------
    process : str
        Which question.
    told : mapping of str to str
        What was written into its entries.
    around : Around
        Where it is asked.

    Returns
    -------
    dict
        `html`, and `said` for those who listen.

    Raises
    ------
    CounterproofError
        If it cannot be asked so, or has no answer.
    """
    answer = answered(process, told, around)
    middle = around.kitchen.middle
    plot = plot_of(answer)
    drawn = None if plot is None else set_in(curve(plot, headline(answer, middle)))
    html = filled(
        "answer.html.j2",
        said=headline(answer, middle),
        lines=kitchen_answers.lines(answer, middle),
        given=_given(answer, middle),
        drawn=drawn,
        caption="" if plot is None else plot.caption,
        passing=kitchen_answers.passing(answer),
        staged=kitchen_answers.staged(answer),
        answer=answer,
        sentence=kitchen_answers.sentence,
        assumed=[kitchen_answers.assumption(said) for said in answer.assumed],
        sources=_sources(answer, around.bench),
    )
    return {"html": str(html), "said": headline(answer, middle)}


def _given(answer: Answer, middle: str) -> list[tuple[str, str]]:
    """What it was asked with, in words."""
    return [
        (kitchen_answers.label(key), _amount(key, value, middle))
        for key, value in answer.inputs.items()
        if not isinstance(value, Mapping | list | tuple | bool)
        and (value or (value is not None and key.endswith("_celsius")))
    ]


def _amount(key: str, value: Any, middle: str) -> str:
    if key == "litres":
        return plain_volume(value)
    return kitchen_answers.told(key, value, middle)


def _sources(answer: Answer, bench: Workbench) -> list[str]:
    known = bench.tables.sources
    return [
        known[name].citation if name in known else name for name in dict.fromkeys(answer.sources)
    ]
