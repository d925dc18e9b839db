"""Invented studies whose tab is stored and was read by a player: each shows one corner of the format as it is used."""

from __future__ import annotations

from dataclasses import replace

from tabforge.model.meter import Swing
from tabforge.model.score import BarLine, Score
from tabforge.model.tuning import Instrument
from tabforge.model.values import BY_LETTER
from tests.writers.ascii.build import bar, event, phrase, scale, score, section, tempo, tuning, tuplet

FORWARD = BarLine(repeat="forward")
FINAL = BarLine(style="final")


def climb() -> Score:
    """Three notes per string up and back, in two keys."""
    steps = (
        "e 6:{0}, e 6:{2}, e 6:{4}, e 5:{1}, e 5:{2}, e 5:{4}, e 4:{1}, e 4:{2}"
        " | e 4:{4}, e 3:{1}, e 3:{3}, e 3:{4}, e 2:{2}, e 2:{4}, e 2:{5}, e 1:{2}"
        " | e 1:{4}, e 1:{2}, e 2:{5}, e 2:{4}, e 2:{2}, e 3:{4}, e 3:{3}, e 3:{1} | h 4:{4}, h r"
    )
    bb = scale("Bb2", "lydian", "Bb C D E F G A")
    f = scale("F2", "lydian", "F G A B C D E")
    return replace(
        score(
            section("Climb in Bb", *phrase(steps.format(*range(6, 12))), scale=bb),
            section("Climb in F", *phrase(steps.format(*range(1, 7))), scale=f),
            title="Lantern Bay",
            text=(
                "Three notes on every string. Keep the first finger on its fret until the hand has to move, and let the "
                "raised fourth ring a little: it is the note that tells Lydian from major.",
            ),
        ),
        subtitle="A study for the second week",
        author="the Kiln Street workshop",
    )


def undertow() -> Score:
    """A palm-muted riff in a dropped tuning: power chords, dead notes, a pull-off, a bend with its release."""
    dropped = tuning("D2 A2 D3 G3 B3 E4", "drop d")

    def b(*events, **more):  # type: ignore[no-untyped-def]
        return bar(*events, strings=dropped, **more)

    return score(
        section(
            "Undertow",
            b(
                "e 6:0 pm< s:d", "e 6:0 pm- s:d", "s 6:0 pm- s:d", "s 6:0 pm> s:u", "e 6:3+5:3+4:3 ac s:d",
                "e x6:0+x5:0+x4:0 s:u", "e 6:5+5:5+4:5 ac s:d", "e 6:0 pm< s:u", "e 6:0 pm> s:d",
                left=FORWARD,
            ),
            b(
                "e 6:0 pm< s:d", "e 6:0 pm- s:d", "s 6:0 pm- s:d", "s 6:0 pm> s:u", "e 6:7+5:7+4:7 ac s:d",
                "e 5:5 p", "e 5:3", "q 6:3 b1/2r",
                right=BarLine(repeat="backward", times=4),
            ),
            b("h 6:0+5:0+4:0 lr<", "q =6:0+=5:0+=4:0 lr>", "q r", right=FINAL),
            strings=dropped,
            scale=scale("D2", "phrygian", "D Eb F G A Bb C"),
        ),
        title="Undertow",
    )  # fmt: skip


def tide_table() -> Score:
    """Two voices, plucked: a melody over the thumb, chord symbols, fingers of both hands."""
    return score(
        section(
            "Tide table",
            bar("q 1:0 c:C p:a f:4", "q 2:3 p:m f:4", "q 1:0 p:a", "e 1:1 p:m f:1", "e 1:3 p:a f:4", below=["h 5:3 p:p f:3", "h 3:0 p:p"]),
            bar("q. 1:0 c:Am7 p:a", "e 2:1 p:m f:1", "h 3:0 p:i", below=["q r", "q 5:0 p:p", "h 4:2 p:p f:2"]),
            bar("h 2:3+1:1 c:Dm7", "h =2:3+1:0", below=["q. 4:0 p:p", "e 3:2 p:i", "q 4:0 p:p", "q 3:2 p:i"]),
            bar("w 3:0+2:1+1:0 c:C/E ar/ fm", below=["w 6:0 p:p"], right=FINAL),
        ),
        title="Tide table",
    )


