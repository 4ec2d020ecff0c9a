"""What is there before the first row, and only described: a panel, a finished base?

"Panel: 50 hdc by 40 rows of hdc" and "the base is finished: 60 sc around" tell how many
places a border or the sides begin on.
"""

from __future__ import annotations

from collections.abc import Iterable

from hookwright.notation.cursor import Cursor
from hookwright.notation.lexer import Kind, Token
from hookwright.notation.place_words import STITCH_NOUNS
from hookwright.notation.said_clauses import sentences
from hookwright.notation.tree import Amount, Given
from hookwright.notation.vocabulary import Phrases

_PANELS = frozenset(
    "panel blanket piece rug square cloth scarf throw body centre center mat swatch main "
    "finished fabric wide afghan towel shawl cushion".split()
)
_BASES = frozenset(
    "base bottom circle ring disc finished done already made worked tube crown".split()
)
_ROWS = frozenset("row rows".split())
_SIZED = frozenset("high tall deep long wide across along by x and with".split())
_MEASURED = frozenset("gauge tension cm in inch inches mm =".split())


def given_piece(
    stretches: Iterable[list[Token]], own_words: Phrases, sizes: int
) -> Given | None:
    """The first piece described in some stretches of text; None where none is."""
    for tokens in stretches:
        for sentence in sentences(tokens):
            words = {token.text for token in sentence}
            if words & _MEASURED:
                continue
            found = _panel(sentence, words, own_words, sizes) or _base(
                sentence, words, own_words, sizes
            )
            if found is not None:
                return found
    return None


def _cursor(tokens: list[Token], own_words: Phrases, sizes: int) -> Cursor:
    end = tokens[-1].end
    return Cursor([*tokens, Token(Kind.END, "", 0, end, end)], 0, own_words, sizes)


def _panel(
    tokens: list[Token], words: set[str], own_words: Phrases, sizes: int
) -> Given | None:
    """ "The panel is 30 dc wide and 36 rows of dc high"."""
    if not words & _PANELS or not words & _ROWS:
        return None
    cursor = _cursor(tokens, own_words, sizes)
    stitches, stitch = _stitches(cursor)
    rows = _rows(cursor)
    if stitches is None or rows is None or not words & _SIZED:
        return None
    return Given(stitches, stitch, cursor.span_from(0), rows)


def _base(
    tokens: list[Token], words: set[str], own_words: Phrases, sizes: int
) -> Given | None:
    """ "The base is finished: 60 sc around."."""
    if not words & _BASES or words & _ROWS:
        return None
    cursor = _cursor(tokens, own_words, sizes)
    stitches, stitch = _stitches(cursor)
    around = cursor.take_word("around", "round") or cursor.take_phrase("all round")
    if stitches is None or not (around and cursor.done()):
        return None
    return Given(stitches, stitch, cursor.span_from(0))


def _stitches(cursor: Cursor) -> tuple[Amount | None, str]:
    """The first number of stitches, and their name."""
    while not cursor.done():
        at = cursor.at
        amount = cursor.number()
        if amount is not None:
            named = cursor.stitch()
            told = named is not None or cursor.take_word(*STITCH_NOUNS)
            if told and not cursor.is_word(*_ROWS):
                return amount, named.id if named is not None else "st"
            cursor.at = at
        cursor.step()
    return None, ""


def _rows(cursor: Cursor) -> Amount | None:
    while not cursor.done():
        amount = cursor.number()
        if amount is not None:
            cursor.stitch()
            if cursor.take_word(*_ROWS):
                return amount
        else:
            cursor.step()
    return None
