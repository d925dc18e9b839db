"""From the written score to what is heard: every sound with its time, repeats played out. MIDI and practice tracks start here."""

from tabforge.performance.perform import AS_WRITTEN, PlayOptions, perform

__all__ = ["AS_WRITTEN", "PlayOptions", "perform"]
