"""How every number of a proof came about: its terms, in the order of the working."""
