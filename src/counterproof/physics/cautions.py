"""What could hurt someone at the stove, said once; every caution defers to local codes."""

from __future__ import annotations

from typing import Final

DEFER: Final = "Local codes and licensed practice come first."
SCALD: Final = (
    f"Steam and boiling liquids scald: turn handles inward, lift lids away from you. {DEFER}"
)
HOT_FAT: Final = (
    "Hot fat: dry food, a pan no more than a third full, never left alone; a burning pan is "
    f"covered, never watered. {DEFER}"
)
CORE: Final = (
    "Time and energy say nothing about whether the core is done: measure it, and follow your "
    f"food authority's temperatures. {DEFER}"
)
SUPERHEATED: Final = (
    "Plain water or milk from a microwave oven may boil over all at once when it is touched: "
    f"let it stand, put a spoon in before heating if the maker allows it. {DEFER}"
)
