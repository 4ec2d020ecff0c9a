"""What does a clause say of the chain a row begins with: does it count, and as what?"""

from __future__ import annotations

from itertools import pairwise

from hookwright.notation.begun_together import decrease_counted
from hookwright.notation.convention_words import (
    BEGINNING,
    CHAIN,
    COUNT,
    NOT,
    PLAIN,
    ROWS,
    SPACES,
    STARTS,
    VERBS,
    chain_length,
    chains_counted,
    explains,
    of_every_chain,
    stitch_named,
)
from hookwright.notation.lexer import Kind, Token
from hookwright.notation.place_words import IGNORED, STITCH_NOUNS
from hookwright.notation.tree import Statement, Topic
from hookwright.source import Span

_BEGINS = frozenset(
    "turning turn beginning beg starting start starts opening opens open first "
    "row rnd round throughout always turns tch head edge begin begins "
    "beginnings stands".split()
)


_INSIDE = frozenset("inside within between among".split())


_EVER = frozenset("always throughout".split())


_MAKES = frozenset("make makes form forms give gives".split())


def _is_of_another(tokens: list[Token], known: set[str]) -> bool:
    """Whether a stitch is explained, "V = (dc, ch 1, dc)", or every chain spoken of.

    So it is where "the ch 2 and the first dc stand together for a dc2tog".
    """
    left = not known & COUNT - _IS and _tells_what_is_left(tokens)
    if "together" in known or left or _is_first_of_row(tokens):
        return True
    if explains(tokens) and not any(t.text in CHAIN for t in tokens[:4]):
        return True
    begins = _BEGINS - _EVER - (ROWS if known & _INSIDE else frozenset())
    if of_every_chain(tokens) and not known & begins:
        return True
    return _beside_stitch(tokens) and not known & _BEGINS


def _is_first_of_row(tokens: list[Token]) -> bool:
    """ "Ch 21, sc in 2nd ch from hook is the first st of Row 1": what the stitch is."""
    words = [token.text for token in tokens]
    hook = words.index("hook") if "hook" in words else 0
    made = hook and "in" in words[:hook] and stitch_named(tokens[:hook])
    return bool(made) and any(
        first in ("first", "1st") and row in ROWS
        for first, row in zip(words[hook:], words[hook + 3 :], strict=False)
    )


def _beside_stitch(tokens: list[Token]) -> bool:
    """ "A sc and a ch-1 each count as one st": the chains that stand between stitches."""
    verb = next((i for i, t in enumerate(tokens) if t.text in COUNT), 0)
    subject = tokens[:verb]
    joined = any(token.text in ("and", "or") for token in subject)
    return joined and any(t.text in CHAIN for t in subject) and bool(stitch_named(subject))


def turning_chain_said(
    tokens: list[Token], known: set[str], span: Span
) -> Statement | None:
    """ "Ch 3 counts as dc throughout", "the turning chain is ignored", "3ch is a tr"."""
    if not known & CHAIN or not known & (COUNT | _MAKES) or "between" in known:
        return None
    if _is_of_another(tokens, known) or chains_counted(tokens, known):
        return None
    as_two = (
        _either_of_two(tokens, span)
        or _begun_together(tokens, span)
        or _stitch_and_space(tokens, span)
    )
    if as_two is not None or not known & COUNT:
        return as_two
    length = chain_length(tokens)
    begins = bool(known & _BEGINS)
    between = _is_single_between(tokens) and not known & (BEGINNING | STARTS)
    if between or (length is None and not begins):
        return None
    negative = bool(known & NOT)
    about = known & (
        {
            "count",
            "counts",
            "counted",
            "counting",
            "stands",
            "stand",
            "acts",
            "equals",
            "=",
        }
        | IGNORED
        | STITCH_NOUNS
    )
    stitch = stitch_named(tokens)
    only = _is_only_to_turn(tokens, known)
    if not only and known & SPACES and not known & {"turning", "beginning", "beg", "t"}:
        return None
    if only or negative:
        denied = only or (about and not _is_not_otherwise(tokens, known))
        said = Statement(Topic.TURNING_CHAIN, holds=False, span=span, chains=length)
        return said if denied else None
    if not _meaning_named(tokens, known) and not known & {"count", "counts", "counted"}:
        return None
    plain = _is_plainly(tokens)
    if not (begins or plain or known & (VERBS | {"="})):
        return None
    return Statement(Topic.TURNING_CHAIN, holds=True, span=span, chains=length, word=stitch)


def _is_only_to_turn(tokens: list[Token], known: set[str]) -> bool:
    """ "Ch 2 before a hdc row is a turning chain only", "the ch 1 is just for height"."""
    verb = next((i for i, t in enumerate(tokens) if t.text in _BE), len(tokens))
    told = [token.text for token in tokens[verb + 1 :]]
    only = not _ONLY.isdisjoint(told[:_SHORT]) and not known & COUNT - _IS
    return (
        only and not _TO_TURN.isdisjoint(told[:_SHORT]) and not stitch_named(tokens[verb:])
    )


