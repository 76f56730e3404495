"""A kitchen from the disk, and what else is kept with it: season, prices, pantry, own factors."""

from __future__ import annotations

from pathlib import Path

from counterproof.adapters.confining import confined
from counterproof.adapters.contents import content_of, decoded
from counterproof.adapters.files import ABOVE, load_text, season_folder
from counterproof.recipe.kitchen import Kitchen
from counterproof.recipe.kitchen_file import read_kitchen, with_changes
from counterproof.recipe.model import Recipe
from counterproof.recipe.pantry_file import Pantry, read_pantry
from counterproof.recipe.prices_file import Prices, read_prices
from counterproof.recipe.season_file import Season, read_season


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
    above = here.absolute().parents[:ABOVE]
    return next((one / "kitchen.yaml" for one in above if (one / "kitchen.yaml").is_file()), None)
