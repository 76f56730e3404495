"""The desk put up as a process: what it prints, and where it may not stand."""

from __future__ import annotations

import re
import socket
import subprocess
import sys
import urllib.error
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from counterproof.desk.guards import TOKEN_HEADER
from counterproof.desk.serving import WARNING, desk
from counterproof.errors import InputError, UsageFault


@contextmanager
def _up(*options: str) -> Iterator[tuple[str, str]]:
    """A desk in a process of its own: its address, and all that it said before that."""
    command = [sys.executable, "-m", "counterproof", "desk", *options]
    process = subprocess.Popen(command, stderr=subprocess.PIPE, text=True)  # noqa: S603 (our own)
    assert process.stderr is not None
    said = ""
    try:
        for line in process.stderr:
            said += line
            if found := re.search(r"http://\S+", line):
                yield found[0], said
                break
        else:
            pytest.fail(f"no address was printed: {said}")
    finally:
        process.kill()
        process.wait(10)
        process.stderr.close()


def test_the_printed_address_opens_and_its_token_is_the_key(season: Path) -> None:
    with _up(str(season)) as (address, said):
        base, token = address.split("/#token=")
        assert base.startswith("http://127.0.0.1:")
        assert WARNING not in said
        with urllib.request.urlopen(base) as answer:  # noqa: S310 (our own desk)
            assert b"Barley" not in answer.read()
        asked = urllib.request.Request(f"{base}/leaf/recipe", headers={TOKEN_HEADER: token})  # noqa: S310
        with urllib.request.urlopen(asked) as answer:  # noqa: S310
            assert b"Barley pot" in answer.read()
        with pytest.raises(urllib.error.HTTPError) as refused:
            urllib.request.urlopen(f"{base}/leaf/recipe")  # noqa: S310
        assert refused.value.code == 401
        refused.value.close()


def test_an_address_others_can_reach_is_warned_of(season: Path) -> None:
    with _up(str(season), "--host", "0.0.0.0", "--reachable") as (address, said):  # noqa: S104
        assert WARNING in said
        assert "#token=" in address


def test_a_port_that_is_taken_is_one_error(season: Path) -> None:
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        with pytest.raises(UsageFault) as fault:
            desk(str(season), say=lambda _: None, port=int(taken.getsockname()[1]))
    assert "--port" in fault.value.remedy


def test_nothing_to_open_is_one_error(tmp_path: Path) -> None:
    with pytest.raises(InputError):
        desk(str(tmp_path / "nothing.md"), say=lambda _: None)
