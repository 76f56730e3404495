"""The command that puts the desk up: the live proof in a browser."""

from __future__ import annotations

from typing import Annotated

import typer

from counterproof.cli import outcome
from counterproof.errors import UsageFault

family = typer.Typer()


@family.command()
def desk(
    folder: Annotated[
        str | None,
        typer.Argument(
            metavar="[SEASON, EPISODE or RECIPE]",
            help="What is worked on; the demo season, to look at, if left out.",
            show_default=False,
        ),
    ] = None,
    port: Annotated[
        int, typer.Option("--port", metavar="N", min=0, max=65535, help="Its port; 0 for any.")
    ] = 0,
    browser: Annotated[bool, typer.Option("--browser", help="Open it in the browser.")] = False,
    host: Annotated[
        str, typer.Option("--host", metavar="ADDRESS", help="Bind to this instead of loopback.")
    ] = "127.0.0.1",
    reachable: Annotated[
        bool,
        typer.Option("--reachable", help="Allow an address that other machines can reach."),
    ] = False,
) -> None:
    """Work on a recipe in the browser: the live proof, on loopback, over the same files."""
    from counterproof.desk.guards import loopback
    from counterproof.desk.serving import desk as put_up

    if not loopback(host) and not reachable:
        raise UsageFault(
            f"{host} can be reached from other machines.",
            remedy="Leave --host out, or add --reachable if that is what you want.",
        )
    put_up(folder, say=outcome.say, host=host, port=port, browser=browser)
