"""Which yarn is worked with from here on, and where is it joined?"""

from __future__ import annotations

from hookwright.notation.cursor import Cursor, Sayings
from hookwright.notation.lexer import Kind, Token
from hookwright.notation.place_words import PREPOSITIONS, STITCH_NOUNS
from hookwright.notation.reader import Reader
from hookwright.notation.targets import pass_loop_of, read_between, read_target
from hookwright.notation.tree import InOnePlace, Make, Repeat, Target, Yarn
from hookwright.notation.unnamed import UNNAMED
from hookwright.source import Span


def read_yarn(reader: Reader) -> bool:
    """ "with B", "change to Moss", "join B with a standing dc in any ch-2 sp"."""
    cursor = reader.cursor
    start = cursor.at
    if cursor.take_phrase(
        "change to", "changing to", "switch to", "switching to", "swap to", "join in",
        "join", "rejoin", "attach", "tie in", "using", "with", "in colour", "in color",
        "drop",
        "pick up", "now", "in", "change colour to", "change color to", "colour", "color",
        "shade", "new",
    ):  # fmt: skip
        lead = cursor.tokens[cursor.at - 1].text
        cursor.take_word("the", "your")
        cursor.take_word("new")
        name = _numbered(reader) or _yarn_name(reader, must=lead in _LEADS_NAME)
        if name:
            target, standing = _yarn_place(reader)
            if lead in ("to", "drop"):  # "change to B in the last st" goes nowhere
                target = None
            if lead == "new" and target is None:  # "new colour every 2 rows"
                cursor.at = start
                return False
            if lead in _OF_WORK and target is None and _follows_work(reader, start):
                return _of_last(reader, Yarn(name, cursor.span_from(start)))
            reader.add(Yarn(name, cursor.span_from(start), target, standing))
            return target is not None or bool(standing) or _bare_run(reader)
    cursor.at = start
    return _hook_words(reader, start)


_LEADS_NAME = (
    "in", "now", "with", "using", "join", "rejoin", "drop", "pick", "up", "attach", "new",
)  # fmt: skip
_OF_WORK = ("in", "with", "using")
_WORK = (Make, InOnePlace, Repeat)


def _follows_work(reader: Reader, start: int) -> bool:
    """Whether words stand right behind some work, no mark between: "sc 5 in Slate"."""
    before = reader.cursor.tokens[start - 1].kind if start else Kind.LINE
    return before in _NO_MARKS and isinstance(reader.last(), _WORK)


_NO_MARKS = (Kind.WORD, Kind.NUMBER, Kind.CLOSE)


def _of_last(reader: Reader, yarn: Yarn) -> bool:
    """Keep a yarn that is told behind the stitches made with it."""
    reader.items.insert(-1, yarn)
    return True


def read_bare_yarn(reader: Reader) -> bool:
    """ "A sc 7, B sc 1", "5 sc A", "B as Row 2": a yarn beside its stitches."""
    cursor = reader.cursor
    start = cursor.at
    if cursor.is_kind(Kind.NUMBER):
        return _number_in_yarn(reader)
    token = cursor.token
    own = reader.text[token.start : token.end]
    if token.text not in reader.yarns or not own[:1].isupper():
        return False
    name = _yarn_name(reader, must=True)
    behind = _follows_work(reader, start)
    ahead = cursor.is_kind(Kind.NUMBER, Kind.COLON) or cursor.stitch_at() is not None
    ahead = ahead or cursor.is_word("as", "rep", "repeat")  # "R3-4 B as R2"
    ahead = ahead or (cursor.is_kind(Kind.COMMA) and cursor.peek().kind is Kind.NUMBER)
    if not name or not (_ended(cursor) if behind else ahead):
        cursor.at = start
        return False
    cursor.take_kind(Kind.COLON)
    yarn = Yarn(name, cursor.span_from(start))
    return _of_last(reader, yarn) if behind else reader.add(yarn) and _bare_run(reader)


def _bare_run(reader: Reader) -> bool:
    """ "A 7, B 1", "with A 7 sts": a number alone is of the stitch that is worked."""
    cursor = reader.cursor
    start = cursor.at
    cursor.take_kind(Kind.COMMA)
    amount = cursor.number()
    cursor.take_word(*STITCH_NOUNS)
    if amount is None or not _ended(cursor):
        cursor.at = start
        return True
    return reader.add(Make(UNNAMED, amount.span, amount))


def _number_in_yarn(reader: Reader) -> bool:
    """ "7 A, 1 B, 7 A": so many of the stitch that the pattern works."""
    cursor = reader.cursor
    start = cursor.at
    own = reader.text[cursor.peek().start : cursor.peek().end]
    known = cursor.peek().text in reader.yarns and own[:1].isupper()
    amount = cursor.number() if known else None
    name = _yarn_name(reader, must=True) if amount is not None else ""
    if amount is None or not name or not _ended(cursor):
        cursor.at = start
        return False
    span = cursor.span_from(start)
    reader.add(Yarn(name, Span(amount.span.end, span.end)))
    return reader.add(Make(UNNAMED, amount.span, amount))


def _ended(cursor: Cursor) -> bool:
    return cursor.is_kind(
        Kind.COMMA, Kind.SEMICOLON, Kind.STOP, Kind.LINE, Kind.END, Kind.CLOSE, Kind.STAR
    )


def _hook_words(reader: Reader, start: int) -> bool:
    """ "using larger hook", "with 4mm hook": nothing is worked."""
    cursor = reader.cursor
    if not cursor.take_word("using", "with"):
        return False
    for step in range(6):
        if cursor.peek(step).text in ("hook", "hooks", "strands", "strand"):
            for _ in range(step + 1):
                cursor.step()
            if cursor.take_word("and") and (name := _yarn_name(reader, must=True)):
                return reader.add(Yarn(name, cursor.span_from(start)))
            return reader.remark(cursor.span_from(start))
    cursor.at = start
    return False


