"""Sound to the bytes of a file: WAV by the standard library, MP3 by soundfile. Same sound, same bytes."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from contextlib import AbstractContextManager, contextmanager
from dataclasses import dataclass
from io import BytesIO
from typing import TYPE_CHECKING, Final, TypeAlias

from tabforge.sound.arrays import RATE

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from tabforge.sound.arrays import Samples

FULL: Final = 32767
"""Full scale of 16-bit samples."""

INSTALL: Final = "pip install 'tabforge[sound]'"

BITS: Final = 16

_AT_ONCE: Final = 1 << 19
"""Samples that are turned at once, to keep memory small."""


@dataclass(frozen=True, slots=True)
class Encoded:
    """A file: its bytes, its length in samples, its peak (1 is full scale)."""

    data: bytes
    samples: int
    peak: float


def missing(form: str) -> str | None:
    """What has to be installed before a form can be written, in a sentence; None if nothing has."""
    lacking = []
    try:
        import numpy  # noqa: F401, PLC0415
    except ImportError:
        lacking.append("numpy")
    if form == "mp3":
        try:
            import soundfile  # type: ignore[import-untyped]  # noqa: F401, PLC0415  # it has no types of its own
        except (ImportError, OSError):  # OSError: its library of C is not there
            lacking.append("soundfile")
    return f"Practice tracks need {' and '.join(lacking)}. Install with: {INSTALL}" if lacking else None


def encode(form: str, pieces: Iterable[Samples]) -> Encoded:
    """Write pieces of sound, one after another, as ``wav`` or ``mp3``: mono, 16 bits before any compression."""
    import numpy as np  # noqa: PLC0415

    buffer = BytesIO()
    count = peak = 0
    with _WRITERS[form](buffer) as write:
        for piece in pieces:
            for start in range(0, len(piece), _AT_ONCE):
                whole = np.rint(piece[start : start + _AT_ONCE] * np.float32(FULL)).clip(-FULL, FULL).astype("<i2")
                write(whole)
                count += len(whole)
                peak = max(peak, int(whole.max()), -int(whole.min()))
    return Encoded(buffer.getvalue(), count, peak / FULL)


_Write: TypeAlias = "Callable[[NDArray[np.int16]], object]"


@contextmanager
def _wav(buffer: BytesIO) -> Iterator[_Write]:
    import wave  # noqa: PLC0415

    with wave.open(buffer, "wb") as file:
        file.setnchannels(1)
        file.setsampwidth(BITS // 8)
        file.setframerate(RATE)
        yield lambda whole: file.writeframes(whole.tobytes())


@contextmanager
def _mp3(buffer: BytesIO) -> Iterator[_Write]:
    import soundfile  # noqa: PLC0415

    form = {"format": "MP3", "subtype": "MPEG_LAYER_III", "bitrate_mode": "VARIABLE", "compression_level": 0.3}
    with soundfile.SoundFile(buffer, "w", RATE, 1, **form) as file:
        yield file.write


_WRITERS: Final[dict[str, Callable[[BytesIO], AbstractContextManager[_Write]]]] = {"wav": _wav, "mp3": _mp3}

FORMS: Final = tuple(_WRITERS)
"""The forms of a track."""
