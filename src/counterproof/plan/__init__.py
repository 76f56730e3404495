"""Kitchen physics and the steps: time, energy, mass change."""
