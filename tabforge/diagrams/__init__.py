"""Diagrams: scale shapes, fragments and chord grips on the neck, as text for the terminal and as SVG.

- ``model``: a diagram as data; ``naming`` says what a dot is called and what it is to its scale or chord.
- ``shapes`` makes one from a scale on the neck or from what a section plays, ``grips`` from a chord's grip; ``finding`` finds grips for
  a chord.
- ``frames`` says which frets a grip's chart shows and where its barre lies; the formats that draw charts ask it too.
- ``marks`` is the one home of what tells notes apart, in characters and in shapes and colours; ``spoken`` the alternative text.
- ``plain`` draws as text (``strip`` a shape along the neck, ``chart`` a grip upright), ``svg`` as SVG (``canvas`` has its elements).
"""
