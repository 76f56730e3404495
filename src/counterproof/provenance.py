"""Where one figure of a table comes from."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Obtained = Literal["read", "derived", "assumed"]


@dataclass(frozen=True, slots=True)
class Provenance:
    """Where one figure comes from."""

    source: str  # Source.id, or "" where obtained is "assumed"
    locator: str  # table, page, row
    obtained: Obtained
    note: str  # for "assumed": the reason
