"""What is said within a row and works nothing: notes, explanations, numbers again?"""

from __future__ import annotations

from msgspec.structs import replace

from hookwright.notation.claims import read_claim
from hookwright.notation.cursor import Cursor, Sayings
from hookwright.notation.label_words import CALLED
from hookwright.notation.lexer import Kind
from hookwright.notation.makes import SOLID_KINDS, is_square_of_net
from hookwright.notation.place_words import STITCH_NOUNS, across, everything
from hookwright.notation.reader import Reader
from hookwright.notation.targets import read_between, read_target
from hookwright.notation.tree import InOnePlace, Make, Remark, Which

_NOTED = ("note", "notes", "nb", "tip", "hint", "reminder")


def read_note(reader: Reader) -> bool:
    """ "(66) Pattern note: the stitches swap, so it is always dc in sc": no more work."""
    cursor = reader.cursor
    start = cursor.at
    if not reader.claims or reader.depth:
        return False
    cursor.take_word("pattern", "please", "stitch", "designer's", "a")
    if not cursor.take_word(*_NOTED) or not cursor.take_kind(Kind.COLON, Kind.DASH):
        cursor.at = start
        return False
    while not cursor.done() and not (cursor.is_kind(Kind.LINE) and cursor.token.value > 1):
        cursor.step()
    return reader.remark(cursor.span_from(start))


_SUBJECTS = frozenset("the these those all".split())
_SAYS = frozenset(
    "are is form forms become becomes lie lies were was stand stands look looks".split()
)
_OF_WORK = frozenset("in into worked made crocheted placed together skipped left".split())
_STOPS = (Kind.COLON, Kind.STOP, Kind.SEMICOLON, Kind.COMMA, Kind.END, Kind.LINE)


def read_explanation(reader: Reader) -> bool:
    """ "The 2 dc at each edge are a pair now: ...": of stitches that are there already."""
    cursor = reader.cursor
    if reader.depth or cursor.token.text not in _SUBJECTS:
        return False
    start = at = cursor.at
    words: list[str] = []
    depth = 0  # commas in brackets part the numbers of sizes
    while (kind := cursor.tokens[at].kind) is not Kind.END and (
        depth or kind not in _STOPS
    ):
        depth += (kind is Kind.OPEN) - (kind is Kind.CLOSE)
        words.append(cursor.tokens[at].text)
        at += 1
    verb = next((i for i, word in enumerate(words) if word in _SAYS), 0)
    of_stitches = any(
        token.text in STITCH_NOUNS or token.kind is Kind.NUMBER
        for token in cursor.tokens[start + 1 : start + verb]
    )
    worked = _OF_WORK.intersection(words)
    if not of_stitches or worked:
        return False
    cursor.at = at
    return reader.remark(cursor.span_from(start))


SAID_OF_STITCH = frozenset(
    "are aren't is isn't being do does don't doesn't count counts counting never".split()
)


def read_said_of_stitch(reader: Reader) -> bool:
    """ "Picots are no stitches.", "a bobble being treated as any other": no work."""
    cursor = reader.cursor
    start = cursor.at
    marked = reader.mark in (*_STOPS, Kind.COMMA)
    if reader.depth or not marked or not reader.has_work():
        return False
    cursor.take_word("a", "an", "the", "all", "every", "each")
    said = cursor.stitch() is not None and cursor.is_word(*SAID_OF_STITCH)
    if not said or (cursor.is_word("count") and cursor.peek().kind is Kind.NUMBER):
        cursor.at = start
        return False
    while not cursor.is_kind(*_STOPS, Kind.CLOSE, Kind.OPEN):
        cursor.step()
    return reader.remark(cursor.span_from(start))


_ANY_ONE = ("a", "an", "every", "each", "any")


_HOOK_GOES = Sayings(
    f"{lead} {whose} hook" for lead in ("put", "push") for whose in ("the", "your", "my")
)


