"""A recipe at the stove: itself, in its file, since what is measured is written beside it."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from counterproof.cli import opening, outcome
from counterproof.errors import InputError

if TYPE_CHECKING:
    from counterproof.use_cases import Order


def at_the_stove(recipe: str | None, kitchen: str | None) -> tuple[Order, Path]:
    """The recipe itself, with its file: what is measured is written beside it."""
    order = _begun(recipe, kitchen) or opening.order(recipe, kitchen, None)
    if order.recipe.file in {None, "-"} or order.version is not None:
        raise InputError(
            "What is measured belongs beside a recipe file.",
            remedy="Name the file or the episode's folder, without a version.",
        )
    return order, Path(str(order.recipe.file))


def _begun(name: str | None, kitchen: str | None) -> Order | None:
    """A recipe that is only now begun: a folder without one, whose name is its title."""
    from counterproof.adapters.files import RECIPE_FILES, episodes
    from counterproof.adapters.kitchens import load_kitchen
    from counterproof.recipe.model import Recipe
    from counterproof.use_cases import Order as Begun

    folder = Path(name or "")
    if name is None or not folder.is_dir() or episodes(folder):
        return None
    if any((folder / file).exists() for file in RECIPE_FILES):
        return None
    title = folder.resolve().name.lstrip("0123456789-_ ").replace("-", " ").capitalize()
    recipe = Recipe(title or "Untitled recipe", (), (), file=str(folder / RECIPE_FILES[0]))
    outcome.say(f"There is no recipe in {folder} yet: it is begun with what is weighed in.")
    return Begun(recipe, load_kitchen(recipe, kitchen), name=recipe.title)
