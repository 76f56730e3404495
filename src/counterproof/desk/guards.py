"""What keeps others out: host, origin, token, size, and the headers that every answer carries.

The desk listens on loopback, where any page in the same browser and any program on the machine
can reach it. So nothing is told or changed without the token that was printed when it started;
it comes in a header, which no other page can send, and never in a cookie, which all ports share.
"""

from __future__ import annotations

import hmac
import secrets
from dataclasses import dataclass, field
from typing import Final

from starlette.datastructures import Headers, MutableHeaders
from starlette.responses import JSONResponse
from starlette.types import ASGIApp, Message, Receive, Scope, Send

TOKEN_HEADER: Final = "Counterproof-Token"  # noqa: S105 (a header's name)

LARGEST_BODY: Final = 8_000_000
"""Largest request that is read [bytes]: assumed, a saved page without its pictures."""

HEADERS: Final = {
    "Content-Security-Policy": (
        "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; "
        "font-src 'self'; connect-src 'self'; base-uri 'none'; form-action 'none'; "
        "frame-ancestors 'none'"
    ),
    "Referrer-Policy": "no-referrer",
    "X-Content-Type-Options": "nosniff",
    "X-Frame-Options": "DENY",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Permissions-Policy": "camera=(), geolocation=(), microphone=()",
    "Cache-Control": "no-store",
}
"""On every answer. `Content-Security-Policy` as W3C CSP Level 3 defines it: nothing is loaded but
our own script, style, images and faces; no base element, no form that leaves, no frame around."""

_OPEN_TO_ALL: Final = ("/static/", "/faces/")
_WITHOUT_BODY: Final = frozenset({"GET", "HEAD"})


@dataclass(frozen=True)
class Lock:
    """Where the desk stands and the token that opens it.

    Parameters
    ----------
    hosts : frozenset of str
        `host:port` under which it may be called.
    shells : frozenset of str
        Paths that hold no data: the page's empty frame.
    token : str
        Known to whoever read the printed address.
    """

    hosts: frozenset[str]
    shells: frozenset[str]
    token: str = field(default_factory=lambda: secrets.token_urlsafe(24), repr=False)

    def fits(self, given: str | None) -> bool:
        """Return whether a token is the right one, in time that does not depend on it.

        Parameters
        ----------
        given : str or None
            What the header says.

        Returns
        -------
        bool
            True for the token alone.
        """
        return given is not None and hmac.compare_digest(given.encode(), self.token.encode())


def hosts_of(host: str, port: int) -> frozenset[str]:
    """Return the names under which an address may be called.

    Parameters
    ----------
    host : str
        What the desk is bound to.
    port : int
        Its port.

    Returns
    -------
    frozenset of str
        `host:port`; for loopback all of its names.
    """
    names = {"127.0.0.1", "localhost", "[::1]"} if loopback(host) else {_bracketed(host)}
    return frozenset(f"{name}:{port}" for name in names)


def loopback(host: str) -> bool:
    """Return whether an address is reached from this machine alone.

    Parameters
    ----------
    host : str
        An address or `localhost`.

    Returns
    -------
    bool
        True for 127.0.0.0/8 (RFC 1122, 3.2.1.3), ::1 (RFC 4291, 2.5.3) and localhost.
    """
    return host in {"localhost", "::1"} or host.startswith("127.")


def _bracketed(host: str) -> str:
    return f"[{host}]" if ":" in host else host


class Guarded:
    """The application behind its guards.

    Parameters
    ----------
    app : ASGIApp
        What is guarded.
    lock : Lock
        Who may come in.
    """

    def __init__(self, app: ASGIApp, lock: Lock) -> None:
        self.app = app
        self.lock = lock

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Let a request through, or say why not; every answer gets the headers."""
        if scope["type"] != "http":
            if scope["type"] == "lifespan":
                await self.app(scope, receive, send)
            return  # no web socket is ever opened

        async def with_headers(message: Message) -> None:
            if message["type"] == "http.response.start":
                headers = MutableHeaders(scope=message)
                for name, value in HEADERS.items():
                    headers[name] = value
            await send(message)

        refused = self._refusal(scope)
        if refused is not None:
            status, why, remedy = refused
            answer = JSONResponse(_document(why, remedy), status_code=status)
            await answer(scope, receive, with_headers)
            return
        await self.app(scope, _measured(receive), with_headers)

    def _refusal(self, scope: Scope) -> tuple[int, str, str] | None:
        headers = Headers(scope=scope)
        host = headers.get("host", "")
        if host not in self.lock.hosts:
            return 421, "The desk is not called by this name.", "Open the address it printed."
        path = scope["path"]
        reading = scope["method"] in _WITHOUT_BODY
        if reading and (path in self.lock.shells or path.startswith(_OPEN_TO_ALL)):
            return None
        site = headers.get("sec-fetch-site", "same-origin")
        if headers.get("origin", f"http://{host}") != f"http://{host}" or site != "same-origin":
            return 403, "Another page asked for this.", "Open the address the desk printed."
        if not self.lock.fits(headers.get(TOKEN_HEADER)):
            return 401, "The desk does not know this page.", "Open the address the desk printed."
        length = headers.get("content-length", "0")
        if not length.isdigit() or int(length) > LARGEST_BODY:
            return 413, "This is larger than a recipe can be.", "Bring in the recipe alone."
        return None


def _measured(receive: Receive) -> Receive:
    """What is received, cut off where it grows larger than it said or than is read."""
    taken = 0

    async def counted() -> Message:
        nonlocal taken
        message = await receive()
        if message["type"] == "http.request":
            taken += len(message.get("body", b""))
            if taken > LARGEST_BODY:
                return {"type": "http.disconnect"}
        return message

    return counted


def _document(why: str, remedy: str) -> dict[str, dict[str, str | None]]:
    """The refusal in the form that all errors have."""
    told = {"kind": "Refused", "file": None, "line": None, "message": why, "remedy": remedy}
    return {"error": told}
