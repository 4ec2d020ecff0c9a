"""A label at the beginning of a line whose bold marks were read as blanks: "Yarn:"."""

from __future__ import annotations

from hookwright.regex import regex

LEAD = regex(r"[ \t]{2}(?P<lead>\S[^\n]{0,60}?[:.])[ \t]{3}")
