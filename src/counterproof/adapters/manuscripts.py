"""An episode's folder as a manuscript: the recipe, its script, the season around it."""

from __future__ import annotations

from pathlib import Path

from counterproof.adapters.files import episodes, load_recipe, load_text, recipe_file, season_folder
from counterproof.adapters.kitchens import load_kitchen, load_season
from counterproof.locking_up import Manuscript
from counterproof.use_cases import Order
from counterproof.vetting_cases import Episode


def in_season(order: Order, place: Path, kitchen_file: str | None = None) -> Episode:
    """Return a recipe with the season's other recipes and its audience.

    Parameters
    ----------
    order : Order
        The recipe, its kitchen and version.
    place : Path
        Where it lies.
    kitchen_file : str or None
        A kitchen named for this run.

    Returns
    -------
    Episode
        The recipe alone where it belongs to no season.
    """
    season = season_folder(place)
    if season is None:
        return Episode(order)
    others = []
    here = recipe_file(place).absolute()
    for folder in episodes(season):
        if recipe_file(folder).absolute() == here:
            continue
        recipe, _ = load_recipe(str(folder))
        others.append(Order(recipe, load_kitchen(recipe, kitchen_file), name=recipe.title))
    return Episode(order, tuple(others), load_season(season).audience)


def manuscript_of(order: Order, kitchen_file: str | None = None) -> Manuscript:
    """Return all that stands in an episode's folder.

    Parameters
    ----------
    order : Order
        Its recipe, with the file it came from.
    kitchen_file : str or None
        A kitchen named for this run.

    Returns
    -------
    Manuscript
        The recipe with its season, and the script beside it where there is one.

    Raises
    ------
    InputError
        If the season, one of its recipes or the script cannot be used.
    """
    if order.recipe.file in {None, "-"}:
        return Manuscript(Episode(order))
    place = Path(str(order.recipe.file))
    episode = in_season(order, place, kitchen_file)
    script = place.parent / "script.md"
    if not script.is_file():
        return Manuscript(episode)
    return Manuscript(episode, load_text(script), str(script))
