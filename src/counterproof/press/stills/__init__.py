"""Stills: one thing that an episode tells, as a picture for video; one module a kind."""
