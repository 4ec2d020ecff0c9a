"""In whose terms is a pattern written, US or UK, and does it say so?"""

from __future__ import annotations

from itertools import pairwise

from hookwright.notation.lexer import Kind, Token
from hookwright.notation.plain_stitches import works_plain
from hookwright.source import Span


def terms_of(tokens: list[Token]) -> tuple[str | None, bool, Span | None]:
    """The terms a pattern is written in: US or UK, whether it says so, and where."""
    said = _terms_said(tokens)
    if said is not None:
        return said[0], True, said[1]
    words = {token.text for token in tokens}
    legend = _legend_terms(tokens)
    if legend:
        return legend, False, None
    if words & {"sc", "hdc", "esc", "scblo", "sc2tog", "fpsc"} or _has(
        tokens, "single", "crochet"
    ):
        return "US", False, None
    if works_plain(tokens, words):
        return "UK", False, None
    if words & {"htr", "ttr"} or _has(tokens, "half", "treble"):
        return "UK", False, None
    if words & {"tension", "yrh"} and not words & {"gauge"}:
        return "UK", False, None
    if "miss" in words and words & {"tr", "trs"} and not words & _DOUBLE:
        return "UK", False, None
    if words & {"dc", "tr", "double", "fpdc", "bpdc", "treble"}:
        return "US", False, None
    return None, False, None


_DOUBLE = frozenset("dc d double skip sk".split())
"""Words of a US pattern that has a "tr": it is the rarer stitch there."""


def _alone_in_brackets(tokens: list[Token], at: int, last: int) -> bool:
    """ "LAPWING SHAWL (UK)": the terms, behind a title."""
    before, after = tokens[max(0, at - 1)], tokens[last + 1]
    return before.kind is Kind.OPEN and after.kind is Kind.CLOSE


_TOLD = frozenset(
    "terms term terminology abbreviations instructions notation pattern version names "
    "readers crochet words stitches style".split()
)
_COUNTRIES = frozenset("uk us british american english usa".split())


def _terms_said(tokens: list[Token]) -> tuple[str, Span] | None:
    for i, token in enumerate(tokens):
        country, last = _country(tokens, i)
        if not country:
            continue
        span = Span(token.start, tokens[last].end)
        if country in ("uk", "us") and _alone_in_brackets(tokens, i, last):
            return country.upper(), span
        near = {t.text for t in tokens[last + 1 : last + 5]}
        us = country in _AMERICAN
        ours = token.text == "us" and not _capital_context(tokens, i)
        behind = _told_before(tokens, i) in ("terms", "terminology", "abbreviations")
        if (near & _TOLD or behind) and not ours and not _is_equivalent(tokens, i):
            return ("US" if us else "UK"), span
    return _line_of_terms(tokens)


def _line_of_terms(tokens: list[Token]) -> tuple[str, Span] | None:
    """ "UK: dc is the only stitch here", where no line tells the other country's words."""
    lines = [i for i in range(len(tokens) - 1) if _begins_line_of(tokens, i)]
    told = {tokens[i].text in _AMERICAN for i in lines}
    if len(told) != 1 or not any(_names_stitch(tokens, i + 2) for i in lines):
        return None
    return ("US" if told.pop() else "UK"), tokens[lines[0]].span


def _begins_line_of(tokens: list[Token], i: int) -> bool:
    """Whether a country and a colon stand here, behind a line end, stop or bracket."""
    parted = not i or tokens[i - 1].kind in _PARTS
    named = tokens[i].text in _COUNTRIES and tokens[i + 1].kind is Kind.COLON
    return parted and named


_PARTS = (Kind.LINE, Kind.STOP, Kind.SEMICOLON, Kind.COMMA, Kind.OPEN, Kind.DASH)
_STITCHES = frozenset("dc tr htr dtr sc hdc treble double single".split())
_FEW = 12


def _names_stitch(tokens: list[Token], first: int) -> bool:
    """Whether one of the first words of a line is a stitch."""
    near = tokens[first : first + _FEW]
    ends = next((i for i, t in enumerate(near) if t.kind is Kind.LINE), len(near))
    return any(token.text in _STITCHES for token in near[:ends])


_AMERICAN = ("us", "american", "usa")


def _country(tokens: list[Token], i: int) -> tuple[str, int]:
    """The country named at a place, "US" or "U.S.", and its last token; "" for none."""
    text = tokens[i].text
    if text in _COUNTRIES:
        return text, i
    dotted = [token.text for token in tokens[i : i + 3]]
    if dotted not in (["u", ".", "s"], ["u", ".", "k"]):
        return "", i
    stops = tokens[i + 3].kind is Kind.STOP
    return "u" + dotted[2], i + 2 + stops


def _told_before(tokens: list[Token], i: int) -> str:
    """What stands before a country and a colon or verb: "Terms: US", "all terms are US"."""
    if i < 2:
        return ""
    joint = tokens[i - 1]
    joined = joint.kind in (Kind.COLON, Kind.EQUALS, Kind.DASH) or joint.text in _ARE
    return tokens[i - 2].text if joined else ""


_ARE = ("are", "is")


def _capital_context(tokens: list[Token], i: int) -> bool:
    """Whether "us" can be the country: "US terms", not "tell us"."""
    before = tokens[i - 1].text if i else ""
    return before not in (
        "tell",
        "let",
        "give",
        "send",
        "of",
        "to",
        "show",
        "contact",
        "with",
    )


def _is_equivalent(tokens: list[Token], i: int) -> bool:
    """ "sc = UK dc" explains a word; it does not name the terms."""
    return i > 0 and tokens[i - 1].kind is Kind.EQUALS


def _has(tokens: list[Token], first: str, second: str) -> bool:
    return any(a.text == first and b.text == second for a, b in pairwise(tokens))


def _legend_terms(tokens: list[Token]) -> str | None:
    """ "sc = UK dc" is written in US terms, "dc (US sc)" in UK ones."""
    for i, token in enumerate(tokens[:-1]):
        if token.kind is Kind.EQUALS and tokens[i + 1].text in ("uk", "us") and i:
            return "US" if tokens[i + 1].text == "uk" else "UK"
    return None
