"""The desk put up: a port, a token, the address printed, the first proof made ready."""

from __future__ import annotations

import socket
import sys
import threading
import webbrowser
from collections.abc import Callable
from contextlib import suppress
from datetime import UTC, datetime
from pathlib import Path
from typing import Final

import uvicorn

from counterproof.desk.app import SHELLS, desk_app
from counterproof.desk.guards import Lock, hosts_of, loopback
from counterproof.desk.marking import Marker
from counterproof.desk.opened import opened
from counterproof.desk.shared import Desk
from counterproof.errors import UsageFault

LOOPBACK: Final = "127.0.0.1"
WARNING: Final = (
    "This desk can be reached from other machines, and what passes between it and a browser is "
    "not encrypted: anyone who sees the address can read and change the folder."
)

_HANDED_OVER: Final = 0.0005
"""How soon a thread at work lets another one go on. [s] Assumed: a tenth of Python's own, so that
a key's mark does not wait for the versions of an older text."""


def desk(
    name: str | None,
    *,
    say: Callable[[str], None],
    host: str = LOOPBACK,
    port: int = 0,
    browser: bool = False,
) -> None:
    """Put the desk up and serve it until it is interrupted.

    Parameters
    ----------
    name : str or None
        A season, an episode or a recipe; the demo season where None.
    say : callable
        Tells the person who started it.
    host : str
        What it is bound to.
    port : int
        Its port; 0 for any that is free.
    browser : bool
        Whether the address is opened in a browser.

    Raises
    ------
    InputError
        If there is nothing to open.
    UsageFault
        If the port cannot be had.
    """
    folder = opened(name)
    marker = Marker(date=datetime.now(UTC).date().isoformat())
    sys.setswitchinterval(_HANDED_OVER)
    listening = _listening(host, port)
    bound = int(listening.getsockname()[1])
    lock = Lock(hosts_of(host, bound), SHELLS)
    app = desk_app(Desk(folder, marker, Path.cwd()), lock)
    shown = f"[{host}]" if ":" in host else host
    address = f"http://{shown}:{bound}/#token={lock.token}"
    if not loopback(host):
        say(WARNING)
    say(f"The desk is up, with {folder.title} on it. Open this address; Ctrl+C clears it away.")
    say(f"  {address}")
    threading.Thread(target=marker.warm, args=(folder,), daemon=True).start()
    if browser:
        webbrowser.open(address)
    server = uvicorn.Server(
        uvicorn.Config(
            app,
            log_level="warning",
            access_log=False,
            server_header=False,
            date_header=False,
            lifespan="off",
            timeout_graceful_shutdown=1,
        )
    )
    with suppress(KeyboardInterrupt):
        server.run(sockets=[listening])
    marker.close()


def _listening(host: str, port: int) -> socket.socket:
    family = socket.AF_INET6 if ":" in host else socket.AF_INET
    made = socket.socket(family, socket.SOCK_STREAM)
    made.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        made.bind((host, port))
        made.listen()  # before the address is told, so that whoever opens it at once is let wait
    except (OSError, OverflowError) as fault:
        made.close()
        why = getattr(fault, "strerror", None) or str(fault)
        raise UsageFault(
            f"The desk cannot be put up at {host}, port {port}: {why}.",
            remedy="Name another with --port, or leave it out and a free one is taken.",
        ) from None
    return made
