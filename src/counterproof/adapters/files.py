"""Recipes and their seasons from the disk, by the names a person gives them."""

from __future__ import annotations

import codecs
import re
from dataclasses import replace
from importlib.resources import files as package_files
from pathlib import Path
from typing import BinaryIO, Final

from counterproof.adapters.contents import (
    PAGES,
    content_of,
    content_of_stream,
    decoded,
    page_text,
    suggestion,
)
from counterproof.errors import NotARecipe, UnknownVersion, UnreadableFile
from counterproof.reading.bought import BOUGHT
from counterproof.reading.sub_recipes import may_name
from counterproof.recipe.model import Recipe
from counterproof.recipe.page import read_page
from counterproof.recipe.schema_org import read_json
from counterproof.recipe.settings import nearest
from counterproof.recipe.text import read_text

RECIPE_FILES: Final = ("recipe.md", "recipe.txt", "recipe.html", "recipe.json")
_TITLE: Final = re.compile(r"^(?:#|title:)[ \t]*(.+)$", re.MULTILINE)
_TITLE_WITHIN: Final = 20_000  # bytes; settings above a title are shorter
ABOVE: Final = 4
"""Folders searched upwards for a season or a kitchen: an episode lies two below its season."""


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
    for folder in (start, *start.parents)[: ABOVE + 1]:
        if (folder / "season.yaml").is_file():
            return folder
    return None


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


def demo_season() -> Path:
    """Return the folder of the season that ships with the program."""
    return Path(str(package_files("counterproof"))) / "seasons" / "cold-month-suppers"
