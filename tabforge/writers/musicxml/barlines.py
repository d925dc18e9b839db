"""Bar lines, repeats and ending brackets."""

from __future__ import annotations

from typing import Final

from tabforge.model.score import BarLine

_STYLES: Final = {"regular": "", "double": "light-light", "final": "light-heavy"}


def barline(line: BarLine, location: str, *, otherwise: str = "") -> str:
    """The ``barline`` element at "left" or "right" of a bar, or nothing for an ordinary line.

    ``otherwise`` is the ``bar-style`` of a line that has none of its own.
    """
    style = _STYLES[line.style] or otherwise
    repeat = ""
    if line.repeat is not None:
        style = "heavy-light" if line.repeat == "forward" else "light-heavy"
        times = f' times="{line.times}"' if line.repeat == "backward" and line.times != 2 else ""
        repeat = f'<repeat direction="{line.repeat}"{times}/>'
    ending = ""
    if line.endings:
        numbers = ",".join(map(str, line.endings))
        kind = "start" if location == "left" else "stop" if line.hooked else "discontinue"
        shown = f"{numbers}." if location == "left" else ""
        ending = f'<ending number="{numbers}" type="{kind}">{shown}</ending>' if shown else f'<ending number="{numbers}" type="{kind}"/>'
    if not (style or ending):
        return ""
    drawn = f"<bar-style>{style}</bar-style>" if style else ""
    return f'<barline location="{location}">{drawn}{ending}{repeat}</barline>\n'
