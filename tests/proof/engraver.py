"""Our MusicXML loaded by an independent engraver, verovio: it must read the document whole and draw every page."""

from __future__ import annotations

import os
import tempfile

KNOWN_LIMITS = ("Adding 'artic' to a 'tabGrp'",)
"""Errors verovio 6.4 reports for what the standard has and it does not draw: technique letters and bends on a TAB staff."""


def complaints(document: bytes) -> list[str]:
    """Why verovio could not load or draw a document: errors beyond its known limits, and what it warns of while it reads.

    Its warnings about drawing (let ring on a last note, crowded bars) are no matter of the document.
    """
    import verovio

    verovio.enableLog(verovio.LOG_WARNING)
    toolkit = verovio.toolkit()
    toolkit.setOptions({"pageHeight": 60000, "adjustPageHeight": True, "xmlIdChecksum": True})
    with tempfile.TemporaryFile() as log:
        # The engraver writes its log to the process's standard error, past Python's sys.stderr.
        kept = os.dup(2)
        os.dup2(log.fileno(), 2)
        try:
            loaded = toolkit.loadData(document.decode())
            drawn = [toolkit.renderToSVG(page) for page in range(1, toolkit.getPageCount() + 1)] if loaded else []
        finally:
            os.dup2(kept, 2)
            os.close(kept)
        log.seek(0)
        said = log.read().decode(errors="replace").splitlines()
    lines = [line for line in said if line.startswith(("[Error]", "[Warning] MusicXML import"))]
    lines = [line for line in lines if not any(known in line for known in KNOWN_LIMITS)]
    if not loaded:
        return ["verovio does not load the document", *lines]
    return lines + [f"page {number} is empty" for number, svg in enumerate(drawn, 1) if "<use" not in svg]
