"""Kitchen physics: one phenomenon a module; it knows nothing of recipes.

From the ground up: `values` (numbers and draws, correlations, how an uncertain constant is
taken), `flags`, then the properties (`water`, `air`, `carbon_dioxide`, `food_properties`,
`frozen`), then what happens in a kitchen (`boiling`, `surfaces`, `hob`, `kettle`, …), then
`answer` and the questions a cook may ask. Temperatures are absolute, everything is in SI base
units. Every argument may be one number or an (n,) array of draws.
"""
