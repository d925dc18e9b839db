"""What building a book costs: 500 exercises of generated studies, in seconds of real runs of the program and ratios of the same run.

Cold with one process and with two, without a change, after one change; the peak memory of each; and, in this process, what making an
exercise takes beside verovio's own time for its pages. Run it: ``python -m tests.bench.bench_book``, with a number of exercises and forms
if you like (``500 zip html pdf``; ``zip`` alone has no pages and is measured with them all the same in the last figure).
"""

from __future__ import annotations

import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from tabforge.book.making import Making, make
from tabforge.book.model import Exercise, StudyOptions
from tabforge.book.packing import pack
from tests.bench.bench_pages import _Timed
from tests.bench.studies import study_text

ROOT = Path(__file__).parents[2]
NOTES = 100
"""Columns of music in a study: some sixteen bars, four lines on paper."""


def write_book(folder: Path, exercises: int) -> Path:
    """A book of so many studies, twenty to a chapter."""
    lines = ["book = 1", 'title = "Bench"']
    for number in range(exercises):
        if number % 20 == 0:
            lines += ["[[chapters]]", f'title = "Chapter {number // 20 + 1}"']
        text, _ = study_text(NOTES, seed=number)
        (folder / f"s{number:03}.riff").write_text(text)
        lines += ["[[chapters.studies]]", f'file = "s{number:03}.riff"', "diagrams = true"]
    manifest = folder / "bench.toml"
    manifest.write_text("\n".join(lines) + "\n")
    return manifest


def run(folder: Path, *options: str) -> tuple[float, float, float]:
    """Seconds by the clock and of processors, and the largest process's peak in megabytes, of one run of the program.

    A small program of its own looks on, for the system tells the peak of all children together.
    """
    watcher = (
        "import resource, subprocess, sys, time\nbegun = time.perf_counter()\ndone = subprocess.run(sys.argv[1:], capture_output=True)\n"
        "spent = time.perf_counter() - begun\nassert done.returncode == 0, done.stderr.decode()\n"
        "used = resource.getrusage(resource.RUSAGE_CHILDREN)\nprint(spent, used.ru_utime + used.ru_stime, used.ru_maxrss / 1024)"
    )
    command = [sys.executable, "-c", "from tabforge.cli import run; run()", "book", "bench.toml", *options]
    told = subprocess.run(
        [sys.executable, "-c", watcher, *command], cwd=folder, env={"PYTHONPATH": str(ROOT), "PATH": ""}, capture_output=True, check=True
    )
    wall, processor, peak = map(float, told.stdout.split())
    return wall, processor, peak


def pages(exercises: int = 12) -> dict[str, float]:
    """Milliseconds an exercise in this process, and all that is not verovio's as a part of what is."""
    engraver = _Timed()
    texts = [study_text(NOTES, seed=number)[0].encode() for number in range(exercises)]
    exercise = Exercise(id="a", number="1.1", chapter=0, file="a.riff", options=StudyOptions(diagrams=True))
    make(exercise, texts[0], Making(), engraver)
    engraver.seconds = 0.0
    begun = time.process_time()
    entries = [pack(make(exercise, text, Making(), engraver)) for text in texts]
    whole = time.process_time() - begun
    begun = time.process_time()
    for text in texts:
        make(exercise, text, Making(engraved=False))
    without = time.process_time() - begun
    verovio = engraver.seconds
    return {
        "made, ms": whole / exercises * 1e3,
        "of it verovio, ms": verovio / exercises * 1e3,
        "of it all but pages, ms": without / exercises * 1e3,
        "pages without verovio : verovio": (whole - without - verovio) / verovio,
        "all without verovio : verovio": (whole - verovio) / verovio,
        "kept, kB": sum(map(len, entries)) / exercises / 1e3,
    }


def main() -> None:
    exercises = next((int(each) for each in sys.argv[1:] if each.isdecimal()), 500)
    forms = [each for each in sys.argv[1:] if not each.isdecimal()] or ["zip", "html", "pdf"]
    to = [word for form in forms for word in ("--to", form)]
    for name, value in pages().items():
        print(f"{name:<34}{value:8.2f}")
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        write_book(folder, exercises)
        steps = {"cold, 1 process": ("one", "1"), "cold, 2 processes": ("two", "2"), "no change": ("one", "1"), "again": ("one", "1")}
        for label, (into, jobs) in steps.items():
            show(label, run(folder, *to, "--into", into, "--jobs", jobs))
        for form in forms:
            alike = (folder / "one" / f"bench.{form}").read_bytes() == (folder / "two" / f"bench.{form}").read_bytes()
            print(f"{form}: {'the same bytes' if alike else 'OTHER BYTES'} of one process and of two")
        for number, label in enumerate(("one change", "another change")):
            study = folder / f"s{number:03}.riff"
            study.write_text(study.read_text().replace("tempo 96", "tempo 97"))
            show(label, run(folder, *to, "--into", "one"))
    print(f"the bench itself: {resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024:.0f} MB")


def show(label: str, measured: tuple[float, float, float]) -> None:
    wall, processor, peak = measured
    print(f"{label:<20} {wall:7.2f} s, of processors {processor:7.2f} s, peak {peak:6.0f} MB", flush=True)


if __name__ == "__main__":
    main()
