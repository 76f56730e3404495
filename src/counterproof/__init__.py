"""Counterproof: the marked-up proof of a recipe."""

__version__ = "0.1.0"
