"""Recipes, kitchens and seasons from the disk, and files written whole or not at all."""

from __future__ import annotations

import codecs
import os
import re
import tempfile
from collections.abc import Mapping
from dataclasses import replace
from importlib.resources import files as package_files
from pathlib import Path
from typing import BinaryIO, Final

from counterproof.adapters.confining import confined
from counterproof.adapters.contents import (
    PAGES,
    content_of,
    content_of_stream,
    decoded,
    page_text,
    suggestion,
)
from counterproof.errors import InputError, NotARecipe, UnknownVersion, UnreadableFile
from counterproof.reading.bought import BOUGHT
from counterproof.reading.sub_recipes import may_name
from counterproof.recipe.kitchen import Kitchen
from counterproof.recipe.kitchen_file import read_kitchen, with_changes
from counterproof.recipe.model import Recipe
from counterproof.recipe.page import read_page
from counterproof.recipe.pantry_file import Pantry, read_pantry
from counterproof.recipe.prices_file import Prices, read_prices
from counterproof.recipe.schema_org import read_json
from counterproof.recipe.season_file import Season, read_season
from counterproof.recipe.settings import nearest
from counterproof.recipe.text import read_text

RECIPE_FILES: Final = ("recipe.md", "recipe.txt", "recipe.html", "recipe.json")
_TITLE: Final = re.compile(r"^(?:#|title:)[ \t]*(.+)$", re.MULTILINE)
_TITLE_WITHIN: Final = 20_000  # bytes; settings above a title are shorter
_ABOVE: Final = 4  # folders searched for a kitchen: an episode lies two below its season


def load_recipe(name: str, stdin: BinaryIO | None = None) -> tuple[Recipe, str | None]:
    """Load a recipe, or a version of it, by the name a person gives.

    Parameters
    ----------
    name : str
        A recipe file (.md, .txt, .html, .json), an episode folder, a season folder with one
        episode, or "-" for standard input; "+VERSION" behind it names a version.
    stdin : BinaryIO or None
        Standard input, read for "-".

    Returns
    -------
    tuple of Recipe and str or None
        The recipe, and the version's name.

    Raises
    ------
    UnreadableFile
        If it is not there, is not text, or is too large.
    NotARecipe
        If there is no recipe in it, or more than one.
    BrokenFrontMatter
        If its settings cannot be used.
    UnknownVersion
        If it has no such version.
    """
    path, version = _path_and_version(name)
    if path == "-":
        recipe = read_recipe(content_of_stream(stdin), "-")
    else:
        place = recipe_file(Path(path))
        recipe = with_season(read_recipe(content_of(place), str(place)))
    names = [one.name for one in recipe.versions]
    if recipe.bought is not None and BOUGHT not in names:
        names.append(BOUGHT)
    if version is not None and version not in names:
        near = nearest(version, names) if names else None
        raise UnknownVersion(
            f'There is no version "{version}"; '
            + (f"its versions are: {', '.join(names)}." if names else "the recipe has none."),
            remedy=f'Did you mean "{near}"?'
            if near
            else 'Add it under "versions" in the settings above the recipe.',
            file=recipe.file,
        )
    return recipe, version


def read_recipe(content: bytes, file: str) -> Recipe:
    """Read a recipe from the bytes of a file of any of the forms.

    Parameters
    ----------
    content : bytes
        What the file holds.
    file : str
        Its name; the ending tells the form, and the content where there is none.

    Returns
    -------
    Recipe
        The recipe.
    """
    form = Path(file).suffix.casefold()
    start = content[:2000].removeprefix(codecs.BOM_UTF8).lstrip().lower()
    html = start.startswith((b"<!doctype", b"<html", b"<?xml", b"<head", b"<body", b"<script"))
    if form in PAGES or (html and form != ".json"):
        return read_page(page_text(content, file), file)
    text = decoded(content, file)
    if form in {".json", ".jsonld"} or (not form and start.startswith((b"{", b"["))):
        return read_json(text, file)
    return read_text(text, file)


def _path_and_version(name: str) -> tuple[str, str | None]:
    path, plus, version = name.rpartition("+")
    if not plus or not path or _exists(Path(name)):
        return name, None
    return path, version.strip() or None


def _exists(path: Path) -> bool:
    try:
        return path.exists()
    except (OSError, ValueError):
        return False


def recipe_file(path: Path) -> Path:
    """Return the recipe file that a path means: itself, or the one in an episode's folder.

    Parameters
    ----------
    path : Path
        A file, an episode folder, or a season folder with one episode.

    Returns
    -------
    Path
        The recipe file.

    Raises
    ------
    UnreadableFile
        If there is nothing there.
    NotARecipe
        If the folder holds no recipe, or several.
    """
    if not _exists(path):
        raise UnreadableFile("There is no such file.", remedy=suggestion(path), file=str(path))
    if not path.is_dir():
        return path
    for name in RECIPE_FILES:
        if (path / name).is_file():
            return path / name
    found = episodes(path)
    if len(found) == 1:
        return recipe_file(found[0])
    if found:
        raise NotARecipe(
            f"This is a season of {len(found)} episodes.",
            remedy=f"Name one of them: {', '.join(str(one) for one in found)}.",
            file=str(path),
        )
    raise NotARecipe(
        "The folder holds no recipe.",
        remedy='Put a "recipe.md" in it, or name the file.',
        file=str(path),
    )


