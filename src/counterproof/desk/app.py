"""The desk's routes: each reads a request, asks for one thing, and answers. Nothing is decided here."""

from __future__ import annotations

import asyncio
import json
import zlib
from collections.abc import AsyncIterator
from importlib.resources import files
from pathlib import Path
from typing import Any, Final

from starlette.applications import Starlette
from starlette.middleware import Middleware
from starlette.middleware.gzip import GZipMiddleware
from starlette.requests import Request
from starlette.responses import JSONResponse, Response, StreamingResponse
from starlette.routing import Route

from counterproof.desk import bringing_in, documents, explaining, settings_text
from counterproof.desk.guards import Guarded, Lock
from counterproof.desk.kitchen_routes import kitchen_table
from counterproof.desk.leaves import leaf as page
from counterproof.desk.marking import Asked
from counterproof.desk.opened import Leaf, Opened, copied
from counterproof.desk.scale_routes import scale_table
from counterproof.desk.sending_out import pressed
from counterproof.desk.shared import Desk
from counterproof.desk.told import told_by, words
from counterproof.errors import ChangedOnDisk, CounterproofError, ReadOnly, UnreadableFile
from counterproof.press.fonts import FACES

SHELLS: Final = frozenset({"/", "/script", "/kitchen", "/questions", "/scale", "/favicon.ico"})
"""Paths of the page's empty frame. It holds no word of the folder and is given to anyone."""

_QUICKLY: Final = 1
"""How hard is pressed together what is on its way: the least, since a mark must not wait."""

_AS_GZIP: Final = 31
"""What zlib calls the gzip form (RFC 1952) with its largest window."""

_WORTH_IT: Final = 1000
"""Smallest answer that is made smaller. [bytes] Assumed: below it the headers weigh as much."""

_STATUS: Final = ((ReadOnly, 403), (ChangedOnDisk, 409))
_KINDS: Final = {
    "css": "text/css; charset=utf-8",
    "js": "text/javascript; charset=utf-8",
    "svg": "image/svg+xml",
}


def desk_app(desk: Desk, lock: Lock) -> Guarded:
    """Return the desk behind its guards.

    Parameters
    ----------
    desk : Desk
        What is open and who marks it.
    lock : Lock
        Who may come in.

    Returns
    -------
    Guarded
        An ASGI application.
    """
    routes = _Routes(desk)
    table = [Route(path, routes.shell) for path in SHELLS - {"/favicon.ico"}]
    table += [
        Route("/favicon.ico", routes.icon),
        Route("/static/{name}", routes.static),
        Route("/faces/{name}", routes.face),
        Route("/leaf/recipe", routes.recipe),
        Route("/leaf/script", routes.script),
        Route("/marks", routes.marks, methods=["POST"]),
        Route("/vetted", routes.vetted, methods=["POST"]),
        Route("/save", routes.save, methods=["POST"]),
        Route("/drop-draft", routes.drop_draft, methods=["POST"]),
        Route("/bring-in", routes.bring_in, methods=["POST"]),
        Route("/version", routes.version, methods=["POST"]),
        Route("/keep-a-copy", routes.keep_a_copy, methods=["POST"]),
        Route("/why", routes.why),
        Route("/press", routes.press, methods=["POST"]),
        *kitchen_table(desk),
        *scale_table(desk),
    ]
    light = Middleware(GZipMiddleware, minimum_size=_WORTH_IT)
    app = Starlette(
        routes=table, middleware=[light], exception_handlers={CounterproofError: _refused}
    )
    return Guarded(app, lock)


