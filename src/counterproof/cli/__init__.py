"""The command line: options in, one use case, text or JSON out. Nothing is decided here.

Each family of commands has its module; `options` holds what they share, `opening` what they read,
`outcome` how they end. Heavy modules are imported inside the commands, so that `--help` answers at
once.
"""

from __future__ import annotations

import gc
import sys
from collections.abc import Sequence
from typing import Annotated

import typer
from typer.exceptions import TyperException

from counterproof import __version__
from counterproof.cli import (
    claims,
    desk,
    looking_up,
    outcome,
    physics,
    press,
    provisions,
    recipes,
    recording,
    scaling,
    starting,
    weighing_in,
)
from counterproof.errors import CounterproofError, UsageFault

SELDOM = (100_000, 20, 20)
"""How seldom garbage is searched for: a command makes much that stays and little that circles."""

app = typer.Typer(
    help="Mark up a recipe: what each line weighs, what each step takes, what a serving costs the climate.",
    no_args_is_help=True,
    add_completion=False,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
)
for _room in (
    recipes,
    physics,
    claims,
    weighing_in,
    recording,
    scaling,
    provisions,
    press,
    desk,
    looking_up,
    starting,
):
    app.add_typer(_room.family)


@app.callback(invoke_without_command=True)
def _start(
    version: Annotated[bool, typer.Option("--version", help="Print the version.")] = False,
) -> None:
    if version:
        typer.echo(f"counterproof {__version__}")
        raise typer.Exit


def main(arguments: Sequence[str] | None = None) -> None:
    """Run one command and leave with its exit status: 0 done, 1 look at it, 2 could not."""
    given = list(sys.argv[1:] if arguments is None else arguments)
    gc.set_threshold(*SELDOM)
    try:
        status = app(given, standalone_mode=False)
    except CounterproofError as error:
        outcome.fail(error, as_json="--json" in given)
    except TyperException as error:
        remedy = f"See counterproof {_command(error)}--help."
        outcome.fail(UsageFault(error.format_message(), remedy=remedy), as_json="--json" in given)
    except typer.Exit as leave:
        sys.exit(leave.exit_code)
    except (typer.Abort, KeyboardInterrupt):
        sys.exit(outcome.INTERRUPTED)
    else:
        sys.exit(status if isinstance(status, int) else outcome.DONE)


def _command(error: TyperException) -> str:
    context = getattr(error, "ctx", None)
    path = context.command_path.split()[1:] if context else []
    return " ".join((*path, ""))