def ferry_steps() -> Score:
    """A pickup, a repeat with two endings, words, and a change of meter."""
    end = BarLine(repeat="backward", endings=(1,))
    return score(
        section(
            "Ferry steps",
            bar("e 3:0 w:The", partial=True),
            bar("q 3:2 w:fer-", "q 2:0 w:ry", "q 2:1 w:steps", "q 2:3 w:are", left=FORWARD),
            bar("h 2:1 w:worn", "q 2:0 w:and", "q 3:2 w:grey"),
            bar("q 3:0 w:till", "q 3:2 w:the", "q. 4:2 w:tide", "e 3:0 w:The", left=BarLine(endings=(1,)), right=end),
            bar("q 3:0 w:till", "q 3:2 w:the", "h 4:3 w:tide", left=BarLine(endings=(2,))),
            bar("h. 3:0 w:turns.", time="3/4", right=BarLine(style="final", endings=(2,), hooked=False), tempo=tempo(72, "q", "Slower")),
            scale=scale("C3", "major", "C D E F G A B"),
        ),
        title="Ferry steps",
    )


BASS = Instrument(
    name="bass", label="Bass guitar", tuning=tuning("E1 A1 D2 G2", "standard"), frets=24, scale_length=864.0, clef="F", clef_line=4,
    clef_octave=-1, program=34,
)  # fmt: skip


def kiln_walk() -> Score:
    """A bass groove in 12/8: dotted beats, rests, dead notes, ties over the bar line."""
    return score(
        section(
            "Groove",
            bar(
                "q 4:3", "e x4:0", "q 3:5", "e x3:0", "q 4:3", "e 3:3", "e 3:5", "e 2:3", "e 2:5",
                time="12/8", tempo=tempo(112, "q."), strings=BASS.tuning,
            ),
            bar("q. 4:3", "e r", "e 3:5", "e 3:5 h", "q. 3:7", "q. 4:3", time="12/8", strings=BASS.tuning),
            bar("q. =4:3", "q. 2:5 sl", "q. 2:7 v<", "q. =2:7 v>", time="12/8", strings=BASS.tuning, right=FINAL),
            strings=BASS.tuning,
        ),
        title="Kiln walk",
        instrument=BASS,
    )  # fmt: skip


UKULELE = Instrument(
    name="ukulele", label="Ukulele", tuning=tuning("G4 C4 E4 A4", "standard"), frets=18, scale_length=345.0, clef="G", clef_line=2,
    clef_octave=0, program=25,
)  # fmt: skip


def porch_light() -> Score:
    """A re-entrant tuning, strummed, with swing and a capo."""

    def strum(c: str, frets: str) -> list[str]:
        return [f"q {frets} c:{c} s:d", f"e {frets} s:d", f"e {frets} s:u", "e r", f"e {frets} s:u", f"e {frets} s:d", f"e {frets} s:u"]

    return score(
        section(
            "Porch light",
            bar(*strum("C", "1:3+2:0+3:0+4:0"), strings=UKULELE.tuning, tempo=tempo(104)),
            bar(*strum("Am", "1:0+2:0+3:0+4:2"), strings=UKULELE.tuning),
            bar(*strum("F", "1:0+2:1+3:0+4:2"), strings=UKULELE.tuning, right=BarLine(style="double")),
            bar("w 1:2+2:3+3:2+4:0 c:G7 tp3", strings=UKULELE.tuning, right=FINAL),
            strings=UKULELE.tuning,
            capo=2,
            swing=Swing(value=BY_LETTER["e"]),
        ),
        title="Porch light",
        instrument=UKULELE,
    )


def signal_fire() -> Score:
    """A lead line: bends, slides, tapping, harmonics, grace notes, tuplets in tuplets."""
    inner = tuplet("3:2", event("s 1:12 p"), event("s 1:8 p"), event("s 1:5"))
    return score(
        section(
            "Signal fire",
            bar("q 3:7 b1<", "e =3:7 b1>", "e 3:7 b1r", "e 3:5 h", "e 3:7", "q 4:7 v<", tempo=tempo(132)),
            bar("h =4:7 v>", "g 2:7 sl", "q 2:8", "q 2:10 pb1/2r"),
            bar(
                tuplet("3:2", event("e 1:17 t"), event("e 1:12 p"), event("e 1:8")),
                tuplet("3:2", event("e 1:17 t"), event("e 1:13 p"), event("e 1:8")),
                tuplet("3:2", *inner, event("e 2:8 sl"), event("e 2:5")),
                "q 2:6 wv",
            ),
            bar("q 3:12+2:12+1:12 nh", "q 6:3 ph", "q 4:5 ah7", "q 5:3 th12", time="4/4"),
            bar(
                tuplet("5:4", *(event(f"s {each}") for each in ("2:10 p", "2:8", "3:9", "3:7", "4:10"))),
                "e 4:9 tr1", "s r", "s 4:7 gh", "q 4:7 out\\",
                time="3/4",
            ),
            bar("q 3:5 ss", "q 3:9 st", "q 1:20 b2 in/", time="3/4", right=FINAL),
            scale=scale("A2", "minor pentatonic", "A C D E G"),
        ),
        title="Signal fire",
    )  # fmt: skip