class _Routes:
    """The handlers, over what they share."""

    def __init__(self, desk: Desk) -> None:
        self.desk = desk

    async def shell(self, request: Request) -> Response:
        """Give the empty frame."""
        del request
        return Response(str(page("shell.html.j2")), media_type="text/html")

    async def icon(self, request: Request) -> Response:
        """Give the mark that stands beside the page's name."""
        del request
        return _packaged("desk", "static", "mark.svg")

    async def static(self, request: Request) -> Response:
        """Give our own style or script."""
        name = request.path_params["name"]
        if name == "sheet.css":
            return _packaged("press", "", name)
        return _packaged("desk", "static", name)

    async def face(self, request: Request) -> Response:
        """Give a face from its package, as it was published."""
        name = request.path_params["name"]
        for face in FACES:
            if face.file == name:
                content = files(face.package).joinpath("files", face.file).read_bytes()
                return Response(content, media_type="font/ttf")
        return Response(status_code=404)

    async def recipe(self, request: Request) -> Response:
        """Give a recipe's text and the page it stands on."""
        folder = self.desk.folder
        leaf = folder.leaf(request.query_params.get("name"))
        told = _text_of(folder, leaf.recipe, folder.beginning(leaf))
        html = page("recipe.html.j2", folder=folder, leaf=leaf, here="recipe")
        return JSONResponse({"title": leaf.name, "html": str(html), **_about(folder, leaf), **told})

    async def script(self, request: Request) -> Response:
        """Give a script's text and the page it stands on."""
        folder = self.desk.folder
        leaf = folder.leaf(request.query_params.get("name"))
        told = _text_of(folder, leaf.script, "")
        html = page("script.html.j2", folder=folder, leaf=leaf, here="script")
        return JSONResponse({"title": leaf.name, "html": str(html), **_about(folder, leaf), **told})

    async def marks(self, request: Request) -> Response:
        """Mark a text, stage by stage, one JSON document a line."""
        told = await told_by(request)
        leaf = self.desk.folder.leaf(words(told, "name"))
        asked = _asked(told, leaf)
        self._draft(told, asked, leaf.recipe)
        return _lines(request, self.desk.marker.stages(asked, self.desk.folder))

    async def vetted(self, request: Request) -> Response:
        """Vet a script beside its recipe."""
        told = await told_by(request)
        folder = self.desk.folder
        leaf = folder.leaf(words(told, "name"))
        asked = _asked(told, leaf)
        self._draft(told, asked, leaf.script)
        recipe = _text_of(folder, leaf.recipe, folder.beginning(leaf))["text"]
        return _lines(request, self.desk.marker.vetted(asked, folder, recipe))

    def _draft(self, told: dict[str, Any], asked: Asked, path: Path) -> None:
        if not asked.fresh and not self.desk.folder.read_only:
            over = words(told, "over")
            root = self.desk.folder.root
            self.desk.drafter.keep(path, asked.text, over, root)

    async def save(self, request: Request) -> Response:
        """Save a text in place of the revision it was typed over."""
        told = await told_by(request)
        folder = self.desk.folder
        folder.writable()
        path = _path(folder, told)
        await self.desk.drafter.forget(path)
        try:
            now = documents.saved(path, words(told, "text"), words(told, "over"), folder.root)
        except ChangedOnDisk as fault:
            theirs = documents.standing(path, folder.root)
            document = {"error": fault.to_dict(), "theirs": theirs.text, "over": theirs.revision}
            return JSONResponse(document, status_code=409)
        return JSONResponse({"over": now.revision})

    async def drop_draft(self, request: Request) -> Response:
        """Throw away what was typed and not saved."""
        told = await told_by(request)
        folder = self.desk.folder
        folder.writable()
        path = _path(folder, told)
        await self.desk.drafter.forget(path)
        documents.forget_draft(path, folder.root)
        return JSONResponse({})

    async def bring_in(self, request: Request) -> Response:
        """Turn pasted text, a saved page or JSON-LD into a recipe's text."""
        told = await told_by(request)
        name, content = words(told, "file"), words(told, "content")
        brought = await self.desk.marker.slowly(lambda: bringing_in.brought_in(name, content))
        return JSONResponse({"text": brought})

    async def version(self, request: Request) -> Response:
        """Write a swap into a recipe's settings; the page puts it into the text."""
        told = await told_by(request)
        folder, text = self.desk.folder, words(told, "text")
        order = folder.order(folder.leaf(words(told, "name")), text)
        matcher = folder.bench(order.kitchen).matcher
        line = settings_text.words_for(order.recipe, _whole(told, "line"), matcher)
        text = settings_text.with_swap(text, words(told, "version"), line, words(told, "instead"))
        return JSONResponse({"text": text})

    async def keep_a_copy(self, request: Request) -> Response:
        """Copy the demo season to where the desk was started, and open that."""
        del request
        if self.desk.folder.read_only:
            self.desk.folder = copied(self.desk.folder, self.desk.here)
        return JSONResponse({"folder": self.desk.folder.root.name})

    async def press(self, request: Request) -> Response:
        """Press the episode as it is saved."""
        told = await told_by(request)
        folder = self.desk.folder
        leaf = folder.leaf(words(told, "name"))
        place, names = await asyncio.to_thread(pressed, folder, leaf)
        return JSONResponse({"folder": place, "files": names})

    async def why(self, request: Request) -> Response:
        """Explain a number."""
        leaf = self.desk.folder.leaf(request.query_params.get("name"))
        told = self.desk.marker.told(leaf)
        if told is None:
            raise UnreadableFile(
                "The proof is not worked out yet.", remedy="Ask again in a moment."
            )
        key = request.query_params.get("key", "")
        return JSONResponse({"html": explaining.explained(told.edition, key, told.more)})


