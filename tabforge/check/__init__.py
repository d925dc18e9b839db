"""Advice about a compiled study: an immutable tuple of small functions."""
