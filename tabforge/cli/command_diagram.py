"""``tabforge diagram``."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated, Literal

import typer


def _instruments() -> list[str]:
    from tabforge.fretboard.instruments import INSTRUMENTS  # noqa: PLC0415

    return list(INSTRUMENTS)


def command(
    what: Annotated[
        list[str],
        typer.Argument(metavar="WHAT", help="A study and the name of a block, a scale on its root, or the word chord and a symbol."),
    ],
    form: Annotated[
        Literal["text", "svg"] | None, typer.Option("--as", help="Text, or an SVG picture. Text if not given, but SVG into a file *.svg.")
    ] = None,
    into: Annotated[Path | None, typer.Option("--into", metavar="FILE", help="The file to write to; standard output if not given.")] = None,
    label: Annotated[
        Literal["degree", "note", "finger"] | None,
        typer.Option("--label", help="What notes are labelled with: the degree if not given, or the note where there is no root."),
    ] = None,
    frets: Annotated[
        str | None, typer.Option("--frets", metavar="FRETS", help="These frets alone: 5-9; 0-4 with open strings. Chord: where to look.")
    ] = None,
    left: Annotated[
        bool | None, typer.Option("--left/--right", help="For a player who frets with the right hand. A study says so itself.")
    ] = None,
    layout: Annotated[
        str | None,
        typer.Option("--layout", metavar="LAYOUT", help='Scale: a layout as a run has it: "position 5"; else the whole neck.'),
    ] = None,
    tones: Annotated[str | None, typer.Option("--tones", metavar="DEGREES", help='Scale: these degrees alone: "1 3 5".')] = None,
    shape: Annotated[
        str | None, typer.Option("--shape", metavar="SHAPE", help="Chord: this grip, from the lowest string: x32010.")
    ] = None,
    grips: Annotated[
        int | None, typer.Option("--grips", min=1, max=12, help="Chord: how many grips to find, the best first; 3 if not given.")
    ] = None,
    voicing: Annotated[
        Literal["open", "barre", "shell", "triads", "drop 2", "drop 3", "spread", "power", "free"] | None,
        typer.Option("--voicing", help="Chord: grips of this voicing, with fingers."),
    ] = None,
    strings: Annotated[str | None, typer.Option("--strings", metavar="STRINGS", help='With --voicing: on these alone: "3 2 1".')] = None,
    inversion: Annotated[
        int | None, typer.Option("--inversion", min=0, max=3, help="With --voicing: 0 has the root in the bass, 1 the third, and so on.")
    ] = None,
    fingers: Annotated[
        str | None,
        typer.Option("--fingers", metavar="FINGERS", help='With --layout, a pattern: "1 2 4"; with --shape, one a string: ".32.1.".'),
    ] = None,
    instrument: Annotated[
        str | None,
        typer.Option("--instrument", metavar="NAME", help="Scale, chord: guitar if not given.", autocompletion=_instruments),
    ] = None,
    tuning: Annotated[
        str | None, typer.Option("--tuning", metavar="TUNING", help='Scale, chord: by its name, or by pitches: "D2 A2 D3 G3 A3 D4".')
    ] = None,
    capo: Annotated[str | None, typer.Option("--capo", metavar="FRET", help="Scale, chord: the capo's fret.")] = None,
    width: Annotated[int | None, typer.Option("--width", min=40, max=1000, help="Text: characters in a line; 80 if not given.")] = None,
    bare: Annotated[
        bool, typer.Option("--bare", help="SVG: no paper, lines in the text's own colour, for a picture that is put into a web page.")
    ] = False,
    quiet: Annotated[bool, typer.Option("--quiet", "-q", help="Say nothing but errors.")] = False,
) -> None:
    """Draw what a block plays, a scale or a chord's grips on the neck.

    For example: diagram Bb2 lydian --layout "3 per string from string 6", diagram chord C/E,
    diagram chord Cmaj7 --voicing "drop 2", diagram lantern.riff Climb --as svg.
    """
    from tabforge.cli.diagramming import draw  # noqa: PLC0415
    from tabforge.cli.diagramming.asked import Asked  # noqa: PLC0415

    raise typer.Exit(
        draw(
            Asked(
                what=tuple(what), form=form, into=into, labels=label, frets=frets, left=left, layout=layout, tones=tones, shape=shape,
                grips=grips, voicing=voicing, strings=strings, inversion=inversion, fingers=fingers, instrument=instrument,
                tuning=tuning, capo=capo, width=width, bare=bare, quiet=quiet,
            )
        )
    )  # fmt: skip
