"""Conventions a pattern states in a sentence: what counts, which loops, when to turn."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from hookwright.notation.chains_said import turning_chain_said
from hookwright.notation.convention_words import (
    BEGINNING,
    CHAIN,
    NOT,
    PLAIN,
    ROUNDS,
    ROWS,
    SPACES,
    STARTS,
    of_every_chain,
)
from hookwright.notation.lexer import Kind, Token
from hookwright.notation.place_words import SPACE_NOUNS, STITCH_NOUNS
from hookwright.notation.said_clauses import clauses_in
from hookwright.notation.spaces_said import spaces_said
from hookwright.notation.tree import Statement, Topic
from hookwright.source import Span

AT_HOOK = frozenset(
    "skipped missed left passed omitted unworked beginning start began edge".split()
)
"""What is said of the chains that a row begins with."""


def statements_in(tokens: list[Token]) -> Iterator[Statement]:
    """The conventions stated in some tokens, sentence by sentence."""
    for clause in clauses_in(tokens):
        yield from _of_clause(clause)


def _of_clause(tokens: list[Token]) -> Iterator[Statement]:
    words = [token.text for token in tokens]
    known = set(words)
    span = Span(tokens[0].start, tokens[-1].end)
    chain = turning_chain_said(tokens, known, span)
    if chain is not None:
        yield chain
    space = spaces_said(tokens, known, span)
    begins = known & BEGINNING or (known & _AT_START and known & ROWS)
    if not known & SPACES and begins and not of_every_chain(tokens):
        space = None
    if space is not None:
        yield space
    if _slips_count(tokens, known):
        yield Statement(Topic.SLIPS, holds=True, span=span)
    yield from _turning(words, known, span)
    if "spiral" in known and not known & {"not"}:
        yield Statement(Topic.SPIRAL, holds=True, span=span)
    behind = known & {"behind"} and known & {"skip", "skipped", "sk", "miss", "missed"}
    if behind:
        yield Statement(Topic.STITCH_BEHIND, holds=True, span=span)
    if _count_stays(tokens, known):
        yield Statement(Topic.COUNT_STAYS, holds=True, span=span)


_AT_START = STARTS | {"before"}


_STAYS = frozenset("stays stay remains remain same constant unchanged".split())


_OF_SOME = frozenset(
    "except until from after before if when should may might border edging side".split()
)


def _count_stays(tokens: list[Token], known: set[str]) -> bool:
    """ "The stitch count stays the same in every row": of all rows, or it is not read."""
    counted = known & {"count", "number"} and known & STITCH_NOUNS
    every = known & {"throughout", "every", "each", "all", "always"}
    if not (counted and every and known & _STAYS) or known & (NOT | _OF_SOME):
        return False
    return not any(token.kind in (Kind.NUMBER, Kind.ORDINAL) for token in tokens)


def first_of_count(tokens: list[Token]) -> Iterator[Statement]:
    """ "(16 sts - the chains you skipped are the first of them)": such chains count.

    Of "11 loops" they are a loop, and no stitch.
    """
    words = [token.text for token in tokens]
    known = set(words)
    if not tokens or tokens[0].kind is not Kind.NUMBER or known & NOT:
        return
    if not SPACE_NOUNS.isdisjoint(words[:_UNIT_ENDS]):
        return
    first = {("first", "of"), ("number", "one"), ("number", "1")} & set(pairwise(words))
    if first and known & CHAIN and known & AT_HOOK:
        span = Span(tokens[0].start, tokens[-1].end)
        yield Statement(Topic.TURNING_CHAIN, holds=True, span=span, word="st")


_UNIT_ENDS = 3
"""Where the unit of a count ends at the latest: "11 net loops"."""


SLIP_WORDS = frozenset("sl ss slst slip".split())


def _slips_count(tokens: list[Token], known: set[str]) -> bool:
    """ "The sl st at the start of a row counts as a st": it is part of the fabric."""
    if not known & SLIP_WORDS or known & (CHAIN | NOT) or not known & _COUNTED:
        return False
    at = next(i for i, token in enumerate(tokens) if token.text in _COUNTED)
    return is_a_stitch(tokens[at:])


_COUNTED = frozenset("count counts counted counting".split())


def is_a_stitch(tokens: list[Token]) -> bool:
    """Whether something "counts as a st", or just counts: of a slip stitch behind it."""
    words = [token.text for token in tokens if token.kind in (Kind.WORD, Kind.NUMBER)]
    counted = bool(words) and words[0] in _COUNTED and not NOT & set(words)
    return counted and (len(words) == 1 or bool(set(words) & (STITCH_NOUNS | set(PLAIN))))


def _turning(words: list[str], known: set[str], span: Span) -> Iterator[Statement]:
    if "turn" not in known and "turned" not in known and "turning" not in known:
        return
    about_rows = known & {
        "row",
        "rows",
        "rnd",
        "rounds",
        "round",
        "every",
        "each",
        "never",
        "always",
        "after",
        "without",
    }
    if not about_rows or known & CHAIN - {"chains"}:
        return
    if known & NOT:
        yield Statement(Topic.NO_TURN, holds=True, span=span)
    elif known & {"every", "each", "always", "after"} and len(words) < 14:
        rows = "row" if known & {"row", "rows"} else ""
        word = "round" if known & ROUNDS else rows
        yield Statement(Topic.TURN, holds=True, span=span, word=word)
