"""What engraved pages cost: sixteen bars as they are written in studies, in milliseconds of this process.

In the same run: our MusicXML and its stripping, verovio on the stripped document (reading and drawing), everything of ours after that; and
verovio alone on the whole document, which is what a page without our marks would cost. Run it: ``python -m tests.bench.bench_pages``, with
a number of bars if you like.
"""

from __future__ import annotations

import sys
import time
from collections.abc import Callable

from tabforge.model.score import Score
from tabforge.pages import Engraver, PageOptions, engrave
from tabforge.pages.stripping import stripped
from tabforge.pipeline import export, study_from

OPTIONS = PageOptions()


class _Timed(Engraver):
    """An engraver that remembers how long it has drawn."""

    def __init__(self) -> None:
        super().__init__()
        self.seconds = 0.0

    def draw(self, document: str, width: float, *, told: bool, numbers: bool) -> list[str]:
        begun = time.process_time()
        pages = super().draw(document, width, told=told, numbers=numbers)
        self.seconds += time.process_time() - begun
        return pages


def study(bars: int) -> Score:
    """Riffs, runs and marks in the manner of the examples, in that many bars."""
    body = " | ".join(_BARS[index % len(_BARS)][0] for index in range(bars))
    frets = " | ".join(_BARS[index % len(_BARS)][1] for index in range(bars))
    marks = " | ".join(_BARS[index % len(_BARS)][2] for index in range(bars))
    text = f'title Bench\nscale A2 minor\ntempo 96\n\nriff "Bench"\n  rhythm {body}\n  frets {frets}\n  marks {marks}\n'
    score = study_from("bench.riff", text.encode()).score
    assert score is not None
    return score


_BARS = (
    ("e e e e e e q", "6:5 8 5:5 7 4:5 7 3:5", "h . h . h . v"),
    ("e e s s s s q q", "5:0 0 5:2 3 5 3 5:0+4:2+3:2 5:0+4:2+3:2", "pm - h . p . ac lr"),
    ("e e e e h", "2:8 2:5 3:7 3:5 3:7", "b1 . p . b1r"),
    ("3(e e e) q q q", "1:12 8 5 2:8 5 3:5", "p . . ss . ."),
)
"""Bars of rhythm, frets and marks."""


def best(run: Callable[[], object], times: int = 7) -> float:
    """The shortest of some runs, in milliseconds."""
    found = []
    for _ in range(times):
        begun = time.process_time()
        run()
        found.append(time.process_time() - begun)
    return min(found) * 1e3


def measure(bars: int) -> dict[str, float]:
    """Milliseconds of each part, and our work as parts of verovio's."""
    score, engraver = study(bars), _Timed()
    engrave(score, OPTIONS, engraver)
    drawing, whole = [], []
    for _ in range(9):
        engraver.seconds = 0.0
        begun = time.process_time()
        engrave(score, OPTIONS, engraver)
        whole.append((time.process_time() - begun) * 1e3)
        drawing.append(engraver.seconds * 1e3)
    written = best(lambda: export(score, "musicxml"))
    prepared = best(lambda: stripped(score))
    document = export(score, "musicxml")[0].decode()
    plain = best(lambda: Engraver.draw(engraver, document, OPTIONS.width / OPTIONS.space * 180, told=False, numbers=True))
    verovio = min(drawing)
    ours = min(all_ - one for all_, one in zip(whole, drawing, strict=True))
    return {
        "whole": min(whole), "MusicXML": written, "stripping": prepared - written, "verovio": verovio, "overlay": ours - prepared,
        "ours : verovio": ours / verovio, "overlay : verovio": (ours - prepared) / verovio,
        "verovio on the whole document": plain, "whole : that": min(whole) / plain,
        "a new Engraver": best(Engraver, 3),
    }  # fmt: skip


def main() -> None:
    for bars in [int(each) for each in sys.argv[1:]] or [4, 16, 64]:
        print(f"{bars} bars  " + "  ".join(f"{name} {value:.3g}" for name, value in measure(bars).items()))


if __name__ == "__main__":
    main()
