"""What tabforge says about a study: codes with an explanation each, diagnostics with places, and one renderer per output form."""

from tabforge.diagnostics.core import Code, Diagnostic, Label, Severity, nearest, only_errors, ordered

__all__ = ["Code", "Diagnostic", "Label", "Severity", "nearest", "only_errors", "ordered"]