_COLOUR_WORDS = ("colour", "color", "shade")
_MAIN_OR_CONTRAST = ("main", "contrast", "contrasting")
_GENERIC = (*_COLOUR_WORDS, *_MAIN_OR_CONTRAST)


def _numbered(reader: Reader) -> str:
    """ "Shade 2", behind the first of its words; "" for other words."""
    cursor = reader.cursor
    before = cursor.tokens[max(0, cursor.at - 1)]
    if before.text not in _COLOUR_WORDS or not cursor.is_kind(Kind.NUMBER):
        return ""
    return reader.text[before.start : cursor.step().end]


def read_yarn_name(reader: Reader, *, new: bool = False) -> str:
    """The name of a yarn that the pattern speaks of, in its own letters; else "".

    With `new` one that it has not spoken of is taken by its capital.
    """
    token = reader.cursor.token
    capital = reader.text[token.start : token.end][:1].isupper()
    known = (new or token.text in reader.yarns) and capital
    return _yarn_name(reader, must=True) if known else ""


def _yarn_name(reader: Reader, *, must: bool) -> str:
    """The name of a yarn here, or "". `must`: only one that is known or has a capital."""
    cursor = reader.cursor
    at = cursor.at
    generic = False
    if cursor.token.text in (
        "yarn",
        "thread",
        "wool",
        *_COLOUR_WORDS,
    ) and cursor.peek().text in (
        "in",
        "into",
        "to",
        "at",
        "between",
        "with",
        ",",
        ".",
    ):
        return cursor.step().text
    if cursor.token.text in ("yarn", *_GENERIC):
        generic = True
        first = cursor.step()
        numbered = _numbered(reader)
        if numbered:
            return numbered
        coloured = cursor.token.text in ("yarn", *_COLOUR_WORDS)
        if first.text in _MAIN_OR_CONTRAST and coloured:
            second = cursor.step()
            return reader.text[first.start : second.end]
        alone = not cursor.is_kind(Kind.WORD) or cursor.is_word(*PREPOSITIONS)
        if first.text in _MAIN_OR_CONTRAST and alone:
            return first.text  # "join contrast in any dc", "join contrast through both"
    token = cursor.token
    own = reader.text[token.start : token.end]
    known = token.text in reader.yarns or token.text in ("mc", "cc")
    capital = own[:1].isupper() and token.kind is Kind.WORD
    plain = (
        at
        and cursor.tokens[at - 1].text == "with"
        and cursor.peek().text in (",", "ch", ":")
    )
    named = known or generic or capital or plain or not must
    is_name = token.text not in _NOT_YARNS or own == "A"
    stands = named and token.kind is Kind.WORD and is_name
    if stands and (token.text in ("mc", "cc") or cursor.stitch() is None):
        cursor.step()
        return _second_word(reader, token)
    cursor.at = at
    return ""


_NOT_YARNS = frozenset(
    "rs ws right wrong a the sl ch sc it next first last each back front row rnd yarn hook "
    "same st sts both to in into with and".split()
)


def _second_word(reader: Reader, token: Token) -> str:
    """Two-word colours: "Sea Glass"; a letter and its number: "C2"."""
    cursor = reader.cursor
    following = cursor.token
    if following.kind is Kind.NUMBER and following.glued and len(token.text) <= 2:
        cursor.step()
        return reader.text[token.start : following.end]
    own = reader.text[following.start : following.end]
    if following.text in reader.yarns and following.kind is Kind.WORD and own[:1].isupper():
        cursor.step()
        return reader.text[token.start : following.end]
    return reader.text[token.start : token.end]


def _yarn_place(reader: Reader) -> tuple[Target | None, str]:
    cursor = reader.cursor
    at = cursor.at
    cursor.take_kind(Kind.COLON)
    cursor.take_phrase("join it")
    standing = ""
    if cursor.take_word("with"):
        cursor.take_word("a", "an")
        cursor.take_word("standing")
        stitch = cursor.stitch()
        if stitch is None:
            cursor.at = at
        else:
            standing = stitch.id
    middle = cursor.at
    placed = cursor.take_word("in", "into", "to", "at")
    if placed and cursor.take_any(_ENDS_OF_ROW):
        return None, standing  # where the next row begins anyway
    if placed:
        pass_loop_of(cursor)
    between = cursor.take_word("between")
    if placed or between:
        target = read_between(cursor) if between else read_target(cursor)
        if target is not None:
            return target, standing
    cursor.at = middle
    target = read_between(cursor) if cursor.take_word("between") else None
    if target is not None:
        return target, standing
    cursor.at = middle if standing else at
    return None, standing


_ENDS_OF_ROW = Sayings(
    f"{the}{end} of {which}row"
    for the in ("the ", "")
    for end in ("end", "start", "beginning")
    for which in ("the last ", "last ", "the ", "this ", "that ", "the previous ")
)


def joins_yarn(reader: Reader) -> bool:
    """Whether "join" is followed by a yarn, so that nothing is closed."""
    cursor = reader.cursor
    token = cursor.peek() if cursor.is_word("the", "your") else cursor.token
    if token.kind is not Kind.WORD:
        return False
    if token.text in ("yarn", "thread", "new", "wool", "mc", "cc", *_GENERIC):
        return True
    if token.text in reader.yarns:
        return True
    own = reader.text[token.start : token.end]
    return own[:1].isupper() and token.text not in ("with", "to", "in", "sl", "ss")
