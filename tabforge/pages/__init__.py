"""Engraved pages: notation and TAB as pictures, with the marks a player reads on the strings."""
