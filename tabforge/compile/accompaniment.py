"""What goes with a block beside its own notes, as it is in force: drone, vamp, clicks, counting."""

from __future__ import annotations

from dataclasses import dataclass, replace

from tabforge.syntax.document import DroneSetting, Settings, VampSetting
from tabforge.syntax.origins import Pointer


@dataclass(frozen=True, slots=True, kw_only=True)
class Accompaniment:
    """The settings in force. ``drone_at`` and ``vamp_at`` are the places of these two; ``shown``: they are printed too."""

    drone: DroneSetting | None = None
    drone_at: Pointer = ()
    vamp: VampSetting | None = None
    vamp_at: Pointer = ()
    shown: bool = True
    click: bool = False
    count_in: int | None = None


ALONE = Accompaniment()


def accompanied(before: Accompaniment, settings: Settings, at: Pointer) -> Accompaniment:
    """What is in force with what a header or a block says."""
    found = before
    if "drone" in settings:
        drone = settings["drone"]
        found = replace(found, drone=None if drone == "off" else drone, drone_at=(*at, "drone"))
    if "vamp" in settings:
        vamp = settings["vamp"]
        found = replace(found, vamp=None if vamp == "off" else vamp, vamp_at=(*at, "vamp"))
    if "backing" in settings:
        found = replace(found, shown=settings["backing"] == "show")
    if "click" in settings:
        found = replace(found, click=settings["click"] == "on")
    return replace(found, count_in=settings["count-in"]) if "count-in" in settings else found