def long_bar() -> Score:
    """Twelve strings and a bar that no line holds."""
    strings = tuning("C2 C3 G2 G3 D3 D4 F3 F4 A3 A3 D4 D4")
    events = [event(f"s {12 - i % 12}:{i % 5 + 7} pm{'<' if i == 0 else '>' if i == 29 else '-'}", strings) for i in range(30)]
    return score(section("Gull rope", bar(*events, "e 1:12+2:12", time="8/4", strings=strings), strings=strings), title="Gull rope")


def harbour_lights() -> Score:
    """A song with its way through it: chord charts, barres, dynamics, rests, segno and coda, changes of tempo."""
    double = BarLine(style="double")
    return score(
        section(
            "Harbour lights",
            bar("w r", tempo=tempo(84, "q", "Calmly"), rehearsal="A"), bar("w r"), bar("w r"), bar("w r"),
            bar("q 5:3 c:C@x32010 d:p", "e 3:0 y:<", "e 2:1", "q 1:0", "q 2:1", signs=("segno",), rehearsal="B", new_line=True),
            bar("q 6:1+4:3+3:2+2:1+1:1 c:F@133211 d:mf y:| ba1< br/", "q 4:3 ba1-", "q 3:2 ba1- y:>", "q 2:1 ba1>"),
            bar("h 5:0+4:2+3:2+2:1+1:0 c:Am@x02210 d:mp y:|< ar\\", "h 5:0+4:2+3:0+2:1+1:0 c:Am7@x02010", signs=("tocoda",)),
            bar("h 6:3+5:5+4:5+3:4+2:3+1:3 c:G@355433 ba3< d:f y:| ac", "h =6:3+=5:5+=4:5+=3:4+=2:3+=1:3 ba3> y:>"),
            bar("w r"), bar("w r", change="rit"),
            bar("q 4:5+3:5+2:5 c:C@x3555x hb5<", "q 4:7+3:5+2:6 hb5>", "h 4:5+3:5+2:5 fm d:pp y:|", signs=("dscoda",), right=double),
            bar("h 5:3+4:2+3:0+2:1+1:0 c:C@x32010 sw y:<.", "h 6:1+5:3+4:3+3:2 rk", signs=("coda",), change="atempo", new_line=True),
            bar("q 1:12 dip", "q 6:0 sc", "h 5:3+4:2+3:0+2:1 br\\ d:sfz", right=FINAL),
            partial_capo=(2, (5, 4, 3)),
        ),
        title="Harbour lights",
    )  # fmt: skip


def mirror() -> Score:
    """Charts for the left hand, high up the neck and on seven strings; two voices with dynamics of their own."""
    strings = tuning("B1 E2 A2 D3 G3 B3 E4")
    return score(
        section(
            "Mirror",
            bar(
                "h 1:10 c:Gm7@x.x.10.12.10.11.10 d:p", "h 1:12 c:D9@x.x.5.4.5.5.x y:<",
                below=["q 6:10 d:mf", "q 5:12", "q 6:5 y:>", "q 6:3"], strings=strings,
            ),
            bar("w 1:10 d:f y:| c:Cm@xx35543", below=["h 6:8 d:pp y:|", "h r"], strings=strings),
            bar("w r", below=["w r"], strings=strings),
            bar("w r", below=["h r", "h r"], strings=strings, signs=("fine",), right=FINAL),
            strings=strings,
        ),
        title="Mirror",
        left_handed=True,
    )  # fmt: skip


STUDIES = (climb, undertow, tide_table, ferry_steps, kiln_walk, porch_light, signal_fire, long_bar, harbour_lights, mirror)
