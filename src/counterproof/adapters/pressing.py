"""Pressing an episode: its forme turned into files, and a press folder held against today's."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from concurrent.futures import Future, ThreadPoolExecutor
from dataclasses import dataclass, replace
from pathlib import Path

from counterproof.adapters.contents import content_of
from counterproof.adapters.files import recipe_file, season_folder
from counterproof.adapters.press_folder import (
    contents_of,
    free_place,
    manifest_in,
    write_press_folder,
)
from counterproof.adapters.typst_setting import HANDS, composing_room
from counterproof.errors import NotAPressFolder
from counterproof.forme import Forme
from counterproof.locking_up import Manuscript
from counterproof.press.folder import parts_asked, pieces_of
from counterproof.press.left_out import left_out
from counterproof.press.manifest import MANIFEST, Impression, Manifest, checksum
from counterproof.press.moved import Moved, moved
from counterproof.press.part import Setting

Told = Callable[[str], None]
"""Hears which file is being made."""


@dataclass(frozen=True)
class Pressed:
    """What the press made.

    Parameters
    ----------
    contents : dict of str to bytes
        File name → content.
    parts : dict of str to str
        File name → the part it belongs to.
    """

    contents: dict[str, bytes]
    parts: dict[str, str]


def pressed(forme: Forme, parts: Sequence[str], told: Told) -> Pressed:
    """Make the files of some parts.

    Parameters
    ----------
    forme : Forme
        The episode.
    parts : sequence of str
        Names of parts.
    told : Told
        Hears which file is being made.

    Returns
    -------
    Pressed
        The same bytes for the same forme.
    """
    owners: dict[str, str] = {}
    made: dict[str, bytes | Future[bytes]] = {}
    with composing_room(forme.date) as set_job, ThreadPoolExecutor(HANDS) as hands:
        try:
            for part, piece in pieces_of(forme, parts):
                told(piece.name)
                content = piece.content
                owners[piece.name] = part
                made[piece.name] = (
                    hands.submit(set_job, piece.name, content)
                    if isinstance(content, Setting)
                    else content
                )
            contents = {
                name: one.result() if isinstance(one, Future) else one for name, one in made.items()
            }
        except BaseException:
            hands.shutdown(cancel_futures=True)
            raise
    return Pressed(contents, owners)


def press_into(
    folder: Path,
    forme: Forme,
    manifest: Manifest,
    only: Sequence[str],
    told: Told,
) -> Manifest:
    """Press an episode into a folder.

    Parameters
    ----------
    folder : Path
        Where it is to stand.
    forme : Forme
        The episode.
    manifest : Manifest
        What was asked and from what, its files still missing.
    only : sequence of str
        Names of the parts that are made anew; none for all. The others are carried over.
    told : Told
        Hears which file is being made.

    Returns
    -------
    Manifest
        What the folder holds now.
    """
    parts = parts_asked(only)
    before, old = free_place(folder), manifest_in(folder)
    made = pressed(forme, parts, told)
    kept = tuple(file for file in (old.files if old else ()) if only and file.part not in parts)
    whole = replace(manifest, files=kept).with_files(made.parts, made.contents)
    contents = {
        file.name: made.contents.get(file.name) or before[file.name] for file in whole.files
    }
    write_press_folder(folder, {**contents, MANIFEST: whole.to_bytes()})
    return whole


@dataclass(frozen=True)
class Held:
    """A press folder held against today's recipe and data.

    Parameters
    ----------
    moved : Moved
        What would come out otherwise today.
    touched : tuple of str
        Files that are not as they were pressed: changed, gone or foreign.
    inputs : tuple of str
        Files of the cook's that have changed since.
    """

    moved: Moved
    touched: tuple[str, ...]
    inputs: tuple[str, ...]

    def __bool__(self) -> bool:
        """Whether the folder is as it would be pressed today."""
        return not (self.moved or self.touched)


def held(folder: Path, manifest: Manifest, forme: Forme, today: Manifest, told: Told) -> Held:
    """Hold a press folder against what would be pressed today.

    Parameters
    ----------
    folder : Path
        The press folder.
    manifest : Manifest
        What it says of itself.
    forme : Forme
        The episode as it is today, locked up as the folder's manifest asks.
    today : Manifest
        What it would be pressed from today.
    told : Told
        Hears which file is being made.

    Returns
    -------
    Held
        What moved, and what was changed by hand.
    """
    there = contents_of(folder)
    known = {file.name: file.sha256 for file in manifest.files}
    touched = [
        name
        for name in sorted({*known, *there})
        if name not in there or known.get(name) != checksum(there[name])
    ]
    parts = parts_asked(tuple(dict.fromkeys(file.part for file in manifest.files)))
    made = pressed(forme, parts, told)
    was = {name: content for name, content in there.items() if name in known}
    inputs = sorted(
        name
        for name in {*manifest.inputs, *today.inputs}
        if manifest.inputs.get(name) != today.inputs.get(name)
    )
    return Held(moved(was, made.contents), tuple(touched), tuple(inputs))


def manifest_of(folder: Path) -> Manifest:
    """Return what a press folder says of itself.

    Parameters
    ----------
    folder : Path
        A press folder.

    Returns
    -------
    Manifest
        As it was written.

    Raises
    ------
    NotAPressFolder
        If there is none.
    """
    found = manifest_in(folder)
    if found is None:
        raise NotAPressFolder(
            f"There is no press folder here: it has no {MANIFEST}.",
            remedy="Press the episode first, without --verify, or name its folder with -o.",
            file=str(folder),
        )
    return found


def manifest_for(impression: Impression, forme: Forme, manuscript: Manuscript) -> Manifest:
    """Return the manifest of what is about to be pressed.

    Parameters
    ----------
    impression : Impression
        What is asked.
    forme : Forme
        The episode.
    manuscript : Manuscript
        Where its files come from.

    Returns
    -------
    Manifest
        Its files still missing.
    """
    basis = forme.edition.basis
    return Manifest(impression, basis, inputs_of(manuscript), left_out=left_out(forme))


def inputs_of(manuscript: Manuscript) -> dict[str, str]:
    """Return the files of the cook's that an episode is pressed from.

    Parameters
    ----------
    manuscript : Manuscript
        The episode.

    Returns
    -------
    dict of str to str
        Name, from the season's or the recipe's own folder → checksum. What came from standard
        input has no file and is taken as it was understood.
    """
    order = manuscript.episode.order
    recipe = order.recipe
    if recipe.file in {None, "-"}:
        return {"recipe": checksum(repr(recipe).encode())}
    here = recipe_file(Path(str(recipe.file))).absolute()
    season = season_folder(here)
    root = season or here.parent
    kitchen = Path(order.kitchen.file).absolute() if order.kitchen.file else None
    own = (
        kitchen.parent / order.kitchen.own_factors
        if kitchen and order.kitchen.own_factors
        else None
    )
    others = [Path(str(other.recipe.file)).absolute() for other in manuscript.episode.others]
    script = Path(manuscript.script_file).absolute() if manuscript.script_file else None
    prices = next(
        (place for place in (here.parent / "prices.yaml", root / "prices.yaml") if place.is_file()),
        None,
    )
    places = (here, script, kitchen, own, prices, season and season / "season.yaml", *others)
    return {
        _called(place, root): checksum(content_of(place)) for place in places if place is not None
    }


def _called(place: Path, root: Path) -> str:
    """A file's name from the root; only its own name where it lies elsewhere."""
    return place.relative_to(root).as_posix() if place.is_relative_to(root) else place.name
