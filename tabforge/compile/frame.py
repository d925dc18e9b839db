"""What is in force: instrument, tuning, scale, meter, tempo; from the header, and changed by a block."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from tabforge.compile.durations import length_of, value_of
from tabforge.compile.report import Report
from tabforge.compile.scales import scale_in_force
from tabforge.diagnostics import nearest
from tabforge.diagnostics.catalogue import music
from tabforge.fretboard.instruments import INSTRUMENTS, find_instrument, find_tuning, instrument_names, tuning_of, tunings_of
from tabforge.fretboard.neck import Neck
from tabforge.model.meter import Meter, Swing, Tempo
from tabforge.model.pitch import parse_pitch
from tabforge.model.score import Scale
from tabforge.model.tuning import Instrument, Tuning
from tabforge.model.values import BY_LETTER, NoteValue
from tabforge.syntax.document import Settings, Study, TempoSetting
from tabforge.syntax.origins import Pointer
from tabforge.theory.intervals import Interval

FOUR_FOUR = Meter(groups=(4,), unit=4)


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """The settings in force. ``move`` is the interval the whole study is moved by; None in its own key."""

    instrument: Instrument
    neck: Neck
    scale: Scale | None = None
    meter: Meter = FOUR_FOUR
    tempo: Tempo | None = None
    swing: Swing | None = None
    pickup: Fraction = Fraction(0)
    move: Interval | None = None

    @property
    def tuning(self) -> Tuning:
        """The tuning in force."""
        return self.neck.tuning

    @property
    def capo(self) -> int:
        """The capo's fret."""
        return self.neck.capo


def header_frame(study: Study, move: Interval | None, report: Report) -> Frame:
    """The frame that a study's header sets, moved by ``move``."""
    instrument = find_instrument(study.get("instrument", "guitar"))
    if instrument is None:
        report.add(
            music.UNKNOWN_INSTRUMENT,
            f"there is no instrument called “{study['instrument']}”",
            ("instrument",),
            suggestion=nearest(study["instrument"], instrument_names()),
            help="`tabforge list instruments` shows them all",
        )
        instrument = INSTRUMENTS["guitar"]
    frame = Frame(instrument=instrument, neck=_neck(instrument, instrument.tuning, 0), move=move)
    return changed(frame, study, (), report)


def changed(frame: Frame, settings: Settings, at: Pointer, report: Report) -> Frame:
    """The frame with what a header or a block says."""
    tuning, capo = frame.tuning, frame.capo
    if "tuning" in settings:
        tuning = _tuning(frame.instrument, settings["tuning"], (*at, "tuning"), report) or tuning
    capo = settings.get("capo", capo)
    neck = frame.neck if (tuning, capo) == (frame.tuning, frame.capo) else _neck(frame.instrument, tuning, capo)
    frame = replace(frame, neck=neck)
    if "meter" in settings:
        frame = replace(frame, meter=meter_of(settings["meter"]))
    if "tempo" in settings:
        frame = replace(frame, tempo=tempo_of(settings["tempo"], frame.meter))
    if "swing" in settings:
        frame = replace(frame, swing=_swing(settings))
    if "scale" in settings:
        frame = replace(frame, scale=scale_in_force(settings["scale"], frame.neck, frame.move, (*at, "scale"), report))
    pickup = Fraction(0)
    if "pickup" in settings:
        pickup = length_of(settings["pickup"]) or pickup
        if pickup >= frame.meter.quarters:
            report.add(
                music.PICKUP_TOO_LONG,
                f"the pickup is as long as a bar of {frame.meter} or longer",
                (*at, "pickup"),
                expected=f"less than {frame.meter}",
            )
            pickup = Fraction(0)
    return replace(frame, pickup=pickup)


def _neck(instrument: Instrument, tuning: Tuning, capo: int) -> Neck:
    return Neck(tuning=tuning, capo=capo, frets=instrument.frets, scale_length=instrument.scale_length)


def _tuning(instrument: Instrument, given: str | list[str], at: Pointer, report: Report) -> Tuning | None:
    if isinstance(given, list):
        pitches = [parse_pitch(text) for text in given]
        return tuning_of([pitch for pitch in pitches if pitch is not None])
    tuning = find_tuning(instrument, given)
    if tuning is None:
        names = list(tunings_of(instrument))
        report.add(
            music.UNKNOWN_TUNING,
            f"{instrument.label} has no tuning called “{given}”",
            at,
            suggestion=nearest(given, names),
            expected=f"a tuning of {instrument.label}, or pitches from the lowest string: {instrument.tuning}",
            help="`tabforge list tunings` shows them all",
        )
    return tuning


def meter_of(text: str) -> Meter:
    """``3+2+2/8`` as a meter."""
    groups, _, unit = text.partition("/")
    return Meter(groups=tuple(int(part) for part in groups.split("+")), unit=int(unit))


def beat_of(meter: Meter) -> tuple[NoteValue, int]:
    """The note value a tempo without one counts: the dotted beat of a compound meter, a half in x/2, else a quarter."""
    if meter.compound:
        return BY_LETTER["q" if meter.unit == 8 else "e" if meter.unit == 16 else "s"], 1
    return BY_LETTER["h" if meter.unit == 2 else "w" if meter.unit == 1 else "q"], 0


def tempo_of(given: TempoSetting, meter: Meter) -> Tempo:
    """A tempo; without a beat of its own it counts the meter's."""
    beat = value_of(given["beat"]) if "beat" in given else None
    value, dots = beat or beat_of(meter)
    return Tempo(bpm=given["bpm"], beat=value, dots=dots, words=given.get("words") or None)


def tempo_of_cell(text: str, meter: Meter) -> Tempo:
    """A cell of a tempo row: ``96`` or ``q.=60``."""
    beat, equals, number = text.rpartition("=")
    bpm = float(number)
    given: TempoSetting = {"bpm": int(bpm) if bpm.is_integer() else bpm}
    if equals:
        given["beat"] = beat
    return tempo_of(given, meter)


def _swing(settings: Settings) -> Swing | None:
    given = settings["swing"]
    if given == "off":
        return None
    first, second = given.get("ratio", (2, 1))
    return Swing(value=BY_LETTER[given["value"]], first=first, second=second)
