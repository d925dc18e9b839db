"""A study as a file of any format."""

from __future__ import annotations

from dataclasses import dataclass
from importlib.util import find_spec
from typing import Final

from tabforge.pages import PageOptions, engrave, score_page
from tabforge.performance import PlayOptions, perform
from tabforge.pipeline import export as written_as
from tabforge.service.tasks.engravers import engraver
from tabforge.service.tasks.job import Answer, CannotError, Job
from tabforge.service.tasks.studies import score_of
from tabforge.sound.options import TrackOptions
from tabforge.sound.tracks import refusal, tracks
from tabforge.writers import WRITERS


@dataclass(frozen=True, slots=True, kw_only=True)
class Format:
    """A format: its file's suffix, its media type (registered with IANA but for WAV's), and the modules and the extra that it needs."""

    name: str
    suffix: str
    media: str
    summary: str
    needs: tuple[str, ...] = ()
    extra: str = ""

    @property
    def installed(self) -> bool:
        """Whether what it needs is there."""
        return all(find_spec(each) for each in self.needs)


_MEDIA: Final = {
    "musicxml": "application/vnd.recordare.musicxml+xml",
    "mxl": "application/vnd.recordare.musicxml",
    "tab": "text/plain; charset=utf-8",
    "midi": "audio/midi",
}

FORMATS: Final[dict[str, Format]] = {
    each.name: each
    for each in (
        *(Format(name=one.name, suffix=one.suffix, media=_MEDIA[one.name], summary=one.summary) for one in WRITERS.values()),
        Format(name="svg", suffix=".svg", media="image/svg+xml", summary="Engraved on one long page", needs=("verovio",), extra="pages"),
        Format(name="wav", suffix=".wav", media="audio/wav", summary="Practice track", needs=("numpy",), extra="sound"),
        Format(name="mp3", suffix=".mp3", media="audio/mpeg", summary="Practice track", needs=("numpy", "soundfile"), extra="sound"),
    )
}
"""In the order in which they are told."""


def export(job: Job) -> Answer:
    """The study in ``options["format"]``."""
    wanted = FORMATS[job.options["format"]]
    score = score_of(job)
    if wanted.name in WRITERS:
        body = written_as(score, wanted.name)[0]
    elif wanted.name == "svg":
        page = PageOptions()
        body = score_page(score, engrave(score, page, engraver())[0], page, engraver()).encode()
    else:
        heard = perform(score, PlayOptions(count_in=None if any(section.count_in is not None for section in score.sections) else 1))
        options = TrackOptions(form="wav" if wanted.name == "wav" else "mp3")
        why = refusal(heard, options)
        if why:
            raise CannotError(why)
        body = next(iter(tracks(heard, options))).data
    return Answer(body=body, media=wanted.media, suffix=wanted.suffix)
