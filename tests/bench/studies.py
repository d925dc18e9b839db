"""Studies of a wanted size, as text: six rhythms, degrees that wander by steps and leaps, a mark here and there. Seeded."""

from __future__ import annotations

import random

RHYTHMS = ("e e e e e e e e", "q e e q s s s s", "q. e q e e", "3(e e e) q e e q", "e q e h", "s s s s e e q q")
MARKS = (".", ".", ".", ".", "pm", "tn", "ac", "st")
STEPS = (-3, -2, -1, -1, 1, 1, 2, 3)


def study_text(notes: int, seed: int = 1) -> tuple[str, int]:
    """A study of at least ``notes`` columns, and how many it has."""
    pick = random.Random(seed)
    lines = ["title Bench", "scale A2 dorian", "tempo 96", "", 'riff "Bench"']
    columns = 0
    while columns < notes:
        rows: dict[str, list[str]] = {"rhythm": [], "degrees": [], "marks": []}
        for _ in range(4):
            rhythm = pick.choice(RHYTHMS)
            count = len(rhythm.split())
            degree, degrees = pick.randint(1, 8), []
            for _ in range(count):
                degree = max(1, min(14, degree + pick.choice(STEPS)))
                degrees.append(str(degree))
            if pick.random() < 0.3:
                degrees[-1] = "="
            rows["rhythm"].append(rhythm)
            rows["degrees"].append(" ".join(degrees))
            rows["marks"].append(" ".join(pick.choice(MARKS) for _ in range(count)))
            columns += count
        lines += [f"  {word:<9}{' | '.join(bars)}" for word, bars in rows.items()]
        lines.append("")
    return "\n".join(lines), columns
