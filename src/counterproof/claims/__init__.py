"""Figures fit to be said: how many digits they deserve, what they look like, what may be claimed."""
