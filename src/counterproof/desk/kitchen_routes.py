"""The routes of the kitchen and of its questions."""

from __future__ import annotations

from typing import Final

from starlette.requests import Request
from starlette.responses import JSONResponse, Response
from starlette.routing import Route

from counterproof.desk import kitchen_page, questions_page
from counterproof.desk.opened import Leaf
from counterproof.desk.shared import Desk
from counterproof.desk.told import told_by, words
from counterproof.draws import Streams
from counterproof.errors import NotFilledIn
from counterproof.kitchen_questions.around import Around
from counterproof.use_cases import Order, Workbench

DRAWS: Final = Streams(seed=1, n=10_000)
"""What the kitchen's questions are drawn with: as the commands are, where nothing else is said."""


def kitchen_table(desk: Desk) -> list[Route]:
    """Return the routes of the kitchen and its questions.

    Parameters
    ----------
    desk : Desk
        What is open and who works.

    Returns
    -------
    list of Route
        To be served behind the desk's guards.
    """
    routes = _Routes(desk)
    return [
        Route("/leaf/kitchen", routes.kitchen),
        Route("/kitchen-saved", routes.save, methods=["POST"]),
        Route("/leaf/questions", routes.questions),
        Route("/question", routes.question),
        Route("/answer", routes.answer, methods=["POST"]),
    ]


class _Routes:
    """The handlers, over what the desk shares."""

    def __init__(self, desk: Desk) -> None:
        self.desk = desk

    def _order(self, name: str | None) -> tuple[Leaf, Order, Workbench]:
        folder = self.desk.folder
        leaf = folder.leaf(name)
        order = self.desk.order(leaf)
        return leaf, order, folder.bench(order.kitchen)

    def _about(self, leaf: Leaf) -> dict[str, object]:
        folder = self.desk.folder
        return {"name": leaf.name, "read_only": folder.read_only, "folder": folder.title}

    async def kitchen(self, request: Request) -> Response:
        """Give the page of the kitchen a recipe is cooked in."""
        leaf, order, _ = self._order(request.query_params.get("name"))
        told = kitchen_page.kitchen_page(self.desk.folder, leaf, order.kitchen)
        return JSONResponse({"title": "The kitchen", **self._about(leaf), **told, "saved": ""})

    async def save(self, request: Request) -> Response:
        """Save the kitchen to its file."""
        told = await told_by(request)
        _, order, _ = self._order(words(told, "name"))
        try:
            return JSONResponse(kitchen_page.saved_kitchen(self.desk.folder, order.kitchen, told))
        except NotFilledIn as fault:
            return _refused(fault)

    async def questions(self, request: Request) -> Response:
        """Give the page of all questions."""
        leaf, order, bench = self._order(request.query_params.get("name"))
        found = await self.desk.marker.slowly(lambda: questions_page.raised(order, bench))
        html = questions_page.questions_page(self.desk.folder, leaf, found)
        told = {"html": html, "over": "", "saved": ""}
        return JSONResponse({"title": "Questions", **self._about(leaf), **told})

    async def question(self, request: Request) -> Response:
        """Give the form of a question, filled in from a step where one raised it."""
        process = request.query_params.get("process", "")
        step = request.query_params.get("step", "")
        number = int(step) if step.isdecimal() and len(step) < 6 else None
        said: dict[str, str] = {}
        if number is not None:
            _, order, bench = self._order(request.query_params.get("name"))
            found = await self.desk.marker.slowly(lambda: questions_page.raised(order, bench))
            raised = [one for one in found if (one.step, one.process) == (number, process)]
            said = dict(raised[0].told) if raised else {}
            number = number if raised else None
        return JSONResponse({"html": questions_page.question_form(process, said, number)})

    async def answer(self, request: Request) -> Response:
        """Work a question out."""
        told = await told_by(request)
        _, order, bench = self._order(words(told, "name"))
        entries = told.get("told")
        written = entries if isinstance(entries, dict) else {}
        said = {str(key): str(value) for key, value in written.items()}
        around = Around(bench, order.kitchen, DRAWS)
        process = words(told, "process")
        try:
            work = self.desk.marker.slowly(
                lambda: questions_page.answer_page(process, said, around)
            )
            return JSONResponse(await work)
        except NotFilledIn as fault:
            return _refused(fault)


def _refused(fault: NotFilledIn) -> Response:
    """Entries that cannot be used, each with its reason."""
    return JSONResponse({"error": {**fault.to_dict(), "faults": fault.faults}}, status_code=422)
