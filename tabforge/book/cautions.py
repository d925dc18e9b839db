"""The cautions at the front of every book. They are common practice among teachers, no medical advice."""

from __future__ import annotations

from typing import Final

from tabforge.book.model import Book

HEADING: Final = "Before you play"

LEAD: Final = "Playing is work for hands and ears. What follows is common sense among teachers of fretted instruments."
END: Final = "This is common practice, no medical advice: a teacher who hears you, or a clinician, knows better than any book."
"""What stands before the cautions and after them."""

CAUTIONS: Final = (
    "Warm up for a few minutes with something slow and easy before anything in this book.",
    "Wide stretches are widest low on the neck. Try one higher up first, where the frets lie closer, and come down over days, not minutes.",
    "Stop at once at pain, tingling or numbness. Shake the hand out and leave the instrument for the day if it does not go away.",
    "Rest often: a few minutes in every half hour. A tired hand learns nothing but to be tense.",
    "Begin with the volume low, on an amplifier and in headphones alike, and turn it up only as far as you need.",
    "Play slowly and evenly before you play fast. The tempos in this book are aims, not orders.",
    "If you are unsure whether something suits your hand, ask a teacher. "
    "If pain or numbness comes back, or your ears ring, ask a clinician.",
)


def cautions_of(book: Book) -> tuple[str, ...]:
    """The cautions of a book: those of every book, then its teacher's own."""
    return CAUTIONS + book.cautions
