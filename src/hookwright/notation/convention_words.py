"""The words that conventions are told in, and what a sentence names: chains, stitches."""

from __future__ import annotations

from itertools import pairwise

from hookwright.notation.lexer import Kind, Token
from hookwright.notation.place_words import IGNORED

NOT = frozenset(
    "not never neither don't doesn't isn't won't aren't uncounted no nor without cannot "
    "can't".split()
).union(IGNORED)
CHAIN = frozenset("ch chs chain chains tch".split())
BEGINNING = frozenset("turning beginning beg starting tch".split())
STARTS = frozenset("start starts begin begins opens opening".split())
ROUNDS = frozenset("rnd rnds round rounds".split())
ROWS = ROUNDS | {"row", "rows"}
COUNT = frozenset(
    "count counts counted counting is are acts act stands stand equals = "
    "considered as too represents".split()
).union(IGNORED)
SPACES = frozenset("sp sps space spaces hole holes gap gaps".split())
VERBS = frozenset("counts count stands stand acts act".split())


def of_every_chain(tokens: list[Token]) -> bool:
    """ "Each ch-1 counts as a st": chains between stitches."""
    return any(
        token.text in ("each", "every", "all", "any")
        and any(near.text in CHAIN for near in tokens[i + 1 : i + 3])
        for i, token in enumerate(tokens)
    )


def explains(tokens: list[Token]) -> bool:
    """Whether a line explains a word, "V = 2 dc in one place": it ends with the line.

    So does a list of words that ends with one, unless a comma says that it goes on.
    """
    told = tokens[1:4] if tokens and tokens[-1].kind is Kind.COMMA else tokens[1:]
    return any(token.kind is Kind.EQUALS for token in told)


def chain_length(tokens: list[Token]) -> int | None:
    """The length of the first chain named: 3 of "the ch 3", "3ch", "a ch-3"."""
    for i, token in enumerate(tokens):
        if token.text not in CHAIN:
            continue
        ahead = [t for t in tokens[i + 1 : i + 3] if t.kind is not Kind.DASH]
        if ahead and ahead[0].kind is Kind.NUMBER:
            return ahead[0].value
        before = [t for t in tokens[max(0, i - 2) : i] if t.kind is not Kind.DASH]
        if before and before[-1].kind is Kind.NUMBER:
            return before[-1].value
    return None


PLAIN = {
    "sc": "sc", "hdc": "hdc", "dc": "dc", "htr": "htr", "tr": "tr", "dtr": "dtr",
    "single": "sc", "double": "dc", "treble": "tr",
    "st": "st", "stitch": "st", "sts": "st", "stitches": "st",
}  # fmt: skip


def stitch_named(tokens: list[Token]) -> str:
    """The first stitch named, "st" for any; "" for none."""
    half = False
    for at, token in enumerate(tokens):
        if token.text == "half":
            half = True
        elif token.text == "double" and [t.text for t in tokens[at + 1 : at + 2]] == [
            "treble"
        ]:
            return "dtr"
        elif token.text in PLAIN:
            name = PLAIN[token.text]
            if half:
                return {"dc": "hdc", "tr": "htr"}.get(name, name)
            if name != "st" or token.text in ("st", "stitch"):
                return name
    return ""


_INCLUDED = frozenset("counted included".split())


_INCLUDING = frozenset("counting including".split())


_ALL_CHAINS = frozenset("chs chains sps spaces".split())


def chains_counted(tokens: list[Token], known: set[str]) -> bool:
    """ "41 places in every row, chains counted", "31 sts, counting the ch sps"."""
    if known & (BEGINNING | NOT) or chain_length(tokens) is not None:
        return False
    words = [token.text for token in tokens if token.text not in ("the", "all", "ch")]
    return any(
        (one in _ALL_CHAINS and other in _INCLUDED)
        or (one in _INCLUDING and other in _ALL_CHAINS)
        for one, other in pairwise(words)
    )
