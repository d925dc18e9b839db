"""The ``attributes`` element: divisions, key, meter, staves, clefs, tuning."""

from __future__ import annotations

from typing import Final

from tabforge.model.meter import Meter
from tabforge.model.pitch import Pitch
from tabforge.model.score import Scale, Section
from tabforge.model.tuning import Instrument
from tabforge.writers.musicxml.accidentals import signature
from tabforge.writers.musicxml.layers import Layer, Part

_MODES: Final[dict[int, str]] = {
    1: "lydian",
    0: "major",
    -1: "mixolydian",
    -2: "dorian",
    -3: "minor",
    -4: "phrygian",
    -5: "locrian",
}
"""The mode whose key signature lies so many fifths from that of major on the same root (common practice: each step flattens one degree)."""


def _mode(scale: Scale, exact: bool) -> str | None:
    """The ``mode`` to name. Major and minor are told by signature, third and fifth, so that harmonic minor is minor too.

    A church mode must have exactly the notes of its signature.
    """
    majors = (fifths for fifths in range(-14, 15) if _tonic(fifths) == (scale.root.step, scale.root.alter))
    mode = _MODES.get(scale.fifths - next(majors, 99))
    if mode in {"major", "minor"}:
        third, other = ("3", "b3") if mode == "major" else ("b3", "3")
        return mode if {third, "5"} <= set(scale.labels) and other not in scale.labels else None
    key = signature(scale.fifths)
    plain = len(scale.tones) == 7 and all(key[tone.step] == tone.alter for tone in scale.tones)
    return mode if exact and plain else None


def _tonic(fifths: int) -> tuple[str, int]:
    """Letter and alteration of the major tonic that many fifths from C."""
    return "FCGDAEB"[(fifths + 1) % 7], (fifths + 1) // 7


def key(scale: Scale | None, *, exact: bool, before: Scale | None = None) -> str:
    """The ``key`` element of a scale; no scale is no sharps and flats.

    ``before`` is the scale that a change within a section puts an end to. Where fewer signs of its kind are left, or others come, those
    that go are cancelled by naturals (common practice, no source); before a signature without signs readers do so of themselves, says the
    standard.
    """
    if scale is None:
        return "<key><fifths>0</fifths></key>"
    mode, fifths = _mode(scale, exact), scale.fifths
    old = before.fifths if before is not None else 0
    going = fifths and (old > 0 > fifths or old < 0 < fifths or abs(fifths) < abs(old))
    cancel = f"<cancel>{old}</cancel>" if going else ""
    return f"<key>{cancel}<fifths>{fifths}</fifths>{f'<mode>{mode}</mode>' if mode else ''}</key>"


def time(meter: Meter) -> str:
    """The ``time`` element; an additive meter's groups are joined by plus signs, as the standard has it."""
    return f"<time><beats>{'+'.join(map(str, meter.groups))}</beats><beat-type>{meter.unit}</beat-type></time>"


def clef(layer: Layer, instrument: Instrument, strings: int) -> str:
    """The ``clef`` element. A TAB clef stands on the middle: line 5 of a six-line staff."""
    number = f' number="{layer.staff}"' if layer.staff else ""
    if layer.tab:
        return f"<clef{number}><sign>TAB</sign><line>{strings - 1}</line></clef>"
    octave = f"<clef-octave-change>{instrument.clef_octave}</clef-octave-change>" if instrument.clef_octave else ""
    return f"<clef{number}><sign>{instrument.clef}</sign><line>{instrument.clef_line}</line>{octave}</clef>"


def staff_details(layer: Layer, section: Section) -> str:
    """Lines, tuning (line 1 is the bottom one, the last string) and capo of a TAB staff; nothing for notation."""
    if not layer.tab:
        return ""
    number = f' number="{layer.staff}"' if layer.staff else ""
    kind = "<staff-type>alternate</staff-type>" if layer.silent else ""
    strings = section.tuning.strings
    tuned = [_tuned(line, pitch) for line, pitch in enumerate(reversed(strings), 1)]
    apart = ""
    if strings[-1].midi > strings[0].midi:
        # A reader takes a staff whose bottom line is tuned above its top one for a lute's and draws it upside down. The short string of a
        # banjo is therefore told in an element of its own.
        apart = f"<staff-details{number}>{tuned.pop(0)}</staff-details>"
    tuning = "".join(tuned)
    capo = f"<capo>{section.capo}</capo>" if section.capo else ""
    size = "" if layer.alone else "<staff-size>70</staff-size>"
    return f"<staff-details{number}>{kind}<staff-lines>{len(strings)}</staff-lines>{tuning}{capo}{size}</staff-details>{apart}"


def _tuned(line: int, pitch: Pitch) -> str:
    alter = f"<tuning-alter>{pitch.alter}</tuning-alter>" if pitch.alter else ""
    return (
        f'<staff-tuning line="{line}"><tuning-step>{pitch.step}</tuning-step>{alter}'
        f"<tuning-octave>{pitch.octave}</tuning-octave></staff-tuning>"
    )


class AttributesWriter:
    """Writes the attributes of one part where they are set or change."""

    def __init__(self, part: Part, instrument: Instrument, divisions: int, *, exact: bool) -> None:
        self._part = part
        self._instrument = instrument
        self._divisions = divisions
        self._exact = exact
        self._last: dict[str, str] = {}
        self._seen: tuple[Section, Meter] | None = None
        self._scale: Scale | None = None

    def write(self, section: Section, meter: Meter, rests: int = 0, scale: Scale | None = None) -> str:
        """The element for a bar in that section and meter, or nothing where all is as before.

        ``rests``: so many bars from here on are shown as one rest, on every staff; 0 for none. ``scale``: the one that comes into force.
        """
        style = f"<measure-style><multiple-rest>{rests}</multiple-rest></measure-style>" if rests else ""
        within = self._seen is not None and self._seen[0] is section
        if within and scale is None and self._seen is not None and self._seen[1] == meter:
            return f"<attributes>{style}</attributes>\n" if style else ""
        self._seen = section, meter
        before = self._scale if within else None
        self._scale = scale or (before if within else section.scale)
        strings = len(section.tuning)
        wanted = {
            "divisions": f"<divisions>{self._divisions}</divisions>",
            "key": key(self._scale, exact=self._exact),
            "time": time(meter),
            "staves": f"<staves>{len(self._part)}</staves>" if len(self._part) > 1 else "",
            **{f"clef {layer}": clef(layer, self._instrument, strings) for layer in self._part},
            **{f"details {layer}": staff_details(layer, section) for layer in self._part},
        }
        changes = {name: text for name, text in wanted.items() if self._last.get(name) != text}
        if "key" in changes:
            changes["key"] = key(self._scale, exact=self._exact, before=before)
        changed = "".join(changes.values()) + style
        self._last = wanted
        return f"<attributes>{changed}</attributes>\n" if changed else ""
