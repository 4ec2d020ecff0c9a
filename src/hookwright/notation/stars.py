"""Stars and "rep from *": which mark is repeated from, and how often?"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from hookwright.notation.claims import read_claim
from hookwright.notation.cursor import Cursor, Sayings
from hookwright.notation.fold import Again, EndAfter, Item, PlaceMark, Star, TimesMark, fold
from hookwright.notation.lexer import Kind
from hookwright.notation.place_words import across
from hookwright.notation.reader import Reader
from hookwright.notation.targets import read_target
from hookwright.notation.times import GOAL, NUMBER_BEGINS, TOTAL, read_times
from hookwright.notation.tree import (
    Chain,
    InOnePlace,
    Join,
    Loops,
    Make,
    Means,
    Often,
    Recall,
    Remark,
    Repeat,
    Skip,
    Target,
    Times,
    Turn,
    Which,
    Yarn,
)


def read_star(reader: Reader) -> None:
    """A star; one that closes a pair may have a number of times behind it."""
    cursor = reader.cursor
    token = cursor.token
    if _star_to_star(reader) or _count_in_stars(reader):
        return
    cursor.step()
    reader.add(Star(token.value, token.span))
    opened = reader.number_of(Star)
    if opened % 2 == 0 or cursor.tokens[cursor.at - 2].kind is not Kind.LINE:
        if opened % 2 == 0 and _place_after_mark(reader):
            return
        times = _times_after_mark(reader) if opened % 2 == 0 else None
        if times is not None:
            reader.add(TimesMark(times))


def _count_in_stars(reader: Reader) -> bool:
    """ "... across. *45 sc*", "... join. **45 sc.**": a count set off behind its row."""
    cursor = reader.cursor
    start = cursor.at
    level = reader.number_of(Star) % 2 == 0 and reader.mark in (Kind.STOP, Kind.LINE)
    if not level or not reader.has_work() or reader.depth:
        return False
    mark = cursor.step().value
    claim = read_claim(cursor)
    stopped = claim is not None and cursor.take_kind(Kind.STOP, Kind.COLON)
    closed = claim is not None and cursor.is_kind(Kind.STAR) and cursor.step().value == mark
    over = mark > 1 or cursor.is_word(*_ROW_IS_OVER)
    ends = bool(stopped) and over and not cursor.is_word("rep", "repeat")
    ends = ends or cursor.is_kind(Kind.STOP, Kind.LINE, Kind.END)
    if claim is None or not closed or not ends:
        cursor.at = start
        return False
    reader.claims.append(claim)
    return True


_ROW_IS_OVER = ("fasten", "finish", "cut", "break", "turn", "change", "join", "do")


def _place_after_mark(reader: Reader) -> bool:
    """ "*Sc, hdc, 3 dc, hdc, sc* in each loop": what stands between goes into one place."""
    items = reader.items
    opened = [i for i, item in enumerate(items) if isinstance(item, Star)]
    inside = items[opened[-2] + 1 : -1]
    bare = [isinstance(i, Make) and i.target is None for i in inside]
    if len(inside) < _FEWEST_IN_PLACE or not all(
        is_bare or isinstance(i, Chain) for i, is_bare in zip(inside, bare, strict=True)
    ):
        return False
    cursor = reader.cursor
    at = cursor.at
    cursor.take_phrase("all")
    target = read_target(cursor) if cursor.take_word("in", "into") else None
    if target is None or not any(bare):
        cursor.at = at
        return False
    across(cursor)
    return reader.add(PlaceMark(target, cursor.span_from(at)))


_FEWEST_IN_PLACE = 2


_OVER_AND_OVER = Sayings((
    *(
        f"{repeat} {between}{stars}"
        for repeat in ("repeat", "rep", "keep repeating")
        for between in ("between ", "what is between ", "all between ")
        for stars in ("stars", "the stars", "asterisks", "the asterisks")
    ),
    "keep repeating", "rep", "repeat", "repeated", "repeating", "work", "worked",
    "all the way", "over and over", "again and again", "on and on", "and so on", "so on",
    *(
        f"{on}{so}"
        for on in ("keep going", "keep on", "go on", "carry on", "continue", "keep at it")
        for so in (" like that", " like this", " in this way", " that way", " this way",
                   " so", " as before", "")
    ),
))  # fmt: skip


def _times_after_mark(reader: Reader) -> Times | None:
    """A number of times right after a closing mark; "keep repeating" is across."""
    cursor = reader.cursor
    at = cursor.at
    cursor.take_kind(Kind.COMMA)
    cursor.skip_lines()
    if cursor.is_phrase("rep from") or cursor.is_phrase("repeat from"):
        cursor.at = at
        return None
    start = cursor.at
    repeated = cursor.take_any(_OVER_AND_OVER)
    if repeated and cursor.token.kind is Kind.STAR:
        cursor.at = at
        return None
    times = read_times(cursor)
    if times is not None:
        return times
    ends = cursor.is_kind(Kind.COMMA, Kind.STOP, Kind.END, Kind.SEMICOLON)
    if repeated and (ends or cursor.is_word("and", "but")):
        return Times(Often.ACROSS, cursor.span_from(start))
    cursor.at = at
    return None


def _star_to_star(reader: Reader) -> bool:
    """ "* to * across until 3 sts are left", "* to ** once": a repeat told by its stars."""
    cursor = reader.cursor
    if cursor.peek().text != "to" or cursor.peek(2).kind is not Kind.STAR:
        return False
    start = cursor.at
    mark = cursor.step().value
    cursor.step()
    to = cursor.step().value
    times = read_times(cursor)
    return reader.add(Again(mark, to, times, cursor.span_from(start)))


_MARKS_BEFORE = (Kind.COMMA, Kind.SEMICOLON, Kind.DASH)
_ENDS_ROW = (Kind.STOP, Kind.OPEN, Kind.END, Kind.LINE, Kind.DASH, Kind.EQUALS)


_ALL = ("all", "do", "work")
_DO_THIS = Sayings(
    f"{do} {this}"
    for do in ("do", "work", "repeat")
    for this in ("this", "that", "it", "these", "so")
)
"""What a sentence begins with that tells how often the one before it is worked."""
_OF_THESE = Sayings(("of this", "of these", "this", "these", "that", "it"))
TIMES_BEGIN = NUMBER_BEGINS | {*_ALL, *_OF_THESE.by_first_word}
"""What words for how often begin with, behind a list, but for their number."""


def read_times_alone(reader: Reader) -> bool:
    """ "sc 1, inc, 6 times in total": how often, behind a list without brackets."""
    cursor = reader.cursor
    start = cursor.at
    behind_one = cursor.is_word("x") and _is_one(reader.last())
    marked = reader.mark in _MARKS_BEFORE or behind_one
    marked = marked or (reader.mark is Kind.STOP and cursor.is_any(_DO_THIS))
    if reader.depth or not marked or not reader.has_work():
        return False
    if cursor.peek().text in cursor.own_words:  # "2X, A, 4X": X is a stitch here
        return False
    cursor.take_word(*_ALL)
    cursor.take_any(_OF_THESE)
    times = read_times(cursor)
    numbered = times is not None and times.often in (Often.TIMES, Often.MORE)
    if times is None or not numbered or not _comes_to_end(cursor):
        cursor.at = start
        return False
    return reader.add(Again(0, 0, times, cursor.span_from(start)))


def take_bracketed_times(cursor: Cursor) -> Times | None:
    """How often, in brackets of its own: "(6x)", "(6 times)", "(repeat 6 times)"."""
    start = cursor.at
    if cursor.take_kind(Kind.OPEN):
        led = cursor.take_word("rep", "repeat", "rpt", "x")
        amount = cursor.number()
        told = cursor.take_word("x", "times", "time") or led
        if amount is not None and told and cursor.take_kind(Kind.CLOSE):
            return Times(Often.TIMES, cursor.span_from(start), amount)
    cursor.at = start
    return None


def _is_one(item: Item | None) -> bool:
    """Whether a list ends with one stitch, told by its number: "sc 4, dec 1"."""
    if not isinstance(item, Make) or item.target is not None or item.amount is None:
        return False
    return item.amount.values == (1,)


def read_bracketed_times(reader: Reader) -> bool:
    """ "sc 1, inc 1 (6x) = 18": of the whole list, where nothing else is worked."""
    cursor = reader.cursor
    start = cursor.at
    worked = [item for item in reader.items if isinstance(item, (Make, Repeat))]
    placed = any(isinstance(item, Make) and item.target is not None for item in worked)
    if reader.depth or not worked or placed:
        return False
    times = take_bracketed_times(cursor)
    if times is None or not _comes_to_end(cursor):
        cursor.at = start
        return False
    return reader.add(Again(0, 0, times, cursor.span_from(start)))


def _comes_to_end(cursor: Cursor) -> bool:
    """Whether no more is worked in the row: its end, its count, a join or turn."""
    if cursor.token.kind in (Kind.COMMA, Kind.SEMICOLON):
        return cursor.peek().text in (
            "join",
            "joining",
            "turn",
            "sl",
            "ss",
            "fasten",
            "close",
            "omit",
            "omitting",
        )
    return cursor.token.kind in _ENDS_ROW or cursor.is_word("join", "turn")


def read_repeat_from(reader: Reader) -> bool:
    """ "rep from * 9 more times", "go on from * to *", "repeat to end"."""
    cursor = reader.cursor
    start = cursor.at
    cursor.take_word("and", "then")
    cursor.skip_lines()
    said = cursor.take_word("rep", "repeat", "rpt", "repeating", "repeats", "reps") or (
        cursor.take_phrase(
            "go on",
            "continue",
            "carry on",
            "keep repeating",
            "keep on",
            "work again",
            "cont",
            "keep going",
        )
    )
    if said and (_stitch_again(reader) or _from_chain_named(reader)):
        return True
    at = cursor.at
    cursor.take_phrase(
        "this pattern",
        "the pattern",
        "this patt",
        "pattern",
        "working",
        "work",
        "the above",
        "this",
        "these",
        "in this way",
        "in that way",
        "that way",
        "like this",
        "like that",
        "in this manner",
        "in pattern",
        "in patt",
        "once",
    )
    from_word = cursor.take_word("from", "between")
    cursor.skip_lines()
    cursor.take_phrase("instructions", "instruction", "the", "what is between")
    cursor.take_word("first", "last", "previous")
    if cursor.token.kind is Kind.STAR:
        return _again(reader, start, from_word=from_word or said)
    if said and from_word and cursor.take_word("star", "asterisk"):
        return _again_times(reader, start, 1, 0)
    quotes = cursor.token.text in ('"', "“", "”")
    if said and quotes:  # the star was lost in copying
        cursor.step()
        if cursor.token.text in ('"', "“", "”"):
            cursor.step()
        return _again_times(reader, start, 1, 0)
    cursor.at = at
    if said and not from_word:
        return _repeat_to_end(reader, start)
    cursor.at = start
    return False


_ALL_ALONG = Sayings((
    "all along", "all across", "all the way along", "all the way across", "all the way",
))  # fmt: skip


def read_all_along(reader: Reader) -> bool:
    """ "Cross over the next 2 sts all along until 1 st is left": the last stitch, again."""
    cursor = reader.cursor
    start = cursor.at
    last = reader.last()
    number = last.target.amount if isinstance(last, Make) and last.target else None
    if number is None or not isinstance(last, Make) or not cursor.take_any(_ALL_ALONG):
        cursor.at = start
        return False
    span = cursor.span_from(start)
    times = read_times(cursor) or Times(Often.ACROSS, span)
    reader.items[-1] = Repeat((last,), times, last.span.to(cursor.span_from(start)))
    return True


def _from_chain_named(reader: Reader) -> bool:
    """ "Ch 1, skip 1, sc in next st; rep from ch 1 to end": from the last such chain on."""
    cursor = reader.cursor
    start = cursor.at
    led = cursor.take_word("from") and not reader.number_of(Star)
    cursor.take_word("the", "last")
    named = led and cursor.take_word("ch", "chain")
    amount = cursor.number() if named else None
    times = read_times(cursor) if amount is not None else None
    places = [
        i for i, item in enumerate(reader.items)
        if isinstance(item, Chain) and amount is not None
        and item.amount.values == amount.values
    ]  # fmt: skip
    behind = places[-1] if places else 0
    if times is None or not behind:
        cursor.at = start
        return False
    if times.often is Often.TIMES and times.noun not in (TOTAL, GOAL):
        times = replace(times, often=Often.UNCLEAR)
    body = fold(reader.items[behind:])
    span = body[0].span.to(cursor.span_from(start))
    reader.items[behind:] = [Repeat(body, times, span)]
    return True


def _stitch_again(reader: Reader) -> bool:
    """ "X-st over next 2 sts, repeat x-st to last st": the last stitch, over and over."""
    cursor = reader.cursor
    start = cursor.at
    cursor.take_word("the", "this", "that", "your")
    stitch = cursor.stitch()
    last = reader.last()
    same = stitch is not None and isinstance(last, Make) and last.stitch == stitch.id
    times = read_times(cursor) if same else None
    if times is None or not isinstance(last, Make) or reader.number_of(Star) % 2:
        cursor.at = start
        return False
    if times.often is Often.TIMES and times.noun not in (TOTAL, GOAL):
        times = replace(times, often=Often.UNCLEAR)
    reader.items[-1] = Repeat((last,), times, last.span.to(cursor.span_from(start)))
    return True


def _again(reader: Reader, start: int, *, from_word: bool) -> bool:
    cursor = reader.cursor
    mark = cursor.step().value
    to = 0
    at = cursor.at
    through = cursor.take_word("to", "through", "and") or cursor.take_kind(Kind.DASH)
    if through and cursor.token.kind is Kind.STAR:
        to = cursor.step().value
    else:
        cursor.at = at
    if not from_word and not to:
        cursor.at = start
        return False
    return _again_times(reader, start, mark, to)


def _again_times(reader: Reader, start: int, mark: int, to: int) -> bool:
    cursor = reader.cursor
    at = cursor.at
    cursor.take_kind(Kind.COMMA)
    stops = _until_last_has(cursor)
    if stops is not None:
        span = cursor.span_from(start)
        reader.add(Again(mark, to, Times(Often.ACROSS, span), span))
        return reader.add(EndAfter(stops, 0, span))
    done = cursor.take_any(_DONE)
    times = read_times(cursor) or _in_each(cursor)
    if times is not None and done:
        times = replace(times, noun=TOTAL)
    if times is None:
        cursor.at = at
    elif times.often is Often.TIMES and times.noun not in (TOTAL, GOAL):
        times = replace(times, often=Often.UNCLEAR)
    span = cursor.span_from(start)
    return reader.add(Again(mark, to, times, span))


_DONE = Sayings(
    f"until {have} {done}{it}"
    for have in ("you have", "you've", "it has been", "this has been")
    for done in ("done", "worked", "made", "repeated")
    for it in (" it", " this", " that", "")
)
"""What leads to a number that takes in the first working: "... done it ten times"."""


_HAVE_WORKED = Sayings(
    f"until {you} {worked}"
    for you in ("you have", "you've", "you")
    for worked in ("worked", "made", "work", "put", "made your", "crocheted")
)


def _until_last_has(cursor: Cursor) -> str | None:
    """ "Until the last shell has its sc", "until you have worked a sc into the last shell".

    The stitch behind which the last working stops.
    """
    at = cursor.at
    if cursor.take_any(_HAVE_WORKED):
        cursor.take_word("a", "an", "the", "one", "1", "your")
        stitch = cursor.stitch()
        last = (
            _last_group(cursor)
            if stitch and cursor.take_word("in", "into", "on")
            else False
        )
        if stitch is not None and last:
            return stitch.id
    cursor.at = at
    last = cursor.take_word("until", "till", "til") and _last_group(cursor)
    if last and cursor.take_word("has", "gets", "got", "holds"):
        cursor.take_word("its", "a", "an", "the", "had", "got")
        stitch = cursor.stitch()
        if stitch is not None:
            return stitch.id
    cursor.at = at
    return None


def _last_group(cursor: Cursor) -> bool:
    """ "The last shell", "the middle of the last fan": a stitch or group, the last one."""
    cursor.take_phrase("the middle of", "the centre of", "the center of")
    target = read_target(cursor)
    return target is not None and target.which is Which.LAST and target.amount is None


def _in_each(cursor: Cursor) -> Times | None:
    """ "Rep from * in each tile", "over each sp across": as often as there are such."""
    start = cursor.at
    led = cursor.take_word("in", "into", "for", "over", "on", "around")
    target = read_target(cursor) if led else None
    if target is None or target.which is not Which.EACH or target.amount is not None:
        cursor.at = start
        return None
    across(cursor)
    return Times(Often.ACROSS, cursor.span_from(start))


def _these_stitches(cursor: Cursor) -> bool:
    """ "(Repeat) these 2 sts across", "the last 4 stitches": what was worked."""
    at = cursor.at
    if cursor.take_phrase("these", "those", "the last", "last", "the"):
        cursor.number()
        if cursor.take_word("sts", "stitches"):
            return True
    cursor.at = at
    return False


def read_list_round(reader: Reader) -> bool:
    """ "Sc in the first, 2 sc in next, all round": the whole list, over and over."""
    cursor = reader.cursor
    start = cursor.at
    cursor.take_word("and")
    so = cursor.take_word("so")
    marked = so or cursor.tokens[start - 1].kind in _MARKS_BEFORE
    if reader.depth or not marked or not across(cursor):
        cursor.at = start
        return False
    span = cursor.span_from(start)
    worked = [item for item in reader.items if not isinstance(item, _QUIET)]
    starred = bool(worked) and isinstance(worked[0], Star) and reader.number_of(Star) == 1
    worked = worked[starred:]
    if not _comes_to_end(cursor) or not _is_list_of_places(worked, so=so):
        cursor.at = start
        return False
    if starred:
        return reader.add(TimesMark(Times(Often.ACROSS, span)))
    first = worked[0]
    if isinstance(first, Make) and first.target and first.target.which is Which.FIRST:
        one = replace(first, target=replace(first.target, which=Which.NEXT))
        reader.items[reader.items.index(first)] = one
    return reader.add(Again(0, 0, Times(Often.ACROSS, span), span))


_QUIET = (Chain, Remark, Turn, Loops, Yarn, Join, Means)
_FEWEST_OF_LIST = 2


def _is_list_of_places(worked: Sequence[Item], *, so: bool) -> bool:
    """Whether all that was told goes into so many places, one thing after the other."""
    told = all(
        isinstance(item, (Make, Skip, InOnePlace))
        and (item.target is None or _is_of_few(item.target))
        for item in worked
    )
    return told and len(worked) >= (1 if so else _FEWEST_OF_LIST)


def _is_of_few(target: Target) -> bool:
    """Whether a place is told with its number, and not all along a row."""
    few = target.amount is not None or target.which in (Which.NEXT, Which.FIRST)
    return few and target.until is None and not target.from_hook


def _repeat_to_end(reader: Reader, start: int) -> bool:
    """ "rep to end", "repeat across": without a star."""
    cursor = reader.cursor
    named = cursor.take_phrase("this pattern", "the pattern", "this patt", "pattern")
    named = named or _these_stitches(cursor)
    if not named and cursor.take_word("this") and cursor.is_word("round", "rnd", "row"):
        cursor.at = start
        return False
    times = read_times(cursor) or _on_and_on(reader, start)
    if times is None or cursor.is_word("rows", "row"):
        cursor.at = start
        return False
    if named and times.amount and not (reader.has_work() or reader.depth):
        span = cursor.span_from(start)  # "Rep pattern three times": its rows
        return reader.add(Recall((), span, times=times, pattern=True))
    if times.often is Often.TIMES and times.noun not in (TOTAL, GOAL):
        times = replace(times, often=Often.UNCLEAR)
    return reader.add(Again(0, 0, times, cursor.span_from(start)))


def _on_and_on(reader: Reader, start: int) -> Times | None:
    """ "*Sc 3, dec; keep repeating, but ...": all along, where a star has begun it."""
    cursor = reader.cursor
    keeps = cursor.tokens[start].text == "keep" or cursor.tokens[start + 1].text == "keep"
    begun = keeps and reader.number_of(Star) % 2 == 1
    if not begun or not cursor.is_kind(Kind.COMMA, Kind.SEMICOLON, Kind.STOP):
        return None
    return Times(Often.ACROSS, cursor.span_from(start))
