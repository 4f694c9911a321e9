"""Diagnostics: what the maker is told, and how it is shown."""

from pastedown.diagnostic.diagnostic import Diagnostic, Label, Severity, error, note, warning

__all__ = ["Diagnostic", "Label", "Severity", "error", "note", "warning"]
