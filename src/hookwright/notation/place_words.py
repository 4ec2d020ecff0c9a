"""The words places are told with: nouns, ordering words, "until the places run out"."""

from __future__ import annotations

from hookwright.notation.cursor import Cursor, Sayings
from hookwright.notation.lexer import Kind
from hookwright.notation.tree import Target, Which
from hookwright.source import Span

PREPOSITIONS = frozenset(
    "in into on onto over around round in2 inside under through thru to at "
    "from between".split()
)


INTO = frozenset("in into on onto over around under inside through at".split())


IGNORED = frozenset(
    "ignored ignore ignoring forget forgotten forgetting disregard disregarded "
    "disregarding nothing".split()
)
"""What is said of a chain that is no stitch."""

STITCH_NOUNS = frozenset("st sts stitch stitches sti stich stiches sch".split())


CHAIN_NOUNS = frozenset("ch chs chain chains".split())


SPACE_NOUNS = frozenset(
    "sp sps space spaces hole holes loop loops lp lps arch arches mesh meshes "
    "arc arcs handle handles".split()
)


GAP_NOUNS = frozenset("gap gaps".split())


GROUP_NOUNS = frozenset("group groups grp grps block blocks trio trios pair pairs".split())


EACH_WORDS = frozenset("each every ea all per".split())


NEXT_WORDS = frozenset("next following foll nearest nxt follow subsequent".split())


LAST_WORDS = frozenset("last final".split())


REST_WORDS = frozenset("remaining rem rest others remainder".split())


SAME_WORDS = frozenset("same".split())


CENTRE_WORDS = frozenset("center centre middle central".split())


UNUSED_WORDS = frozenset("skipped unused unworked free missed".split())


ALONE_WORDS = frozenset("single lone separate solitary loose".split())


SMALL_WORDS = frozenset(
    "the a an of both top this these those that your its very other own "
    "previous prev turning turn beg beginning begin starting start initial opening joining "
    "underarm corner marked side top-most standing".split()
)


BEGINNING_WORDS = frozenset(
    "turning turn beg beginning begin starting start initial opening standing t".split()
)


_ROW_NAMES = ("row", "rnd", "round", "top", "edge", "piece", "side")
_OF_ROW = ("", *(f" of {the}{name}" for the in ("the ", "") for name in _ROW_NAMES[:3]))
_TO_END = tuple(
    f"{to} {end}{row}"
    for to in ("to", "till", "until")
    for end in ("the very end", "the end", "end")
    for row in _OF_ROW
)
_ALONG = tuple(
    f"{way}{row}"
    for way in ("across", "along")
    for row in ("", *(f" {the}{name}" for the in ("the ", "") for name in _ROW_NAMES))
)
_BACK = tuple(
    f"{until} {told}"
    for until in ("until", "till", "til")
    for told in (
        *(
            f"you {come}{start}"
            for come, start in (
                ("are back at ", "the start"),
                ("are back at ", "the beginning"),
                ("are back ", "where you started"),
                ("are back ", "where you began"),
                ("reach ", "the start"),
                ("reach ", "the beginning"),
                ("come back to ", "the start"),
                ("come back to ", "the beginning"),
                ("get back to ", "the start"),
                ("get back to ", "the beginning"),
                ("reach ", "the end"),
                ("get to ", "the end"),
                ("come to ", "the end"),
            )
        ),
        "the round is done",
        "the round is complete",
        "the round is finished",
        "the round is full",
        "the rnd is done",
        "the rnd is complete",
        "you run out of sts",
        "all sts are used",
        "all sts are used up",
        "the sts are used up",
        "the start is reached",
        "the end is reached",
    )
)
"""How a round is told to go on until it comes back to its start."""
ACROSS_PHRASES = Sayings(
    sorted(
        (
            "the length of the row", "the whole row", "the whole way", "to the join",
            "over the whole row", "over the entire row", "over all the sts",
            "over all the stitches", "over all sts", "over all stitches",
            "the rest of the way", "the rest of the row", "all the way", "the entire row",
            *_BACK,
            *(
                f"{lead}{way}"
                for lead in (
                    "", "all the way ", "the whole way ", "all ", "right ", "straight ",
                    "so on ", "on ", "so ",
                )
                for way in (*_ALONG, *_TO_END, "around", "round", "across to end")
            ),
        ),
        key=lambda phrase: -len(phrase),
    )
)  # fmt: skip


def across(cursor: Cursor) -> bool:
    """Takes the words for "until the places run out", if they stand here."""
    if cursor.is_word("round") and cursor.peek().kind is Kind.NUMBER:
        return False  # "rep round 6" names a round
    return cursor.take_any(ACROSS_PHRASES)


_NAMES_PLACE = frozenset(
    "the next each every last first a post top other this that both its".split()
)


def across_rest(cursor: Cursor) -> bool:
    """ "(Sc in 2nd ch) and across": not "and around the next post"."""
    at = cursor.at
    named = across(cursor) and (
        cursor.is_word(*_NAMES_PLACE) or cursor.is_kind(Kind.NUMBER, Kind.ORDINAL)
    )
    if named:
        cursor.at = at
    return cursor.at > at


def everything(span: Span) -> Target:
    """All stitches that are left: "sc across"."""
    return Target("st", Which.EACH, span)


def is_chain_length(cursor: Cursor) -> bool:
    """Whether a number begins "2-ch sp" or "3ch": the length of a chain, not how many."""
    if cursor.token.kind is not Kind.NUMBER:
        return False
    ahead = 2 if cursor.peek().kind is Kind.DASH else 1
    if cursor.peek(ahead).text not in ("ch", "chain"):
        return False
    after = ahead + 1 + (cursor.peek(ahead + 1).kind is Kind.DASH)
    return cursor.peek(after).text in SPACE_NOUNS | GAP_NOUNS


def take_chain_length(cursor: Cursor) -> int | None:
    """The length in "ch-2", "ch 2", "ch2"; None, with the position kept, where none is.

    A long dash begins a count, "dc in last ch—7 shells", but for "ch—2 sp".
    """
    at = cursor.at
    dash = cursor.token
    long = dash.text == "—" and cursor.peek(2).text not in SPACE_NOUNS
    if dash.kind is Kind.DASH and (not dash.glued or len(dash.text) > 1 or long):
        return None
    cursor.take_kind(Kind.DASH)
    if cursor.token.kind is Kind.NUMBER:
        return cursor.step().value
    cursor.at = at
    return None
