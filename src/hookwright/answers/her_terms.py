"""A reply in the words of the maker's terms: a gauge in the US is a tension in the UK.

Names of stitches come from the pattern, which is put into her terms before it is asked.
"""

from __future__ import annotations

import re

from msgspec.structs import replace

from hookwright.answers.facts import Reply
from hookwright.regex import regex

_UK = {
    "gauge": "tension", "color": "colour", "colors": "colours", "gray": "grey",
    "skip": "miss", "skips": "misses", "skipped": "missed", "skipping": "missing",
}  # fmt: skip
"""Common practice, no source."""
_WORDS = regex(rf"\b(?:{'|'.join(_UK)})\b", re.IGNORECASE)


def in_words_of(words: str, terms: str | None) -> str:
    """A sentence of ours in the words of some terms."""
    return _WORDS.sub(_put, words) if terms == "UK" else words


def _put(match: re.Match[str]) -> str:
    own = _UK[match[0].lower()]
    return own.capitalize() if match[0][0].isupper() else own


def in_her_terms(reply: Reply, terms: str | None) -> Reply:
    """A reply in the words of some terms; its figures stay as they are."""
    if terms != "UK":
        return reply
    answer, working, cautions = (
        tuple(in_words_of(one, terms) for one in lines)
        for lines in (reply.answer, reply.working, reply.cautions)
    )
    question = in_words_of(reply.question, terms)
    return replace(
        reply, question=question, answer=answer, working=working, cautions=cautions
    )
