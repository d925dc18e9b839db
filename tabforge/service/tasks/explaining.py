"""Explanations of scales, chords and studies."""

from __future__ import annotations

from tabforge.explaining.asked import facts_of
from tabforge.explaining.rendered import rendered
from tabforge.explaining.studies import study_facts
from tabforge.service.installed import version
from tabforge.service.tasks.job import Answer, CannotError, Job
from tabforge.service.tasks.studies import chosen, score_of


def explain(job: Job) -> Answer:
    """What there is to say of ``options["words"]``, or else of the study, or of its ``options["blocks"]``."""
    words = job.options.get("words")
    if words is not None:
        found = facts_of(" ".join(words.split()))
        if not found:
            raise CannotError(f"“{words}” is neither a scale, such as “E2 phrygian dominant”, nor a chord, such as “Dm7 in C major”.")
    else:
        score = score_of(job)
        blocks = job.options.get("blocks") or ()
        found = [study_facts(score, [score.sections[number] for number in chosen(score, blocks)] if blocks else None)]
    return Answer(body=rendered(found, version()).encode("utf-8", "replace"))
