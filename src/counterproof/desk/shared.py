"""What the desk's routes share."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path

from counterproof.desk.drafting import Drafter
from counterproof.desk.marking import Marker
from counterproof.desk.opened import Opened


@dataclass
class Desk:
    """The folder that is open, who marks it, where copies go."""

    folder: Opened
    marker: Marker
    here: Path
    drafter: Drafter = field(default_factory=Drafter)
