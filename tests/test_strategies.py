"""The studies that property tests start from are right: the whole pipeline finds no error in them."""

from __future__ import annotations

from hypothesis import HealthCheck, Phase, given, settings

from tabforge.pipeline import study_from
from tabforge.syntax.printer import print_study
from tests.strategies import Document, studies


@settings(max_examples=40, deadline=None, phases=[Phase.generate], suppress_health_check=[HealthCheck.too_slow])
@given(studies())
def test_a_generated_study_has_no_errors(document: Document) -> None:
    text = print_study(document)  # type: ignore[arg-type]  # a study is a document
    outcome = study_from("generated.riff", text.encode())
    assert [(each.code.id, each.headline) for each in outcome.diagnostics if each.is_error] == []
    assert outcome.score is not None
