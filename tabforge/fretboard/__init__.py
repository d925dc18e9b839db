"""Instruments, necks, layouts and placement: where on the neck a pitch is played.

- ``tunings``, ``instruments``: the tables of named ones; ``harmonics``: where strings have nodes.
- ``neck``: which pitch lies where, and how far apart frets are; ``reach``: what a hand can hold, and what is a wide stretch.
- ``layouts`` lays a ``ladder`` of scale tones on the neck as a line (``line`` has the types; ``per_string``, ``windows``, ``extents`` the
  rules of each kind).
- ``placement`` finds places for any line of notes and chords. ``readings`` and ``bonds`` say what can be played, ``cost`` what is good;
  ``search`` and ``states`` find the best.
- ``trouble`` is what does not lie on the neck, as data; ``obstacles`` finds out why, ``explain`` and ``words`` put it into words.
"""
