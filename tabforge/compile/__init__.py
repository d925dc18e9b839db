"""Ordered passes from a valid document to a score."""
