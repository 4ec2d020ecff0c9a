"""What does a clause say of the chains between stitches: do they count, and as how many?"""

from __future__ import annotations

from hookwright.notation.convention_words import NOT, SPACES, chain_length, chains_counted
from hookwright.notation.lexer import Kind, Token
from hookwright.notation.place_words import STITCH_NOUNS
from hookwright.notation.tree import Statement, Topic
from hookwright.source import Span


def spaces_said(tokens: list[Token], known: set[str], span: Span) -> Statement | None:
    """ "Each ch-1 space counts as a stitch", "when you come to a hole, it is one st"."""
    if chains_counted(tokens, known):
        return Statement(Topic.SPACES, holds=True, span=span)
    if not known & (SPACES | {"ch-1"}) and "ch" not in known:
        return None
    if not known & STITCH_NOUNS:
        return None
    if not known & SPACES and not ("ch" in known and "1" in known):
        return None
    counts = known & {"counts", "counted", "count", "stands", "stand", "hole"}
    if not counts and not _each_is_one(tokens, known):
        return None
    if _is_of_first_chain(tokens):
        return None
    holds = not known & NOT
    worth = _stitches_told(tokens) if holds else 0
    if worth:
        chains = chain_length(tokens)
        return Statement(Topic.SPACES, holds, span, chains, stands_stitches=worth)
    apart = None if holds else chain_length(tokens)  # "the ch-2 sp is never counted"
    edge = "edge" if holds and known & _EDGES and known & _TOO else ""
    return Statement(Topic.SPACES, holds=holds, span=span, chains=apart, word=edge)


def _is_of_first_chain(tokens: list[Token]) -> bool:
    """ "The turning chain stands for the first st (a dc plus a ch-2 hole)": of no space."""
    at = next((i for i, token in enumerate(tokens) if token.text in _COUNTED_AS), 0)
    subject = {token.text for token in tokens[:at]}
    return bool(subject & {"turning", "beginning", "beg", "starting"}) and not (
        subject & SPACES
    )


def _stitches_told(tokens: list[Token]) -> int:
    """The 2 of "a ch-3 sp counts as 2 sts"; 0 where as many are told as it has chains."""
    at = next((i for i, token in enumerate(tokens) if token.text in _COUNTED_AS), 0)
    chains, behind = chain_length(tokens[:at]), tokens[at + 1 : at + 4]
    if not chains or [t.text for t in behind[:1]] not in (["as"], ["for"]):
        return 0
    told = len(behind) > _AS_ONE and behind[_AS_ONE].text in STITCH_NOUNS
    number = behind[1].value if told and behind[1].kind is Kind.NUMBER else 0
    return number if number > 0 and number != chains else 0


_COUNTED_AS = frozenset("count counts counted stand stands".split())


_AS_ONE = 2
"""Where the noun stands in "as 2 sts"."""


_EDGES = frozenset("edge edges side end turning".split())


_TOO = frozenset("too also included including".split())


def _each_is_one(tokens: list[Token], known: set[str]) -> bool:
    """ "Each sc and each ch-1 sp is one st"."""
    at = next((i for i, token in enumerate(tokens) if token.text in ("is", "are")), None)
    if at is None or not known & {"each", "every"}:
        return False
    behind = [token.text for token in tokens[at + 1 : at + 4]]
    return behind[:1] != [] and behind[0] in _ONE and bool(STITCH_NOUNS & set(behind))


_ONE = frozenset("a one 1 also itself".split())