def episodes(season: Path) -> tuple[Path, ...]:
    """Return the episode folders of a season, in the order of their names.

    Parameters
    ----------
    season : Path
        The season's folder.

    Returns
    -------
    tuple of Path
        The folders that hold a recipe.
    """
    folder = season / "episodes"
    if not folder.is_dir():
        return ()
    return tuple(
        one
        for one in sorted(folder.iterdir())
        if any((one / name).is_file() for name in RECIPE_FILES)
    )


def with_season(recipe: Recipe) -> Recipe:
    """Return a recipe with those of its season beside it that its lines may be.

    Parameters
    ----------
    recipe : Recipe
        The recipe, with the file it came from.

    Returns
    -------
    Recipe
        Unchanged where it belongs to no season. Only recipes whose titles a line may name are
        read; those that they name in turn come too.

    Raises
    ------
    InputError
        If a recipe that a line names cannot be used.
    """
    season = None if recipe.file in {None, "-"} else season_folder(Path(str(recipe.file)))
    if season is None:
        return recipe
    own = Path(str(recipe.file)).resolve()
    places = [recipe_file(one) for one in episodes(season)]
    places += sorted((season / "recipes").glob("*.md"))
    titles = {place: _quick_title(place) for place in places if place.resolve() != own}
    beside: list[Recipe] = []
    asking = [recipe]
    while asking and titles:
        one = asking.pop()
        texts = [line.text for line in one.lines]
        texts += [text for version in one.versions for text in version.swap.values()]
        for place in [p for p, title in titles.items() if any(may_name(t, title) for t in texts)]:
            del titles[place]
            other = read_recipe(content_of(place), str(place))
            beside.append(other)
            asking.append(other)
    return replace(recipe, beside=tuple(beside)) if beside else recipe


def _quick_title(place: Path) -> str:
    """The title of a recipe file, near enough to tell whether the file must be read."""
    start = place.read_bytes()[:_TITLE_WITHIN].decode("utf-8", "replace")
    found = _TITLE.search(start)
    return found.group(1).strip() if found else place.parent.name.lstrip("0123456789-")


def season_folder(path: Path) -> Path | None:
    """Return the season that a file or folder belongs to, if it belongs to one.

    Parameters
    ----------
    path : Path
        A file or folder.

    Returns
    -------
    Path or None
        The nearest folder above it with a season.yaml.
    """
    start = path.absolute()
    for folder in (start, *start.parents)[: _ABOVE + 1]:
        if (folder / "season.yaml").is_file():
            return folder
    return None


def load_season(folder: Path) -> Season:
    """Load the season file of a folder.

    Parameters
    ----------
    folder : Path
        The season's folder.

    Returns
    -------
    Season
        What its season.yaml says.
    """
    place = folder / "season.yaml"
    return read_season(decoded(content_of(place), str(place)), str(place))


def load_kitchen(
    recipe: Recipe, override: str | None = None, within: Path | None = None
) -> Kitchen:
    """Load the kitchen a recipe is cooked in.

    Parameters
    ----------
    recipe : Recipe
        The recipe, with the file it came from.
    override : str or None
        A kitchen file named for this run; it outranks all others.
    within : Path or None
        The folder that every file read has to lie in.

    Returns
    -------
    Kitchen
        The first that is named or found: for this run, by the recipe, by its season, a
        kitchen.yaml beside the recipe or above it; else the defaults.

    Raises
    ------
    InputError
        If a kitchen file that is named is not there, lies outside, or cannot be used.
    """
    here = None if recipe.file in {None, "-"} else Path(str(recipe.file))
    season = None if here is None else season_folder(here)
    if season is not None and within is not None and not season.is_relative_to(within.absolute()):
        season = None
    said = None if season is None else load_season(season)
    place = _kitchen_place(recipe, override, here, season, said)
    kitchen = Kitchen()
    named = recipe.kitchen is not None or (said is not None and said.kitchen is not None)
    if place is not None and not named and within is not None:
        place = place if place.resolve().is_relative_to(within.resolve()) else None
    if place is not None:
        confined(place, within, "kitchen")
        kitchen = read_kitchen(decoded(content_of(place), str(place)), str(place))
    if said is not None:
        method = {"middle": said.middle, "range_for": said.range_for}
        left = {k: v for k, v in method.items() if v is not None and k not in kitchen.stated}
        kitchen = with_changes(kitchen, left, file=said.file)
    return kitchen


