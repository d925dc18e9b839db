"""Practice tracks: what ``tabforge tracks`` does with its arguments."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Final, Literal

from tabforge.cli import disk
from tabforge.cli.choosing import chosen
from tabforge.cli.exits import Exits, worst
from tabforge.cli.outputs import clashes, target
from tabforge.cli.reporting import findings
from tabforge.cli.screen import fail, reason, tell
from tabforge.cli.studies import STDIN, Study, find, read_bytes, read_stdin, shown
from tabforge.model.score import Score
from tabforge.performance import PlayOptions, perform
from tabforge.performance.ladder import Misread, read_ladder
from tabforge.performance.model import Performance
from tabforge.pipeline import study_from
from tabforge.sound.drone import with_drone
from tabforge.sound.encode import missing
from tabforge.sound.options import LINE, STEMS, TrackOptions
from tabforge.sound.tracks import Track, refusal, spoken, tracks

USUAL_FOLDER: Final = Path("tracks")

CAUTION: Final = (
    "Start playback at a low volume, most of all in headphones, and turn it up slowly. Take breaks. "
    "If your ears ring or hurt, stop, and ask a clinician."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What the command line asks for; None where it does not say."""

    into: Path | None
    ladder: str
    times: int
    split: bool
    stems: bool
    to: Literal["wav", "mp3"]
    a4: float
    block: str | None
    line: bool
    drone: bool | None
    vamp: bool
    click: bool | None
    count_in: int | None
    quiet: bool

    def options(self) -> TrackOptions:
        """The same as the sound room wants it. A ladder that is none ends the command."""
        rungs = read_ladder(self.ladder)
        if isinstance(rungs, Misread):
            fail(rungs.why, Exits.USAGE)
        unwanted = {LINE: not self.line, "drone": self.drone is False, "vamp": not self.vamp}
        return TrackOptions(
            ladder=rungs, times=self.times, a4=self.a4, parts=tuple(part for part in STEMS if not unwanted.get(part)),
            stems=self.stems, split=self.split, form=self.to,
        )  # fmt: skip


def make(asked: Asked, paths: Sequence[str]) -> Exits:
    """Make the tracks of files and folders."""
    options = asked.options()
    lacking = missing(options.form)
    if lacking:
        fail(lacking, Exits.USAGE)
    into = asked.into or USUAL_FOLDER
    if STDIN in paths:
        if len(paths) > 1:
            fail("Standard input (-) is made alone, not together with files.", Exits.USAGE)
        codes = [_study(asked, options, Study.stdin(), read_stdin(), into)]
    else:
        codes = _files(asked, options, paths, into)
    if Exits.FINE in codes and not asked.quiet:
        tell(CAUTION)
    other = [code for code in codes if code is not Exits.USAGE]
    return worst(*other) if any(other) or Exits.USAGE not in codes else Exits.USAGE


def _files(asked: Asked, options: TrackOptions, paths: Sequence[str], into: Path) -> list[Exits]:
    search = find(paths, skipped=into)
    said = clashes(search.studies, into)
    if said:
        fail("\n".join([*said, "Nothing was made: rename one of each two, or write them to different folders."]), Exits.USAGE)
    if asked.block is not None and len(search.studies) > 1:
        fail("--block names a block of one study: give one.", Exits.USAGE)
    codes = []
    for trouble in search.troubles:
        tell(trouble)
        codes.append(Exits.FILES)
    for study in search.studies:
        try:
            data = read_bytes(study.path)
        except OSError as error:
            tell(f"{shown(study.path)} cannot be read: {reason(error)}.")
            codes.append(Exits.FILES)
        else:
            codes.append(_study(asked, options, study, data, into))
    return codes


def _study(asked: Asked, options: TrackOptions, study: Study, data: bytes, into: Path) -> Exits:
    outcome = study_from(study.name, data)
    report = findings(outcome, asked.quiet)
    if report:
        tell(report)
    if outcome.score is None:
        return Exits.ERRORS
    performance, name = _played(asked, outcome.score)
    why = refusal(performance, options)
    if why:
        tell(f"{shown(study.path)}: no track is made. {why}")
        return Exits.USAGE
    for track in tracks(performance, options):
        path = target(study, _ending(name, track, options), into)
        try:
            same = disk.same(path, track.data)
            if not same:
                disk.write(path, track.data)
        except OSError as error:
            tell(f"{shown(path)} cannot be written: {reason(error)}.")
            return Exits.FILES
        if not asked.quiet:
            done = "is as it should be" if same else "written"
            tell(f"{shown(path)} {done}: {spoken(track.seconds)}, peak {track.peak:.1f} dBFS")
    return Exits.FINE


def _played(asked: Asked, score: Score) -> tuple[Performance, str]:
    """What is heard of a study, and what is added to its files' names."""
    wanted, name = None, ""
    if asked.block is not None:
        section = chosen(score, asked.block)
        wanted = (next(number for number, each in enumerate(score.sections) if each is section),)
        name = "-" + (re.sub(r"\W+", "-", section.title.lower()).strip("-") or str(wanted[0] + 1))
    says = any(section.count_in is not None for section in score.sections)
    count_in = asked.count_in if asked.count_in is not None or says else 1
    play = PlayOptions(sections=wanted, click=asked.click, count_in=count_in)
    performance = perform(score, play)
    if asked.drone:
        beats = perform(score, replace(play, click=True)).clicks
        bars = [click.tick for click in beats if click.accent and not click.counting]
        roots = {number: section.scale.root.midi for number, section in enumerate(score.sections) if section.scale is not None}
        if not {passage.section for passage in performance.passages} <= roots.keys():
            tell("A drone stands on the root of a scale: a block without a scale has none.")
        performance = with_drone(performance, roots, bars)
    return performance, name


def _ending(name: str, track: Track, options: TrackOptions) -> str:
    """What a track's file is called after its study: block, rung, part and form."""
    rung = ""
    if track.percent is not None:  # with noughts before it, so that the files stand in order
        whole, _, part = f"{track.percent:g}".partition(".")
        rung = f".{whole:0>3}{part and f'_{part}'}"
    stem = f".{track.stem}" if track.stem is not None else ""
    return f"{name}{rung}{stem}.{options.form}"