def read_where_hook_goes(reader: Reader) -> bool:
    """ "Put the hook down into the ch-1 sp of Rnd 2 and catch the ch": how it is made."""
    cursor = reader.cursor
    start = cursor.at
    if not cursor.take_any(_HOOK_GOES):
        return False
    while cursor.token.kind not in _STOPS and not cursor.is_kind(Kind.COMMA):
        cursor.step()
    return reader.remark(cursor.span_from(start))


def read_how_begun(reader: Reader) -> bool:
    """ "Begin a solid mesh with ch 3, an open one with ch 5.": how it is done each time."""
    cursor = reader.cursor
    start = cursor.at
    told = reader.items and not reader.depth and cursor.take_word("begin", "start")
    if not told or not cursor.take_word(*_ANY_ONE) or _names_rows(cursor):
        cursor.at = start
        return False
    return _to_sentence_end(reader, start)


def _to_sentence_end(reader: Reader, start: int) -> bool:
    """Passes what is left of a sentence as a remark."""
    cursor = reader.cursor
    while not cursor.is_kind(Kind.STOP, Kind.SEMICOLON, Kind.LINE, Kind.END):
        cursor.step()
    return reader.remark(cursor.span_from(start))


def read_how_each(reader: Reader) -> bool:
    """ "For an open mesh over a solid one, ch 2, sk 2, dc in next dc.": of those worked."""
    cursor = reader.cursor
    start = cursor.at
    cursor.take_word("and", "but")
    told = not reader.depth and cursor.take_word("for") and cursor.take_word(*_ANY_ONE)
    if not told or not _is_worked_here(reader):
        cursor.at = start
        return False
    return _to_sentence_end(reader, start)


def _is_worked_here(reader: Reader) -> bool:
    """Whether the row has worked squares or stitches of the name that stands here."""
    made = {item.stitch for item in reader.items if isinstance(item, Make)}
    named = _take_square(reader.cursor)
    if not named:
        stitch = reader.cursor.stitch()
        named = stitch.id if stitch is not None else ""
    return named in made and reader.cursor.is_word(*_UPON)


def _take_square(cursor: Cursor) -> str:
    """The square of filet named here, passed: "open mesh"; "" where none is."""
    words = [cursor.token.text, cursor.peek().text]
    if not is_square_of_net(words):
        return ""
    cursor.step()
    cursor.step()
    return "solid mesh" if words[0] in SOLID_KINDS else "open mesh"


_UPON = ("over", "above", "upon", "on")
_MADE_OTHER = ("open", "close", "fill")


def read_square_upon_square(reader: Reader) -> bool:
    """ "Over a solid mesh a solid mesh is 3 dc.", "To open one, ch 2 ...": no work.

    How each is done of the squares that the row has told by their names. So is "An open
    mesh over a solid one skips 2 dc."
    """
    cursor = reader.cursor
    start = cursor.at
    squares = any(is_square_of_net(_made_words(item)) for item in reader.items)
    if reader.depth or reader.mark is not Kind.STOP or not squares:
        return False
    upon = cursor.take_word(*_UPON)
    other = not upon and cursor.take_word("to") and cursor.take_word(*_MADE_OTHER)
    named = cursor.take_word(*_ANY_ONE) and _take_square(cursor)
    cursor.take_kind(Kind.COMMA)
    upon_last = named and not (upon or other) and cursor.take_word(*_UPON)
    again = upon and cursor.take_word(*_ANY_ONE) and _take_square(cursor)
    if not named or not (again or other or upon_last):
        cursor.at = start
        return False
    return _to_sentence_end(reader, start)


def _made_words(item: object) -> list[str]:
    return item.stitch.split() if isinstance(item, Make) else []


def _names_rows(cursor: Cursor) -> bool:
    """ "Start each row with ch 1": this one as well, so it is work."""
    return any(cursor.peek(ahead).text in CALLED for ahead in range(2))


