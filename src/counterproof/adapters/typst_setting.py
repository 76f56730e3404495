"""Has pages and pictures set by Typst: our faces only, a fresh folder for every job, no clock.

A job sees nothing but its own assets and `house.typ`; nothing of the recipe stands in its source.
The day it is dated is an argument, so the same forme gives the same bytes. Whatever Typst warns
of, a face that is not there or a sign no face has, would be a silent change of the look, so it
stops the press.
"""

from __future__ import annotations

import shutil
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from importlib.resources import files
from itertools import count
from pathlib import Path
from queue import SimpleQueue
from tempfile import TemporaryDirectory

import typst

from counterproof.errors import SettingFailed
from counterproof.press.lettering import FACES
from counterproof.press.part import Setting

HANDS = 2
"""Jobs that are set at one time; the typesetter works beside Python, and laptops have two cores."""

Setter = Callable[[str, Setting], bytes]
"""Sets a job, from any thread; the name is only for the error message."""


@contextmanager
def composing_room(day: str) -> Iterator[Setter]:
    """Open a place where jobs are set, and clear it away afterwards.

    Parameters
    ----------
    day : str
        The day the documents are dated, ISO 8601.

    Yields
    ------
    Setter
        What sets one job after the other.
    """
    stamp = datetime.fromisoformat(day).replace(tzinfo=UTC)
    with TemporaryDirectory(prefix="counterproof-") as name:
        place = Path(name)
        faces, empty = place / "faces", place / "packages"
        empty.mkdir()
        fonts = _faces_in(faces)
        idle: SimpleQueue[typst.Compiler] = SimpleQueue()
        for _ in range(HANDS):
            idle.put(
                typst.Compiler(
                    root=str(place),
                    font_paths=fonts,
                    ignore_system_fonts=True,
                    package_path=str(empty),
                    package_cache_path=str(empty),
                )
            )
        numbers = count(1)

        def set_job(name: str, job: Setting) -> bytes:
            folder = place / str(next(numbers))
            compiler = idle.get()  # each serves one job at a time, from whichever thread
            try:
                _lay_out(folder, job)
                return _compiled(compiler, folder, job, name, stamp)
            finally:
                idle.put(compiler)
                shutil.rmtree(folder, ignore_errors=True)

        yield set_job


def _faces_in(folder: Path) -> typst.Fonts:
    folder.mkdir()
    for package, file in FACES:
        face = files(package).joinpath("files", file).read_bytes()
        (folder / file).write_bytes(face)
    return typst.Fonts(
        include_system_fonts=False, include_embedded_fonts=False, font_paths=[str(folder)]
    )


def _lay_out(folder: Path, job: Setting) -> None:
    folder.mkdir()
    house = files("counterproof.press").joinpath("typst", "house.typ").read_bytes()
    for name, content in {
        "house.typ": house,
        **job.assets,
        "main.typ": job.source.encode(),
    }.items():
        (folder / name).write_bytes(content)


def _compiled(
    compiler: typst.Compiler, folder: Path, job: Setting, name: str, stamp: datetime
) -> bytes:
    try:
        made, warnings = compiler.compile_with_warnings(
            str(folder / "main.typ"),
            format=job.format,
            ppi=job.pixels_per_inch,
            pdf_standards=list(job.standards),  # type: ignore[arg-type] # Typst checks the names
            root=str(folder),
            timestamp=stamp,
        )
    except typst.TypstError as fault:
        raise _failed(name, fault.message, fault.hints) from None
    if warnings:
        raise _failed(name, warnings[0].message, warnings[0].hints)
    if not isinstance(made, bytes):
        raise _failed(name, "it takes more than one page, and a picture is one", [])
    return made


def _failed(name: str, why: str, hints: list[str]) -> SettingFailed:
    told = "; ".join((why, *hints))
    return SettingFailed(
        f"The typesetter refuses it: {told}.",
        remedy="This is a fault of the press, not of the recipe; the other parts can be had with --only.",
        file=name,
    )
