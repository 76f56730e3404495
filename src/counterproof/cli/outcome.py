"""How a command ends: what goes to which stream, and the exit status.

0 is done (notes at most), 1 done but something needs attention, 2 could not. With `--json`,
standard output holds one JSON document and nothing else; messages go to standard error.
"""

from __future__ import annotations

import json
import sys
from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

import typer

if TYPE_CHECKING:
    from rich.console import Console

    from counterproof.errors import CounterproofError

DONE, ATTENTION, FAILED, INTERRUPTED = 0, 1, 2, 130


def console(*, errors: bool = False) -> Console:
    """Where results are printed, or with `errors` what went wrong."""
    from rich.console import Console

    return Console(stderr=errors, highlight=False)


def say(message: str) -> None:
    """Say something beside the result: on standard error, so that output holds results alone."""
    typer.echo(message, err=True)


def print_json(document: Any) -> None:
    """Print one JSON document."""
    sys.stdout.write(json.dumps(document, ensure_ascii=False, indent=2) + "\n")


def told(files: Sequence[Path], *, as_json: bool) -> None:
    """Say which files were written."""
    if as_json:
        print_json({"files": [str(file) for file in files]})
    else:
        for file in files:
            say(f"{file}")


def leave(levels: Iterable[str]) -> None:
    """End with "needs attention" if any mark is more than a note; else go on."""
    if any(level != "note" for level in levels):
        raise typer.Exit(ATTENTION)


def fail(error: CounterproofError, *, as_json: bool) -> None:
    """Say what went wrong and end with "could not"."""
    if as_json:
        print_json({"error": error.to_dict()})
    else:
        from counterproof.adapters.terminal import print_error

        print_error(error, console(errors=True))
    sys.exit(FAILED)
