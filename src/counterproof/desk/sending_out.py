"""The press run from the desk: what is saved is pressed into the episode's own folder."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import Final

from counterproof.adapters import pressing
from counterproof.adapters.confining import confined
from counterproof.desk.documents import NOT_THERE, standing
from counterproof.desk.opened import Leaf, Opened
from counterproof.draws import DRAWS, Streams
from counterproof.errors import UnreadableFile
from counterproof.forme import Trim
from counterproof.locking_up import Manuscript, locked_up
from counterproof.press.manifest import Impression

_SEED: Final = 1


def pressed(folder: Opened, leaf: Leaf) -> tuple[str, tuple[str, ...]]:
    """Press a recipe as it is saved.

    Parameters
    ----------
    folder : Opened
        What is open.
    leaf : Leaf
        The recipe.

    Returns
    -------
    tuple of str and tuple of str
        The press folder, from the folder that is open, and the files in it.

    Raises
    ------
    InputError
        If the recipe is not saved yet, or its press folder lies outside or cannot be written.
    """
    folder.writable()
    recipe = standing(leaf.recipe, folder.root)
    if recipe.revision == NOT_THERE:
        raise UnreadableFile("The recipe is not saved yet.", remedy="Save it first.")
    script = standing(leaf.script, folder.root)
    told = (None, None) if script.revision == NOT_THERE else (script.text, str(leaf.script))
    manuscript = Manuscript(folder.episode(leaf, recipe.text), *told)
    order = manuscript.episode.order
    date = datetime.now(UTC).date().isoformat()
    trim = Trim()
    streams = Streams(seed=_SEED, n=DRAWS)
    bench = folder.bench(order.kitchen)
    forme = locked_up(manuscript, bench, streams, date=date, trim=trim)
    asked = Impression(
        order.recipe.title, None, date, "en", trim.paper, trim.measures, None, _SEED, DRAWS
    )
    place = confined(leaf.recipe.with_name("press"), folder.root)
    manifest = pressing.manifest_for(asked, forme, manuscript)
    whole = pressing.press_into(place, forme, manifest, (), lambda _: None)
    return place.relative_to(folder.root).as_posix(), tuple(file.name for file in whole.files)
