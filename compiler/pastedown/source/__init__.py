"""Source texts and places in them."""

from pastedown.source.text import SourceText, Span

__all__ = ["SourceText", "Span"]
