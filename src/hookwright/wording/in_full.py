"""Which words of a text are abbreviations, and how are they written in full?

A word is written out where the trade knows it as an abbreviation, alone or put together,
or where the pattern itself gives a stitch a short name. What stands for one thing or for
several follows the number before it: "8 ch" is "8 chains", "ch 8" is "chain 8".
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from functools import cache

from hookwright.design.trade_words import TradeWord, trade_word, trade_words
from hookwright.finding import Edit
from hookwright.notation.lexer import Kind, Token, tokens_of
from hookwright.notation.row_numbers import ROW_WORDS
from hookwright.notation.tree import Pattern
from hookwright.notation.vocabulary import singular
from hookwright.source import Span
from hookwright.wording.country import like
from hookwright.wording.edits import Layered

_ALSO = {
    "blp": "back loop", "flp": "front loop", "tlo": "third loop only", "chs": "chains",
    "rnds": "rounds", "sts": "stitches", "sps": "spaces", "lps": "loops", "tbl": "through "
    "back loop", "rd": "round", "rds": "rounds", "nxt": "next", "dk": "", "v": "",
    "yds": "yards", "ins": "inches", "p": "", "pop": "", "mc": "", "cc": "", "col": "",
    "fl": "front loop", "bl": "back loop", "mr": "magic ring", "m": "", "g": "", "a": "",
    "sm": "", "pm": "", "ea": "each", "bet": "", "pat": "",
}  # fmt: skip
"""Words whose meaning here is another than in the list of the trade; "" for none: letters
that name a yarn or a size as often."""
_UNITS = {
    "mm": ("millimeter", "millimetre"), "cm": ("centimeter", "centimetre"),
    "cms": ("centimeter", "centimetre"), "m": ("meter", "metre"), "g": ("gram", "gram"),
    "in": ("inch", "inch"), "ins": ("inch", "inch"), "oz": ("ounce", "ounce"),
    "yd": ("yard", "yard"), "yds": ("yard", "yard"),
}  # fmt: skip
_BEHIND_INCH = frozenset(
    "wide long tall high deep across around square from by x in and or to of with when "
    "after before less more larger smaller apart circumference diameter is are on at thick "
    "unblocked blocked for finished measured below above".split()
)
"""What may stand behind an "in" that is an inch."""
_OF_A_SIZE = frozenset(
    "ball balls skein skeins hank hanks cake cakes cone cones hook hooks button buttons "
    "square squares length tail end".split()
)
_NO_SEVERAL = ("only", "together", "off", "over", "crochet", "post", "hook", "side", "ring")
_ACTIONS = frozenset(
    "sk rep rpt beg cont fo foll fol rem alt approx incl opp prev tog yo yoh yrh ea "
    "inc dec bet btw btwn".split()
)
"""Words that are never several of a thing."""


def in_full(
    text: str,
    tokens: Sequence[Token],
    terms: str | None,
    own: Mapping[str, str],
    *,
    units: bool,
) -> Iterator[Edit]:
    """The changes that write out the abbreviations among some tokens.

    Args:
        text: The text.
        tokens: Those of its tokens that are to be looked at.
        terms: The terms it is in, for the spelling of a word.
        own: Short names that the pattern gives its stitches, with the long ones.
        units: Whether units of length and weight are written out too.
    """
    at = 0
    while at < len(tokens):
        token = tokens[at]
        length, meaning = 1, ""
        if token.kind is Kind.WORD:
            length, meaning = _meaning(text, tokens, at, terms, own, units=units)
        if meaning:
            span = Span(token.start, tokens[at + length - 1].end)
            glued = token.glued and at and tokens[at - 1].kind is Kind.NUMBER
            gap = " " if glued else ""  # "3sc"
            yield Edit(span, gap + _capital(meaning, text, span, tokens, at))
        at += length


def _meaning(
    text: str,
    tokens: Sequence[Token],
    at: int,
    terms: str | None,
    own: Mapping[str, str],
    *,
    units: bool,
) -> tuple[int, str]:
    """How many tokens an abbreviation takes up here, and its words; "" for none."""
    token = tokens[at]
    after = tokens[at + 1] if at + 1 < len(tokens) else None
    before = tokens[at - 1] if at else None
    written = text[token.start : token.end]
    if before is not None and _is_counted(before) and token.text in _UNITS:
        if not units or written.isupper() or not _is_unit(token, after):
            return 1, ""
        unit = _UNITS[token.text][terms == "UK"]
        if after is not None and after.text in _OF_A_SIZE:  # "a 50 gram ball"
            return 1, unit
        return 1, unit if before.value == 1 and before.kind is Kind.NUMBER else _more(unit)
    if token.text in own:
        explained = _is_explained(text, after, own[token.text])
        return 1, "" if explained else own[token.text]
    if token.text == "sl" and after is not None and after.text in ("st", "sts"):
        return 2, "slip stitches" if after.text == "sts" else "slip stitch"
    if token.text in _ALSO:
        return 1, _ALSO[token.text]
    word = trade_word(token.text)
    if word is None or word.kind == "measure" or token.text == word.meaning:
        return 1, ""
    meaning = word.meaning_in(terms)
    dashed = after is not None and after.kind is Kind.DASH
    begins = text[token.start].isupper()  # "Row 17 Ch 1"
    several = _is_several(tokens, at, word) and not dashed and not begins
    if several and token.text not in _ACTIONS:
        meaning = _more(meaning)
    return 1, meaning


def _is_explained(text: str, after: Token | None, long: str) -> bool:
    """Whether the long name stands behind the short one: "MB (make bobble)"."""
    if after is None or after.kind is not Kind.OPEN:
        return False
    return text[after.end :].lstrip().lower().startswith(long)


def _is_counted(before: Token) -> bool:
    """Whether a number, or a list of them, stands before a word."""
    if before.kind is Kind.OTHER:  # "5.5", "½"; a stroke is none
        return before.text[-1].isnumeric()
    return before.kind in (Kind.NUMBER, Kind.CLOSE)


def _is_unit(token: Token, after: Token | None) -> bool:
    """Whether a unit stands here: "4 in wide" has one, "2 dc) in 3rd ch" has none."""
    if token.text != "in" or after is None:
        return True
    if after.kind in (Kind.NUMBER, Kind.ORDINAL):
        return False
    return after.kind is not Kind.WORD or after.text in _BEHIND_INCH


_SPACES = ("sp", "sps", "space", "spaces", "lp", "lps", "loop", "loops", "picot")


def _is_several(tokens: Sequence[Token], at: int, word: TradeWord) -> bool:
    """Whether more than one of a thing is meant."""
    token = tokens[at]
    before = tokens[at - 1] if at else None
    if token.text not in trade_words() and token.text != word.word.lower():
        return token.text in _plurals()
    second = tokens[at - 2] if at > 1 else None
    of_other = second is not None and (  # the 3 of "ch-3 sp", of "Row 3 ch 1"
        second.kind is Kind.DASH or second.text in ROW_WORDS
    )
    counted = (
        not of_other
        and before is not None
        and ((before.kind is Kind.NUMBER and before.value > 1) or before.kind is Kind.CLOSE)
    )
    return counted and token.text in ("ch", "st", "sp", "lp", "rnd")


@cache
def _plurals() -> frozenset[str]:
    """The abbreviations of the trade with an "s" behind them."""
    words = trade_words()
    return frozenset(f"{word}s" for word in words if f"{word}s" not in words)


def _more(words: str) -> str:
    """Several of a thing: "stitches", "chain spaces", "inches"; stitches have no plural."""
    if words.endswith(_NO_SEVERAL):
        return words
    return words + ("es" if words.endswith(("ch", "sh", "x")) else "s")


def _capital(meaning: str, text: str, span: Span, tokens: Sequence[Token], at: int) -> str:
    """Words with a capital where the abbreviation has one as a word, not as letters."""
    written = text[span.start : span.end]
    if not written[:1].isupper():
        return meaning
    before = [token.kind for token in tokens[max(0, at - 2) : at]]
    goes_on = before[-1:] == [Kind.LINE] and before[0] in (Kind.COMMA, Kind.SEMICOLON)
    begins = not before or before[-1] in (Kind.STOP, Kind.LINE, Kind.COLON)
    begins = begins and not goes_on
    plain = written[1:] == written[1:].lower()
    return like(meaning, "X") if (plain and len(written) > 1) or begins else meaning


def own_names(names: Sequence[tuple[str, ...]]) -> Mapping[str, str]:
    """The short names of a pattern's stitches with the long ones."""
    found: dict[str, str] = {}
    for first, *others in (own for own in names if len(own) > 1):
        long = max((first, *others), key=len)
        for name in (first, *others):
            if name != long and " " not in name and len(name) < len(long):
                found[name] = long
                found.update(dict.fromkeys(singular(f"{name}s"), long))
    return found


def written_out(words: str, terms: str, pattern: Pattern) -> str:
    """Some words of a pattern with their abbreviations in full."""
    names = own_names([definition.names for definition in pattern.definitions])
    edits = in_full(words, tokens_of(words), terms, names, units=True)
    return Layered(words).then(edits).text
