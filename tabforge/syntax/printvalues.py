"""Values of settings as text."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, Final

from tabforge.syntax.document import (
    CapoSetting,
    DroneSetting,
    LayoutSetting,
    ScaleSetting,
    SwingSetting,
    TempoSetting,
    VampSetting,
    VoicingSetting,
)
from tabforge.syntax.grammar import INVERSIONS

# A document's values are JSON; each function below takes the one its setting has.


def _number(number: float) -> str:
    return str(int(number)) if number == int(number) else f"{number:.2f}".rstrip("0")


def _words(value: Any) -> str:
    return value if isinstance(value, str) else " ".join(str(part) for part in value)


def _fretting(value: str | list[float]) -> str:
    return value if isinstance(value, str) else " ".join(map(_number, value))


def _scale(value: ScaleSetting) -> str:
    for kind in ("steps", "semitones", "degrees"):
        if kind in value:
            name = f' "{value["name"]}"' if "name" in value else ""
            return f"{value['root']}{name} {kind} {_words(value[kind])}"
    return f"{value['root']} {value['name']}"


def _capo(value: int | CapoSetting) -> str:
    return str(value) if isinstance(value, int) else f"{value['fret']} on {_words(value['strings'])}"


def _tempo(value: TempoSetting) -> str:
    words = f'"{value["words"]}" ' if "words" in value else ""
    beat = f"{value['beat']}=" if "beat" in value else ""
    return f"{words}{beat}{_number(value['bpm'])}"


def _swing(value: str | SwingSetting) -> str:
    if isinstance(value, str):
        return value
    return value["value"] + (" {}:{}".format(*value["ratio"]) if "ratio" in value else "")


def _layout(value: LayoutSetting) -> str:
    kind = value["kind"]
    if kind in ("per string", "diagonal", "fragment"):
        count = f"{value['count']} per string" if "count" in value else ""
        name = "" if kind == "per string" else kind
        text = f"{' '.join(filter(None, (name, count)))} from string {value['from']}"
        text += f" to string {value['to']}" if "to" in value else ""
        text += f" fret {value['fret']}" if "fret" in value else ""
        return text + (f" degree {value['degree']}" if "degree" in value else "")
    if kind == "shape":
        return f"shape {value['shape']}" + (f" fret {value['fret']}" if "fret" in value else "")
    if kind == "position":
        return f"position {value['fret']}"
    return f"string {value['string']}" if kind == "string" else kind


def _voicing(value: VoicingSetting) -> str:
    strings = f" on {_words(value['strings'])}" if "strings" in value else ""
    return value["kind"] + strings + (f" {INVERSIONS[value['inversion']]}" if "inversion" in value else "")


def _drone(value: str | DroneSetting) -> str:
    return value if isinstance(value, str) else "+".join(value["degrees"]) + _every(value)


def _vamp(value: str | VampSetting) -> str:
    if isinstance(value, str):
        return value
    chords = value["chords"]
    return (chords if isinstance(chords, str) else " | ".join(chords)) + _every(value)


def _every(value: DroneSetting | VampSetting) -> str:
    return f" every {value['every']}" if "every" in value else ""


_PRINTERS: Final[dict[str, Callable[[Any], str]]] = {
    "fretting": _fretting,
    "capo": _capo,
    "octaves": _number,
    "scale": _scale,
    "tempo": _tempo,
    "swing": _swing,
    "layout": _layout,
    "path": ", ".join,
    "voicing": _voicing,
    "drone": _drone,
    "vamp": _vamp,
    "count-in": _number,
}


def printed(word: str, value: Any) -> str:
    """The value of a setting as it is written behind its word."""
    return _PRINTERS.get(word, _words)(value)