def _about(folder: Opened, leaf: Leaf) -> dict[str, Any]:
    return {"name": leaf.name, "read_only": folder.read_only, "folder": folder.title}


def _text_of(folder: Opened, path: Path, beginning: str) -> dict[str, Any]:
    """A text as it stands on disk, or as it was last drafted over that."""
    now = documents.standing(path, folder.root)
    saved = beginning if now.revision == documents.NOT_THERE else now.text
    draft = None if folder.read_only else documents.draft_of(path, folder.root)
    if draft is None or draft.text == saved:
        return {"text": saved, "over": now.revision, "saved": saved, "drafted": False}
    return {"text": draft.text, "over": draft.over, "saved": saved, "drafted": True, "now": now.revision}  # fmt: skip


def _asked(told: dict[str, Any], leaf: Leaf) -> Asked:
    fresh = told.get("fresh") is True
    tab, text = words(told, "tab")[:64], words(told, "text")
    return Asked(tab, _whole(told, "revision"), leaf, text, fresh)


def _whole(told: dict[str, Any], key: str) -> int:
    value = told.get(key)
    if not isinstance(value, int):
        raise UnreadableFile(f"The request says no {key}.", remedy="Load the page anew.")
    return value


def _path(folder: Opened, told: dict[str, Any]) -> Path:
    leaf = folder.leaf(words(told, "name"))
    return leaf.script if told.get("what") == "script" else leaf.recipe


def _lines(request: Request, stages: AsyncIterator[Any]) -> Response:
    """Stages as they are ready, one a line, made small where the page can read that."""
    small = "gzip" in request.headers.get("accept-encoding", "")

    async def written() -> AsyncIterator[bytes]:
        press = zlib.compressobj(_QUICKLY, wbits=_AS_GZIP)
        async for stage in stages:
            line = (json.dumps(stage, ensure_ascii=False) + "\n").encode()
            yield press.compress(line) + press.flush(zlib.Z_SYNC_FLUSH) if small else line
        if small:
            yield press.flush()

    headers = {"Content-Encoding": "gzip", "Vary": "Accept-Encoding"} if small else {}
    return StreamingResponse(written(), media_type="application/x-ndjson", headers=headers)


def _packaged(room: str, folder: str, name: str) -> Response:
    kind = _KINDS.get(name.rpartition(".")[2])
    place = files(f"counterproof.{room}")
    place = place.joinpath(folder, name) if folder else place.joinpath(name)
    if kind is None or "/" in name or "\\" in name or not place.is_file():
        return Response(status_code=404)
    return Response(place.read_bytes(), media_type=kind)


async def _refused(request: Request, fault: Exception) -> Response:
    del request
    assert isinstance(fault, CounterproofError)  # noqa: S101 (it is registered for these alone)
    status = next((code for kind, code in _STATUS if isinstance(fault, kind)), 422)
    told = fault.to_dict()
    told["file"] = Path(str(told["file"])).name if told["file"] else None
    return JSONResponse({"error": told}, status_code=status)
