"""The routes of the scale."""

from __future__ import annotations

from datetime import UTC, datetime

from starlette.requests import Request
from starlette.responses import JSONResponse, Response
from starlette.routing import Route

from counterproof.batch_cases import WeighedRecipe, weighed_recipe
from counterproof.desk import scale_page
from counterproof.desk.opened import Leaf
from counterproof.desk.shared import Desk
from counterproof.desk.told import told_by, words


def scale_table(desk: Desk) -> list[Route]:
    """Return the routes of the scale.

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
        Route("/leaf/scale", routes.page),
        Route("/weighed", routes.weighed, methods=["POST"]),
        Route("/weighed-in", routes.written_in, methods=["POST"]),
    ]


class _Routes:
    """The handlers, over what the desk shares."""

    def __init__(self, desk: Desk) -> None:
        self.desk = desk

    async def page(self, request: Request) -> Response:
        """Give the page of the scale."""
        folder = self.desk.folder
        leaf = folder.leaf(request.query_params.get("name"))
        told = scale_page.scale_page(folder, leaf)
        about = {"name": leaf.name, "read_only": folder.read_only, "folder": folder.title}
        return JSONResponse({"title": "The scale", **about, **told, "over": "", "saved": ""})

    async def weighed(self, request: Request) -> Response:
        """Read the readings so far, and keep them."""
        told = await told_by(request)
        leaf, text = self.desk.folder.leaf(words(told, "name")), words(told, "text")
        if not self.desk.folder.read_only:
            scale_page.kept(self.desk.folder, leaf, text)
        found = await self.desk.marker.slowly(lambda: self._weighed(leaf, text))
        return JSONResponse(scale_page.weighed_piece(found))

    async def written_in(self, request: Request) -> Response:
        """Write the weights into the recipe."""
        told = await told_by(request)
        folder = self.desk.folder
        leaf, text = folder.leaf(words(told, "name")), words(told, "text")
        found = await self.desk.marker.slowly(lambda: self._weighed(leaf, text))
        day = self.desk.marker.date or datetime.now(UTC).date().isoformat()
        return JSONResponse(scale_page.written_in(folder, leaf, found, text, day))

    def _weighed(self, leaf: Leaf, text: str) -> WeighedRecipe:
        folder = self.desk.folder
        order = self.desk.order(leaf)
        return weighed_recipe(order, folder.bench(order.kitchen), self.desk.marker.streams, text)
