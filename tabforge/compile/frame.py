"""What is in force: instrument, tuning, scale, meter, tempo; from the header, and changed by a block."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from tabforge.compile.accompaniment import ALONE, Accompaniment, accompanied
from tabforge.compile.durations import length_of, value_of
from tabforge.compile.necksettings import fretting_in_force, partial_capo, tuning_in_force
from tabforge.compile.report import Report
from tabforge.compile.scales import scale_in_force
from tabforge.diagnostics import nearest
from tabforge.diagnostics.catalogue import music
from tabforge.fretboard.instruments import (
    INSTRUMENTS,
    find_instrument,
    instrument_names,
    neck_of,
)
from tabforge.fretboard.neck import Neck
from tabforge.fretboard.players import PLAYERS, Player
from tabforge.model.meter import Meter, Swing, Tempo
from tabforge.model.score import Scale
from tabforge.model.tuning import Instrument, Tuning
from tabforge.model.values import BY_LETTER, NoteValue
from tabforge.syntax.document import Settings, Study, TempoSetting
from tabforge.syntax.origins import Pointer
from tabforge.theory.intervals import Interval

FOUR_FOUR = Meter(groups=(4,), unit=4)


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """The settings in force. ``move`` is the interval the whole study is moved by; None in its own key.

    ``partial_capo`` is a fret and the strings a capo lies on; the neck knows nothing of it.
    """

    instrument: Instrument
    neck: Neck
    partial_capo: tuple[int, tuple[int, ...]] | None = None
    scale: Scale | None = None
    meter: Meter = FOUR_FOUR
    tempo: Tempo | None = None
    swing: Swing | None = None
    pickup: Fraction = Fraction(0)
    move: Interval | None = None
    player: Player = PLAYERS["usual"]
    shows_fingers: bool = False
    strokes: str = "written"
    beside: Accompaniment = ALONE

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
    frame = Frame(instrument=instrument, neck=neck_of(instrument, instrument.tuning, 0, instrument.fretting), move=move)
    return changed(frame, study, (), report)


def changed(frame: Frame, settings: Settings, at: Pointer, report: Report) -> Frame:
    """The frame with what a header or a block says."""
    frame = _tuned(frame, settings, at, report)
    if "meter" in settings:
        frame = replace(frame, meter=meter_of(settings["meter"]))
    if "tempo" in settings:
        frame = replace(frame, tempo=tempo_of(settings["tempo"], frame.meter))
    if "player" in settings:
        frame = replace(frame, player=PLAYERS[settings["player"]])
    if "fingering" in settings:
        frame = replace(frame, shows_fingers=settings["fingering"] == "show")
    if "strokes" in settings:
        frame = replace(frame, strokes=settings["strokes"])
    if "swing" in settings:
        frame = replace(frame, swing=_swing(settings))
    beside = accompanied(frame.beside, settings, at)
    if beside is not frame.beside:
        frame = replace(frame, beside=beside)
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


def _tuned(frame: Frame, settings: Settings, at: Pointer, report: Report) -> Frame:
    """The frame with the neck, the capo and the partial capo that are set."""
    tuning, capo, fretting = frame.tuning, frame.capo, frame.neck.fretting
    if "tuning" in settings:
        tuning = tuning_in_force(frame.instrument, settings["tuning"], (*at, "tuning"), report) or tuning
    if "fretting" in settings:
        fretting = fretting_in_force(frame.instrument, settings["fretting"], (*at, "fretting"), report)
    partial = frame.partial_capo
    if "capo" in settings:
        given = settings["capo"]
        capo, partial = (given, None) if isinstance(given, int) else (0, (given["fret"], tuple(given["strings"])))
    if (tuning, capo, fretting) != (frame.tuning, frame.capo, frame.neck.fretting):
        frame = replace(frame, neck=neck_of(frame.instrument, tuning, capo, fretting))
    if partial and ("capo" in settings or "tuning" in settings):
        partial = partial_capo(partial, len(tuning), (*at, "capo" if "capo" in settings else "tuning"), report)
    return replace(frame, partial_capo=partial) if partial != frame.partial_capo else frame


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
