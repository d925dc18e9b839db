"""What a request passes before anything looks at what it says: each guard is ASGI middleware of its own.

From the outside in: ``logging`` writes a line about it, ``headers`` adds what every answer has, ``crossing`` refuses what comes from other
sites, ``tokens`` what has no token, ``limiting`` bodies that are too large or too slow.
"""
