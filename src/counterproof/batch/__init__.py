"""From by-eye to repeatable: scale readings to lines, plan beside fact, scaling to what there is."""
