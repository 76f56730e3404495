"""Single questions about the kitchen: what a person asks, in SI, turned into a question of physics.

Defaults come from the cook's kitchen, foods from the tables; what the physics answers is returned
with what was read and assumed on the way.
"""