def load_prices(recipe: Recipe, within: Path | None = None) -> Prices | None:
    """Load the prices a recipe is costed with: those beside it, or those of its season.

    Parameters
    ----------
    recipe : Recipe
        The recipe, with the file it came from.
    within : Path or None
        The folder that a price file has to lie in.

    Returns
    -------
    Prices or None
        None where there is no price file.

    Raises
    ------
    InputError
        If it cannot be used.
    """
    place = _beside(recipe, "prices.yaml")
    if place is None:
        return None
    return read_prices(load_text(confined(place, within, "prices.yaml")), str(place))


def load_pantry(recipe: Recipe, override: str | None = None) -> Pantry | None:
    """Load what is in the house: the file named, or the one beside a recipe or of its season.

    Parameters
    ----------
    recipe : Recipe
        The recipe, with the file it came from.
    override : str or None
        A pantry file named for this run.

    Returns
    -------
    Pantry or None
        None where there is no pantry file.

    Raises
    ------
    InputError
        If it is not there or cannot be used.
    """
    place = Path(override) if override else _beside(recipe, "pantry.yaml")
    return None if place is None else read_pantry(load_text(place), str(place))


def _beside(recipe: Recipe, name: str) -> Path | None:
    """A file beside a recipe, or the season's own."""
    if recipe.file in {None, "-"}:
        return None
    here = Path(str(recipe.file))
    season = season_folder(here)
    places = [here.parent / name, *([season / name] if season else [])]
    return next((one for one in places if one.is_file()), None)


def own_table(kitchen: Kitchen, within: Path | None = None) -> tuple[str, str] | None:
    """Load the text of a kitchen's own foods and factors.

    Parameters
    ----------
    kitchen : Kitchen
        The kitchen; the path it names is from its own file's folder.
    within : Path or None
        The folder that the table has to lie in.

    Returns
    -------
    tuple of str and str, or None
        Name and text of the file; None where the kitchen names none.

    Raises
    ------
    UnreadableFile
        If it is not there or is not text.
    """
    if kitchen.own_factors is None:
        return None
    folder = Path(kitchen.file).parent if kitchen.file else Path()
    place = folder / kitchen.own_factors
    return str(kitchen.own_factors), load_text(confined(place, within, "own_factors"))


def _kitchen_place(
    recipe: Recipe,
    override: str | None,
    here: Path | None,
    season: Path | None,
    said: Season | None,
) -> Path | None:
    if override is not None:
        return Path(override)
    if recipe.kitchen is not None:
        return (here.parent if here else Path()) / recipe.kitchen
    if season is not None and said is not None and said.kitchen is not None:
        return season / said.kitchen
    if here is None:
        return None
    above = here.absolute().parents[:_ABOVE]
    return next((one / "kitchen.yaml" for one in above if (one / "kitchen.yaml").is_file()), None)


def load_text(path: Path) -> str:
    """Load a text file of ours, such as a script, with the same care as a recipe.

    Parameters
    ----------
    path : Path
        The file.

    Returns
    -------
    str
        Its text.
    """
    return decoded(content_of(path), str(path))


def write_atomically(path: Path, content: bytes, mode: int | None = None) -> None:
    """Write a file so that it is there whole or not at all.

    Parameters
    ----------
    path : Path
        Where to; its folder must exist.
    content : bytes
        What to write.
    mode : int or None
        Who may read it; as it was, or as the system gives it, where None.

    Raises
    ------
    UnreadableFile
        If the folder is not there or may not be written in.
    """
    try:
        if mode is None:
            mode = path.stat().st_mode & 0o777 if path.exists() else 0o666 & ~_umask()
        handle, name = tempfile.mkstemp(prefix=f".{path.name[:40]}.", dir=path.parent)
    except (OSError, ValueError) as fault:
        raise _unwritable(path, fault) from None
    try:
        with os.fdopen(handle, "wb") as stream:
            stream.write(content)
            stream.flush()
            os.fsync(stream.fileno())
        Path(name).chmod(mode)
        Path(name).replace(path)
    except OSError as fault:
        Path(name).unlink(missing_ok=True)
        raise _unwritable(path, fault) from None
    except BaseException:
        Path(name).unlink(missing_ok=True)
        raise


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask


def _unwritable(path: Path, fault: Exception) -> InputError:
    why = getattr(fault, "strerror", None) or str(fault)
    return UnreadableFile(
        f"The file cannot be written: {why}.",
        remedy="Check that its folder is there and that you may write in it.",
        file=str(path),
    )


def demo_season() -> Path:
    """Return the folder of the season that ships with the program."""
    return Path(str(package_files("counterproof"))) / "seasons" / "cold-month-suppers"


def write_folder(folder: Path, contents: Mapping[str, bytes]) -> tuple[Path, ...]:
    """Write several files into a folder, which is made where it is not there.

    Parameters
    ----------
    folder : Path
        Where to.
    contents : mapping of str to bytes
        File name → what to write.

    Returns
    -------
    tuple of Path
        The files, in the order given.

    Raises
    ------
    UnreadableFile
        If the folder cannot be made or written in.
    """
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as fault:
        raise _unwritable(folder, fault) from None
    for name, content in contents.items():
        write_atomically(folder / name, content)
    return tuple(folder / name for name in contents)
