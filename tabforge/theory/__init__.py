"""Scales, spelling, degrees, keys and chord symbols: what a musician computes before touching an instrument."""
