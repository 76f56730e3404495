"""From words to foods and masses."""
