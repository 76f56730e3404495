"""Renderers of the proof: they calculate nothing."""
