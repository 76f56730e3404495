"""What is open on the desk: one folder, its recipes, the kitchen and tables behind each of them.

Every path goes through here and is held inside the folder. Kitchens, prices and tables are read
again only when their files have changed, since reading them takes longer than marking a recipe.
"""

from __future__ import annotations

import shutil
from collections.abc import Iterable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Final

from counterproof.adapters.confining import confined
from counterproof.adapters.contents import PAGES, content_of
from counterproof.adapters.files import (
    RECIPE_FILES,
    demo_season,
    episodes,
    read_recipe,
    recipe_file,
    season_folder,
    with_season,
)
from counterproof.adapters.kitchens import load_kitchen, load_prices, load_season, own_table
from counterproof.adapters.tables import load_tables, uncollected
from counterproof.errors import AlreadyThere, CounterproofError, ReadOnly, UnreadableFile
from counterproof.recipe.front_matter import Front
from counterproof.recipe.kitchen import Kitchen
from counterproof.recipe.model import Recipe
from counterproof.recipe.prices_file import Prices
from counterproof.recipe.text import read_text, write_text
from counterproof.use_cases import Order, Workbench
from counterproof.vetting_cases import Episode

_FRONTS_KEPT: Final = 64
_TEXTS: Final = {".md", ".txt", ".markdown", ""}


@dataclass(frozen=True, slots=True)
class Leaf:
    """One recipe of the folder, with the script beside it.

    Parameters
    ----------
    name : str
        Its folder's name in a season, else its file's.
    recipe : Path
        The text that is worked on.
    source : Path or None
        A saved page or JSON-LD document that the text begins from.
    """

    name: str
    recipe: Path
    source: Path | None = None

    @property
    def script(self) -> Path:
        """What will be said about it."""
        return self.recipe.with_name("script.md")


@dataclass
class Opened:
    """The folder that is open.

    Parameters
    ----------
    root : Path
        The folder; nothing outside it is read or written.
    leaves : tuple of Leaf
        Its recipes, in order.
    first : str
        Name of the leaf shown first.
    read_only : bool
        Whether it is the demo season, of which one keeps a copy.
    """

    root: Path
    leaves: tuple[Leaf, ...]
    first: str
    read_only: bool = False
    _fronts: dict[tuple[str, int, str | None], Front] = field(default_factory=dict, repr=False)
    _places: dict[tuple[object, ...], tuple[Kitchen, Prices | None]] = field(
        default_factory=dict, repr=False
    )
    _benches: dict[tuple[str, str] | None, Workbench] = field(default_factory=dict, repr=False)

    @property
    def title(self) -> str:
        """What the folder is called."""
        if (self.root / "season.yaml").is_file():
            try:
                return load_season(self.root).title or self.root.name
            except CounterproofError:
                return self.root.name
        return self.root.name

    def leaf(self, name: str | None) -> Leaf:
        """Return a recipe of the folder by its name.

        Parameters
        ----------
        name : str or None
            Its name; the one shown first where None.

        Returns
        -------
        Leaf
            The recipe.

        Raises
        ------
        UnreadableFile
            If the folder holds none of that name.
        """
        asked = name or self.first
        for leaf in self.leaves:
            if leaf.name == asked:
                return leaf
        raise UnreadableFile(
            "There is no recipe of that name in the folder that is open.",
            remedy="Choose one from the list at the head of the page.",
        )

    def writable(self) -> None:
        """Refuse where nothing may be changed.

        Raises
        ------
        ReadOnly
            If the demo season is open.
        """
        if self.read_only:
            raise ReadOnly(
                "This is the demo season; it can be looked at and not changed.",
                remedy="Keep a copy of it and change that.",
            )

    def beginning(self, leaf: Leaf) -> str:
        """Return the text a recipe begins with where its file is not there yet.

        Parameters
        ----------
        leaf : Leaf
            The recipe.

        Returns
        -------
        str
            What its saved page says; empty where it has none.
        """
        if leaf.source is None:
            return ""
        source = confined(leaf.source, self.root)
        return write_text(read_recipe(content_of(source), str(source)))

    def recipe(self, leaf: Leaf, text: str) -> Recipe:
        """Return a recipe as its text now reads.

        Parameters
        ----------
        leaf : Leaf
            Which recipe.
        text : str
            Its text.

        Returns
        -------
        Recipe
            The recipe.
        """
        if len(self._fronts) > _FRONTS_KEPT:
            self._fronts.clear()
        return with_season(read_text(text, str(leaf.recipe), self._fronts))

    def order(self, leaf: Leaf, text: str) -> Order:
        """Return a recipe with its kitchen and prices, ready to be worked out.

        Parameters
        ----------
        leaf : Leaf
            Which recipe.
        text : str
            Its text.

        Returns
        -------
        Order
            The order.
        """
        recipe = self.recipe(leaf, text)
        kitchen, prices = self._place(recipe)
        return Order(recipe, kitchen, name=recipe.title, prices=prices)

    def bench(self, kitchen: Kitchen) -> Workbench:
        """Return tables and matcher for a kitchen, which may bring foods of its own.

        Parameters
        ----------
        kitchen : Kitchen
            The kitchen.

        Returns
        -------
        Workbench
            Made once for each such table.
        """
        own = own_table(kitchen, self.root)
        if own not in self._benches:
            for other in [key for key in self._benches if key is not None]:
                del self._benches[other]  # an own table that has changed since
            with uncollected():
                self._benches[own] = Workbench.over(load_tables(own=own))
        return self._benches[own]

    def episode(self, leaf: Leaf, text: str) -> Episode:
        """Return what a script is vetted beside.

        Parameters
        ----------
        leaf : Leaf
            The recipe that the script speaks of.
        text : str
            The recipe's text.

        Returns
        -------
        Episode
            The recipe, the season's others as they stand on disk, the audience.
        """
        others = []
        for other in self.leaves:
            if other == leaf or not other.recipe.is_file():
                continue
            try:
                written = content_of(confined(other.recipe, self.root)).decode("utf-8-sig")
                others.append(self.order(other, written))
            except (CounterproofError, UnicodeDecodeError):
                continue  # a script may be vetted while another evening's recipe is unfinished
        audience: tuple[str, ...] = ()
        if (self.root / "season.yaml").is_file():
            audience = tuple(load_season(self.root).audience)
        return Episode(self.order(leaf, text), tuple(others), audience)

    def _place(self, recipe: Recipe) -> tuple[Kitchen, Prices | None]:
        here = Path(str(recipe.file)).parent
        named = [here / recipe.kitchen] if recipe.kitchen is not None else []
        folders = [here, *(one for one in here.parents if one.is_relative_to(self.root))]
        files = [
            *named,
            *(one / name for one in folders for name in ("season.yaml", "kitchen.yaml", "prices.yaml")),
        ]  # fmt: skip
        asked = (recipe.kitchen, here, *_fingerprints(files))
        if asked not in self._places:
            self._places.clear()
            self._places[asked] = (
                load_kitchen(recipe, within=self.root),
                load_prices(recipe, within=self.root),
            )
        return self._places[asked]


