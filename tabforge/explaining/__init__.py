"""Explanations in a player's words: of a scale, of a chord, of what is played in a study. Pure: facts as data, and their text.

Facts are JSON types; ``schemas/explanation.schema.json`` describes them.
"""
