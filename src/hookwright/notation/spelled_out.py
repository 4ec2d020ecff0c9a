"""What is a group made of, told in brackets behind its name: "V-st (dc, ch 1, dc) in st"?

What stands in the bracket is what is worked there, and no further group: "shell (that's 5
dc, all in one place) in next ch" works one shell.
"""

from __future__ import annotations

from collections.abc import Sequence

from hookwright.notation.cursor import Cursor, Sayings
from hookwright.notation.lexer import Kind, Token
from hookwright.notation.reader import Reader
from hookwright.notation.tree import InOnePlace, Make, Node, Which
from hookwright.notation.vocabulary import families_of
from hookwright.source import Span

_GROUPS = frozenset({"group", "cluster", "own"})

_LEADS = Sayings((
    "that's", "that is", "this is", "it's", "it is", "which is", "i e", "ie", "meaning",
    "made of", "=",
))  # fmt: skip


def names_group(reader: Reader, bracket: Span) -> bool:
    """ "shell (5 dc) in next st", "puff (hdc3tog) in next sp": a bare name before it."""
    last = reader.last()
    if not isinstance(last, Make) or last.target is not None or last.amount is not None:
        return False
    if reader.text[last.span.end : bracket.start].strip():
        return False
    return bool(families_of(last.stitch, reader.cursor.own_words) & _GROUPS)


def pass_lead(cursor: Cursor) -> bool:
    """ "(that's dc, ch 1, dc": the words before what the group is."""
    return cursor.take_any(_LEADS)


def take_lead(reader: Reader) -> bool:
    """The bracket and its lead, where it tells what the group before it is."""
    cursor = reader.cursor
    start = cursor.at
    if not names_group(reader, cursor.token.span):
        return False
    placed = _word_behind(cursor.tokens, start) in ("in", "into")
    cursor.step()
    if placed and pass_lead(cursor):
        return True
    cursor.at = start
    return False


def _word_behind(tokens: Sequence[Token], at: int) -> str:
    """The word right behind the bracket that opens here."""
    depth = 0
    for token, following in zip(tokens[at:], tokens[at + 1 :], strict=False):
        depth += (token.kind is Kind.OPEN) - (token.kind is Kind.CLOSE)
        if depth == 0:
            return following.text
    return ""


def what_it_is(body: tuple[Node, ...]) -> tuple[Node, ...]:
    """The stitches of "dc, ch 1, dc all in one place": any place is meant."""
    only = body[0] if len(body) == 1 else None
    target = getattr(only, "target", None)
    if target is None or target.noun != "st" or target.which not in _ANY_PLACE:
        return body
    if isinstance(only, InOnePlace):
        return only.body
    if isinstance(only, Make):
        return (
            Make(
                only.stitch, only.span, only.amount, None, only.loop, only.legs, only.post
            ),
        )
    return body


_ANY_PLACE = (Which.NEXT, Which.SAME)