_BE = frozenset("is are".split())
_ONLY = frozenset("only just merely simply purely".split())
_TO_TURN = frozenset("turning turn height lift".split())
_SHORT = 8
"""In so many words a chain is said to turn and no more."""


def _meaning_named(tokens: list[Token], known: set[str]) -> str:
    """The stitch a chain is said to be; not that of "ch 2 before a hdc row is loose"."""
    verb = next((i for i, t in enumerate(tokens) if t.text in _BE), 0)
    return stitch_named(tokens if known & COUNT - _IS else tokens[verb:])


def _is_single_between(tokens: list[Token]) -> bool:
    """ "A ch-1 is a stitch here", "count every ch 1": of the chains between stitches."""
    for at, token in enumerate(tokens[1:-1], 1):
        if token.text not in CHAIN:
            continue
        dashed = tokens[at + 1].kind is Kind.DASH
        every = tokens[at - 1].text in ("each", "every", "all", "any")
        if every or (dashed and tokens[at - 1].text == "a"):
            return tokens[at + 1 + dashed].value == 1
    return False


def _tells_what_is_left(tokens: list[Token]) -> bool:
    """ "Until 3 ch are left, ch 1, sk 2 ch": how far a row goes."""
    behind = {after.text for word, after in pairwise(tokens) if word.text in ("is", "are")}
    return bool(behind & _LEFT)


_LEFT = frozenset("left remaining over unworked still reached".split())


def _is_plainly(tokens: list[Token]) -> bool:
    """ "Ch 3 is a dc."; not "a bead is a sc with the ch-1 behind it"."""
    at = next((i for i, t in enumerate(tokens[:5]) if t.text in ("is", "are")), 0)
    return at > 1 and any(token.text in CHAIN for token in tokens[:at])


_IS = frozenset("is are as too".split())


_NO_STITCH = frozenset("a an as any one your part considered included worked".split())


def _is_not_otherwise(tokens: list[Token], known: set[str]) -> bool:
    """ "Ch 60, join, taking care that it is not twisted": not in what it counts for."""
    if known & COUNT - _IS:
        return False
    behind = {after.text for word, after in pairwise(tokens) if word.text in NOT}
    return not behind & (_NO_STITCH | STITCH_NOUNS | set(PLAIN))


def _begun_together(tokens: list[Token], span: Span) -> Statement | None:
    """ "Ch 2, dc in next st at the start of a row counts as dc2tog"."""
    chains, decrease = chain_length(tokens), decrease_counted(tokens)
    if chains is None or not decrease or {token.text for token in tokens} & NOT:
        return None
    topic = Topic.BEGUN_TOGETHER
    return Statement(topic, holds=True, span=span, chains=chains, word=decrease)


def _either_of_two(tokens: list[Token], span: Span) -> Statement | None:
    """ "Ch 4 = tr, or dc and ch 1": it counts, and the row tells as which of them."""
    at = next((i for i, token in enumerate(tokens) if token.text in COUNT), len(tokens))
    parts = [i for i, token in enumerate(tokens) if i > at and token.text == "or"]
    length = chain_length(tokens[:at])
    if length is None or not parts or {token.text for token in tokens} & NOT:
        return None
    either = stitch_named(tokens[at : parts[0]]), stitch_named(tokens[parts[0] :])
    if not all(either) or either == ("st", "st"):
        return None
    return Statement(Topic.TURNING_CHAIN, holds=True, span=span, chains=length, word="st")


def _stitch_and_space(tokens: list[Token], span: Span) -> Statement | None:
    """ "Ch 5 at the start of a row counts as 1 dc and a ch-2 sp", "makes a dc and 2 ch"."""
    at = next((i for i, token in enumerate(tokens) if token.text in COUNT), None)
    at = _where_it_makes(tokens) if at is None else at
    if at is None or {token.text for token in tokens} & NOT:
        return None
    length = chain_length(tokens[:at])
    stitch, above = stitch_named(tokens[at:]), chain_length(tokens[at:])
    if length is None or above is None or above >= length or stitch in ("", "st"):
        return None
    return Statement(
        Topic.TURNING_CHAIN,
        holds=True,
        span=span,
        chains=length,
        word=stitch,
        stands_chains=above,
    )


def _where_it_makes(tokens: list[Token]) -> int | None:
    """Where "makes" stands behind a chain and nothing worked: "the ch 5 at each turn"."""
    for i, token in enumerate(tokens[:_LONGEST_SUBJECT]):
        if token.text in _MAKES:
            return i
        if token.kind not in (Kind.WORD, Kind.NUMBER, Kind.DASH):
            return None
    return None


_LONGEST_SUBJECT = 10