def opened(name: str | None) -> Opened:
    """Open a season, an episode or a recipe; the demo season where nothing is named.

    Parameters
    ----------
    name : str or None
        A path as a person gives it.

    Returns
    -------
    Opened
        The folder, held open.

    Raises
    ------
    InputError
        If there is nothing there that holds a recipe.
    """
    if name is None:
        return _season(demo_season(), None, read_only=True)
    path = Path(name).absolute()
    alone = any((path / one).is_file() for one in RECIPE_FILES)
    if not alone and (path / "season.yaml").is_file() and episodes(path):
        return _season(path, None)
    place = recipe_file(path)
    season = season_folder(place)
    if season is not None and place.parent in episodes(season):
        return _season(season, place.parent.name)
    leaf = _leaf(place, place.stem if place.parent != path else place.parent.name)
    return Opened(season or place.parent, (leaf,), leaf.name)


def copied(demo: Opened, where: Path) -> Opened:
    """Keep a copy of the demo season and open that.

    Parameters
    ----------
    demo : Opened
        The demo season.
    where : Path
        The folder to put it in.

    Returns
    -------
    Opened
        The copy.

    Raises
    ------
    AlreadyThere
        If a folder of its name is there.
    """
    target = where / demo.root.name
    if target.exists():
        raise AlreadyThere(
            f"There is a “{target.name}” already; nothing was written.",
            remedy="Open that one, or start the desk in another folder.",
            file=target.name,
        )
    try:
        shutil.copytree(demo.root, target, ignore=shutil.ignore_patterns("__pycache__"))
    except OSError as fault:
        raise UnreadableFile(
            f"The copy cannot be written: {fault.strerror}.",
            remedy="Start the desk in a folder in which you may write.",
        ) from None
    return _season(target, demo.first)


def _season(folder: Path, first: str | None, *, read_only: bool = False) -> Opened:
    leaves = tuple(_leaf(recipe_file(one), one.name) for one in episodes(folder))
    return Opened(folder, leaves, first or leaves[0].name, read_only)


def _leaf(place: Path, name: str) -> Leaf:
    form = place.suffix.casefold()
    if form in _TEXTS and form not in PAGES:
        return Leaf(name, place)
    beside = place.with_name("recipe.md")
    if beside.exists() and place.stem != "recipe":
        beside = place.with_suffix(".md")
    return Leaf(name, beside, place)


def _fingerprints(files: Iterable[Path]) -> tuple[tuple[int, int] | None, ...]:
    """When each file was written and how long it is; None for one that is not there."""
    found: list[tuple[int, int] | None] = []
    for file in files:
        try:
            told = file.stat()
            found.append((told.st_mtime_ns, told.st_size))
        except OSError:
            found.append(None)
    return tuple(found)
