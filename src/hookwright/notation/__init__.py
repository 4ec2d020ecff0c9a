"""Words to instructions: vocabulary, lexer, parser, tree and printer."""

from hookwright.notation.document import Reading, read_pattern
from hookwright.source import Source


def parse_text(text: str) -> Reading:
    """Reads a pattern from its text."""
    return read_pattern(Source(text))


__all__ = ["Reading", "parse_text", "read_pattern"]
