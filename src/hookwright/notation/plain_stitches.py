"""Is "plain" a stitch, as in old books: "3 plain under each chain, 1 treble on the last"?

It is the double crochet of UK terms there. A text that names a stitch by its present name
beside it, "sc" or "dc", may mean anything by the word.
"""

from __future__ import annotations

from collections.abc import Sequence

from hookwright.notation.lexer import Kind, Token
from hookwright.notation.vocabulary import Phrases, base_stitch, phrases

PLAIN = "plain"
_TALL = frozenset("treble trebles tr".split())
_TODAY = frozenset(
    "us american sc hdc dc htr single singles double doubles esc scblo sc2tog".split()
)
_BEHIND = frozenset("in into on under over and between".split())
_MARKS = (Kind.COMMA, Kind.SEMICOLON, Kind.STOP, Kind.CLOSE, Kind.STAR)
_AT_LEAST = 2


def works_plain(tokens: Sequence[Token], words: frozenset[str] | set[str]) -> bool:
    """Whether a text of these words counts plain stitches: "1 plain in the next"."""
    if PLAIN not in words or not words & _TALL:
        return False
    if words & _TODAY and not (words & _TODAY == _DOUBLE and _is_told(tokens)):
        return False
    counted = [i for i in range(1, len(tokens) - 1) if _is_counted(tokens, i)]
    return len(counted) >= _AT_LEAST


def _is_told(tokens: Sequence[Token]) -> bool:
    """ "A plain stitch is that which some call double crochet"."""
    for at in (i for i, token in enumerate(tokens) if token.text == PLAIN):
        behind = [token.text for token in tokens[at + 1 : at + _NEAR]]
        if "double" in behind and not _CALLED.isdisjoint(behind[: behind.index("double")]):
            return True
    return False


_DOUBLE = frozenset(("double",))
_CALLED = frozenset("call called known termed named".split())
_NEAR = 12


def _is_counted(tokens: Sequence[Token], i: int) -> bool:
    """Whether so many of them are told, and no "2 plain rows"."""
    before, word, after = tokens[i - 1 : i + 2]
    ends = after.kind in _MARKS or after.text in _BEHIND
    return word.text == PLAIN and before.kind is Kind.NUMBER and ends


def plain_words(tokens: Sequence[Token], words: frozenset[str]) -> Phrases:
    """The word with its stitch, for a text that works it so; else none."""
    stitch = base_stitch("dc") if works_plain(tokens, words) else None
    return phrases([([PLAIN], stitch)]) if stitch is not None else {}
