"""Practice tracks: plucked strings, a drone and a click as sound, tuned and in time.

``tracks.tracks`` is the way in: a performance and options, files' bytes out. ``options`` say what is wanted, ``clock`` when each tick
is, ``timbre`` how strings sound, ``strings`` makes one sound, ``mix`` a pass of many, ``rungs`` a row of passes, ``level`` keeps them from
being too loud, ``encode`` writes files. numpy and soundfile are wanted only when sound is made: an extra of the installation.
"""
