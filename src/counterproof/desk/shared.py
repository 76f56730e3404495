"""What the desk's routes share."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path

from counterproof.desk import documents
from counterproof.desk.drafting import Drafter
from counterproof.desk.marking import Marker
from counterproof.desk.opened import Leaf, Opened
from counterproof.use_cases import Order


@dataclass
class Desk:
    """The folder that is open, who marks it, where copies go."""

    folder: Opened
    marker: Marker
    here: Path
    drafter: Drafter = field(default_factory=Drafter)

    def order(self, leaf: Leaf) -> Order:
        """Return a recipe as it is saved, or as its saved page says, with its kitchen.

        Parameters
        ----------
        leaf : Leaf
            The recipe.

        Returns
        -------
        Order
            Ready to be worked out.
        """
        now = documents.standing(leaf.recipe, self.folder.root)
        there = now.revision != documents.NOT_THERE
        return self.folder.order(leaf, now.text if there else self.folder.beginning(leaf))