_BEGUN = Sayings((
    "beginning with", "beginning in", "beginning at", "starting with", "starting in",
    "starting at", "the first of them", "the first of these", "the first one", "from",
))  # fmt: skip
_ENDED = Sayings(
    ("and ending with", "and ending in", "ending with", "ending in", "to", "up to")
)


def read_where_begun(reader: Reader) -> bool:
    """ "4 tr in each gap, beginning with the gap beside the edge": one of them all."""
    cursor = reader.cursor
    start = cursor.at
    last = reader.last()
    target = last.target if isinstance(last, (Make, InOnePlace)) else None
    each = target is not None and target.which is Which.EACH and target.amount is None
    if not each or not cursor.take_any(_BEGUN):
        return False
    if not _names_first(reader) or not _is_stop(reader):
        cursor.at = start
        return False
    return reader.remark(cursor.span_from(start))


def _names_first(reader: Reader) -> bool:
    """ "In the gap between the 2 tr and the first group, to the last": none left out."""
    cursor = reader.cursor
    if cursor.take_word("between"):
        first = read_between(cursor)
    else:
        cursor.take_word("in", "into")
        first = read_target(cursor)
    if first is None or (first.ordinal or 1) > 1 or first.noun == "ch":
        return False
    if cursor.take_any(_ENDED):
        return read_target(cursor) is not None
    return True


def _is_stop(reader: Reader) -> bool:
    return reader.cursor.is_kind(*_STOPS, Kind.CLOSE)


LIES_SIGNS = frozenset(
    "under below beneath underneath beside opposite alongside to".split()
)
_LIES = Sayings(
    f"{just}{where}"
    for just in ("just ", "right ", "directly ", "exactly ", "")
    for where in (*sorted(LIES_SIGNS - {"to"}), "next to")
)


def read_where_it_lies(reader: Reader) -> bool:
    """ "2 sc in the last one, under the first 2 sc": beside what the place is found."""
    cursor = reader.cursor
    start = cursor.at
    last = reader.last()
    placed = isinstance(last, (Make, InOnePlace)) and last.target is not None
    if not placed or not cursor.take_any(_LIES) or read_target(cursor) is None:
        cursor.at = start
        return False
    if not _is_stop(reader):
        cursor.at = start
        return False
    return reader.remark(cursor.span_from(start))


def read_number_again(reader: Reader) -> bool:
    """ "2 dc in every gap, 20 times in all", "20 in all": the places, for the maker."""
    cursor = reader.cursor
    told = (item for item in reversed(reader.items) if not isinstance(item, Remark))
    last = next(told, None)
    if not isinstance(last, Make) or last.target is None:
        return False
    every = last.target.which is Which.EACH and last.target.amount is None
    start = cursor.at
    number = cursor.number() if every and cursor.is_kind(Kind.NUMBER) else None
    often = number is not None and cursor.take_word("times", "time")
    if number is not None and not often:
        cursor.take_phrase("of them", "of these", "gaps", "spaces", "sps")
    all_told = cursor.take_phrase("in all", "in total", "altogether", "total", "over all")
    if number is None or not (often or all_told):
        cursor.at = start
        return False
    if not cursor.is_kind(*_STOPS, Kind.CLOSE) and not cursor.is_word("then", "and"):
        cursor.at = start
        return False
    return reader.remark(cursor.span_from(start))


_IN_ALL = ("in all", "in total", "altogether", "all told", "so far")
_GOES_ON = (Kind.COMMA, Kind.SEMICOLON)


