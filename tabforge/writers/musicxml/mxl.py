"""Compressed MusicXML: a ZIP archive as the MusicXML 4.0 specification describes it ("Compressed .MXL files").

``mimetype`` comes first and is stored as it is; ``META-INF/container.xml`` names the root file. All times are the earliest ZIP knows, so
the same score gives the same bytes.
"""

from __future__ import annotations

from io import BytesIO
from typing import Final

from tabforge.model.score import Score
from tabforge.writers.loss import Loss
from tabforge.writers.musicxml import write as write_plain
from tabforge.writers.options import DEFAULTS, WriteOptions

MIMETYPE: Final = "application/vnd.recordare.musicxml"
ROOT: Final = "score.musicxml"

_CONTAINER: Final = (
    '<?xml version="1.0" encoding="UTF-8"?>\n<container>\n<rootfiles>\n'
    f'<rootfile full-path="{ROOT}" media-type="application/vnd.recordare.musicxml+xml"/>\n</rootfiles>\n</container>\n'
)
_EARLIEST: Final = (1980, 1, 1, 0, 0, 0)


def write(score: Score, options: WriteOptions = DEFAULTS) -> tuple[bytes, tuple[Loss, ...]]:
    """The score as a compressed MusicXML file, and what it could not carry."""
    document, losses = write_plain(score, options)
    return packed(document), losses


def packed(document: bytes) -> bytes:
    """A MusicXML document as a compressed file."""
    from zipfile import ZIP_DEFLATED, ZIP_STORED, ZipFile, ZipInfo  # noqa: PLC0415  # only this format pays for the import

    buffer = BytesIO()
    with ZipFile(buffer, "w") as archive:
        for name, content, method in (
            ("mimetype", MIMETYPE.encode(), ZIP_STORED),
            ("META-INF/container.xml", _CONTAINER.encode(), ZIP_DEFLATED),
            (ROOT, document, ZIP_DEFLATED),
        ):
            entry = ZipInfo(name, _EARLIEST)
            entry.compress_type = method
            entry.create_system = 3
            entry.external_attr = 0o644 << 16
            archive.writestr(entry, content)
    return buffer.getvalue()