def read_number_so_far(reader: Reader) -> bool:
    """ "17 dc to the seam and 17 dc from it, 34 dc in all, then ...": no more stitches."""
    cursor = reader.cursor
    start = cursor.at
    told = reader.has_work() and reader.mark in (*_GOES_ON, Kind.DASH)
    if not told or cursor.number() is None or not _takes_unit(cursor):
        cursor.at = start
        return False
    if cursor.take_word("again") and cursor.is_kind(*_STOPS):  # as many as were told once
        return reader.remark(cursor.span_from(start))
    goes_on = cursor.take_phrase(*_IN_ALL) and (
        cursor.is_kind(*_GOES_ON) or cursor.is_word("then", "and")
    )
    if not goes_on or cursor.peek().text in _ENDS_ROW:
        cursor.at = start
        return False
    return reader.remark(cursor.span_from(start))


_ENDS_ROW = frozenset("turn turning join joining sl ss fasten".split())


def _takes_unit(cursor: Cursor) -> bool:
    return cursor.take_word(*STITCH_NOUNS) or cursor.stitch() is not None


_OTHER_WORDS = Sayings((
    "that's to say", "that is to say", "in other words", "which is to say", "i e", "ie",
))  # fmt: skip


def read_other_words(reader: Reader) -> bool:
    """ "That's to say into the top of the row under it": what was said, once more."""
    cursor = reader.cursor
    start = cursor.at
    if not cursor.take_any(_OTHER_WORDS):
        return False
    while not cursor.done() and not cursor.is_kind(*_STOPS, Kind.CLOSE):
        cursor.step()
    return reader.remark(cursor.span_from(start))


_AT_THE_END = Sayings((
    "at the end of", "at end of", "by the end of", "after", "when you finish", "on",
))  # fmt: skip
_HAVE = frozenset("you you'll there".split())


def read_count_of_row(reader: Reader) -> bool:
    """ "At the end of Round 8 you have 98 dc": the count of a row told by number."""
    cursor = reader.cursor
    start = cursor.at
    told = reader.has_work() and not reader.depth and cursor.take_any(_AT_THE_END)
    row = cursor.number() if told and cursor.take_word(*CALLED) else None
    cursor.take_kind(Kind.COMMA)
    claim = read_claim(cursor) if row is not None and cursor.is_word(*_HAVE) else None
    number = row.at(0) if row is not None else None
    if claim is None or number is None:
        cursor.at = start
        return False
    figures = tuple(replace(figure, row=number) for figure in claim.figures)
    reader.claims.append(replace(claim, figures=figures, span=cursor.span_from(start)))
    return True


_THERE_ARE = Sayings(
    f"{so}{there}"
    for so in ("", "so ", "so that ")
    for there in ("there are", "there will be", "there should be", "you have")
)
_OF_EACH = Sayings((
    "in each", "in every", "on each", "on every", "to a", "to each", "to every", "per",
))  # fmt: skip


def read_number_in_each(reader: Reader) -> bool:
    """ "So there are 6 dc and 1 sp to a row", "there are 8 dc in each petal": no work."""
    cursor = reader.cursor
    start = cursor.at
    if not cursor.take_any(_THERE_ARE) or cursor.number() is None:
        cursor.at = start
        return False
    of_each = False
    while not cursor.is_kind(*_STOPS, Kind.CLOSE, Kind.OPEN):
        of_each = cursor.take_any(_OF_EACH) or of_each
        cursor.step()
    if not of_each:
        cursor.at = start
        return False
    return reader.remark(cursor.span_from(start))


_THAT_IS = Sayings(
    f"{this} {verb}"
    for this in ("that", "this", "which", "it")
    for verb in ("is", "was", "makes", "completes", "finishes", "gives", "counts as")
)


_DONE = ("made", "done", "completed", "complete", "worked")


def _is_first_unit(cursor: Cursor, *, alone: bool = False) -> bool:
    """ "(That is) the first block.", "your first tile done.": no work.

    A sentence that is `alone` says that it is the maker's own, or that it is done.
    """
    at = cursor.at
    own = cursor.is_word("your")
    named = cursor.take_word("the", "your") and cursor.take_kind(Kind.ORDINAL)
    unit = cursor.stitch() if named or cursor.take_word("first") else None
    told = cursor.take_word(*_DONE) or own or not alone
    if unit is not None and told and cursor.is_kind(*_STOPS):
        return True
    cursor.at = at
    return False


def read_own_number(reader: Reader) -> bool:
    """ "That is Row 1, 9 open squares.": which row was worked, and perhaps its count."""
    cursor = reader.cursor
    start = cursor.at
    behind = reader.has_work() and not reader.depth
    told = behind and cursor.take_any(_THAT_IS)
    alone = behind and not told and reader.mark is Kind.STOP
    if (told or alone) and _is_first_unit(cursor, alone=alone):
        return reader.remark(cursor.span_from(start))
    told = told and cursor.take_word(*CALLED)
    if not told or not cursor.take_kind(Kind.NUMBER):
        cursor.at = start
        return False
    cursor.take_word(*_DONE)
    ends = cursor.is_kind(*_STOPS, Kind.DASH, Kind.OPEN) or cursor.is_word("with", "and")
    if not ends:
        cursor.at = start
        return False
    reader.remark(cursor.span_from(start))
    at = cursor.at
    cursor.take_kind(Kind.COMMA, Kind.COLON, Kind.DASH)
    cursor.take_word("with", "and")
    claim = read_claim(cursor)
    if claim is None:
        cursor.at = at
    else:
        reader.claims.append(claim)
    return True


_DOUBLES = Sayings(
    f"{double} the {number}{sts}"
    for double in ("double", "doubling")
    for number in ("number of ", "count of ", "")
    for sts in ("stitches", "sts", "stitch count", "st count", "count")
)


def read_doubled(reader: Reader) -> bool:
    """ "Double the number of stitches by working 2 sc in each": what comes of the work."""
    cursor = reader.cursor
    start = cursor.at
    if not cursor.take_any(_DOUBLES):
        return False
    across(cursor)
    if cursor.take_word("by", "with"):
        cursor.take_word("working", "making", "putting", "placing")
        return reader.remark(cursor.span_from(start))
    cursor.take_kind(Kind.COLON, Kind.DASH)
    if not reader.has_work() and cursor.is_kind(*_STOPS, Kind.OPEN):
        span = cursor.span_from(start)
        return reader.add(Make("inc", span, None, everything(span)))
    return reader.remark(cursor.span_from(start))


_USED = frozenset("used needed".split())
_IS_ARE = frozenset("is are".split())
_TELLS_PLACE = frozenset("in into each every over across".split())


def read_what_is_used(reader: Reader) -> bool:
    """ "Dc are not used here, only sc.": which stitches there are, and none is worked."""
    cursor = reader.cursor
    start = at = cursor.at
    begins = reader.mark in (Kind.STOP, Kind.LINE, Kind.SEMICOLON) and not reader.depth
    before = cursor.tokens[start - 1].kind if start else Kind.LINE
    if not begins or before not in (Kind.STOP, Kind.LINE, Kind.SEMICOLON):
        return False
    words: set[str] = set()
    while cursor.tokens[at].kind not in (Kind.STOP, Kind.SEMICOLON, Kind.LINE, Kind.END):
        words.add(cursor.tokens[at].text)
        at += 1
    if not (words & _USED and words & _IS_ARE) or words & _TELLS_PLACE:
        return False
    cursor.at = at
    return reader.remark(cursor.span_from(start))


def read_what_comes(reader: Reader) -> bool:
    """ "Now the scallops: miss 2, 5 dc in next": what the work behind it is called."""
    cursor = reader.cursor
    start = cursor.at
    led = not reader.depth and cursor.take_word("now", "next", "then", "for")
    cursor.take_word("for", "come")
    named = led and cursor.take_word("the", "your") and cursor.stitch() is not None
    if not named or not cursor.is_kind(Kind.COLON):
        cursor.at = start
        return False
    return reader.remark(cursor.span_from(start))
