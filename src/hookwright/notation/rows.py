"""The instructions of one row: phrases in order, stars and brackets, counts at the end.

Reading never fails. What is not an instruction becomes a remark; a word that stands where a
stitch should stand becomes `Unread`, with the word most likely meant.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from functools import lru_cache, partial

from hookwright.notation.after_every import AFTER_SIGNS, read_after_every
from hookwright.notation.and_so_on import (
    SO_ON_SIGNS,
    read_and_so_on,
    read_first_of_list,
    read_list_along,
)
from hookwright.notation.asides import (
    LIES_SIGNS,
    SAID_OF_STITCH,
    read_count_of_row,
    read_doubled,
    read_explanation,
    read_how_begun,
    read_how_each,
    read_note,
    read_number_again,
    read_number_in_each,
    read_number_so_far,
    read_other_words,
    read_own_number,
    read_said_of_stitch,
    read_square_upon_square,
    read_what_comes,
    read_what_is_used,
    read_where_begun,
    read_where_hook_goes,
    read_where_it_lies,
)
from hookwright.notation.at_the_ends import AT_ENDS_SIGNS, read_at_the_ends
from hookwright.notation.brackets import read_bracket
from hookwright.notation.by_turns import BY_TURNS_SIGNS, read_by_turns
from hookwright.notation.chain_phrases import read_chain_phrase, read_said_of_chain
from hookwright.notation.changes import SAME_WAY_BEGINS, read_change, read_same_way
from hookwright.notation.claims import read_claim
from hookwright.notation.conditionals import crosswise, read_conditional
from hookwright.notation.cursor import Cursor
from hookwright.notation.endings import read_ending, read_replaced
from hookwright.notation.ends_as_row import ENDS_AS_SIGNS, read_ends_as_row
from hookwright.notation.every_nth import every_nth, read_until_so_many
from hookwright.notation.every_row import EVERY_SIGNS, read_every_row
from hookwright.notation.first_of_row import FIRST_SIGNS, read_first_of_row
from hookwright.notation.first_place import FIRST_PLACE_SIGNS, read_first_place
from hookwright.notation.fold import fold
from hookwright.notation.for_each import FOR_EACH_SIGNS, read_followed_by, read_for_each
from hookwright.notation.further_rounds import read_further_rounds
from hookwright.notation.goals import with_goals
from hookwright.notation.held_back import (
    HELD_SIGNS,
    ONE_SIGNS,
    read_held_back,
    read_worked_as_one,
)
from hookwright.notation.in_pattern import read_in_pattern
from hookwright.notation.into_ring import into_ring
from hookwright.notation.lexer import NUMBER_WORDS, Kind, Token
from hookwright.notation.likewise import read_likewise
from hookwright.notation.loops_of_rows import read_loops_of_row
from hookwright.notation.make_phrases import read_make_phrase
from hookwright.notation.named_corners import read_corner
from hookwright.notation.nested import is_too_deep
from hookwright.notation.nth_together import TOGETHER_SIGNS, read_nth_together
from hookwright.notation.numbered_stitches import read_numbered
from hookwright.notation.one_place import read_place_first
from hookwright.notation.other_pieces import JOINED_SIGNS, read_joined_to_piece
from hookwright.notation.others_at import read_others_at
from hookwright.notation.phrases import (
    read_and_in,
    read_bare_across,
    read_called,
    read_explained,
    read_loops_phrase,
    read_motion_phrase,
    read_negated,
    read_recall_phrase,
    read_ring,
    read_row_of,
    read_unproven,
)
from hookwright.notation.place_words import CHAIN_NOUNS, INTO
from hookwright.notation.positions import in_order
from hookwright.notation.rates import read_rate
from hookwright.notation.reached import read_going_on
from hookwright.notation.reader import Reader
from hookwright.notation.recalls import RECALL_SIGNS
from hookwright.notation.row_ends import (
    CLAIM_BEGINS,
    read_bare_claim,
    read_finish,
    read_join,
    read_slip_into_ring,
    read_turn,
)
from hookwright.notation.row_in_stitch import (
    IN_STITCH_SIGNS,
    read_row_in_stitch,
)
from hookwright.notation.rows_of_kinds import read_rows_of_kind
from hookwright.notation.said_asides import read_said_aside
from hookwright.notation.said_of_work import read_name_told
from hookwright.notation.said_repeats import read_list_to_end, read_said_repeat
from hookwright.notation.seams import read_seam
from hookwright.notation.several_from_hook import read_several_from_hook
from hookwright.notation.skips import (
    PASSING,
    SKIP_WORDS,
    read_first_only,
    read_skip_phrase,
    read_start_in,
    told_once,
)
from hookwright.notation.spread import (
    ALONG_SIGNS,
    EVENLY_BEGINS,
    read_evenly,
    read_number_along,
)
from hookwright.notation.spread_list import read_spread_list
from hookwright.notation.stars import (
    TIMES_BEGIN,
    read_all_along,
    read_list_round,
    read_repeat_from,
    read_star,
    read_times_alone,
)
from hookwright.notation.stripes_in_rows import STRIPE_SIGNS, read_stripes_of_rows
from hookwright.notation.times_before import read_times_before
from hookwright.notation.to_the_end import TO_THE_END_SIGNS, read_to_the_end
from hookwright.notation.told_last import (
    read_fewer_last,
    read_in_last,
    read_last_gets,
    read_when_left,
    read_working_last,
)
from hookwright.notation.told_over import TOLD_OVER_SIGNS, read_told_over
from hookwright.notation.tree import TOO_DEEP, Claim, FinishOff, Node, Repeat, Turn, Unread
from hookwright.notation.unread import read_other_word
from hookwright.notation.work import is_work, up_to_finish
from hookwright.notation.yarns import read_bare_yarn, read_yarn
from hookwright.source import Span

# To look a member up in its enumeration takes as long as a call: these are asked for at
# every token.
_WORD, _NUMBER, _OPEN, _CLOSE, _LINE, _END = (
    Kind.WORD,
    Kind.NUMBER,
    Kind.OPEN,
    Kind.CLOSE,
    Kind.LINE,
    Kind.END,
)
_STAR = Kind.STAR
_BEFORE_COUNT = (Kind.DASH, Kind.EQUALS)
_ENDS_SENTENCE = (Kind.SEMICOLON, Kind.STOP)


def read_row(
    cursor: Cursor, text: str, yarns: frozenset[str] = frozenset()
) -> tuple[tuple[Node, ...], tuple[Claim, ...]]:
    """The nodes and printed counts of a row; one that nobody could follow is not read."""
    not_read = (Unread(Span(0, len(text)), TOO_DEEP),), ()
    try:
        nodes, claims = _read(cursor, text, yarns)
    except RecursionError:
        return not_read
    return not_read if is_too_deep(nodes) else (nodes, claims)


def _read(
    cursor: Cursor, text: str, yarns: frozenset[str]
) -> tuple[tuple[Node, ...], tuple[Claim, ...]]:
    words = [_in_words(token) for token in cursor.tokens]
    read_item = partial(_read_item, words, _readers_in(frozenset(words)))
    reader = Reader(cursor, text, read_item, yarns=yarns)
    while not cursor.done():
        reader.read_all()
        if not cursor.done():  # a closing bracket that was never opened
            cursor.step()
    nodes = up_to_finish(told_once(crosswise(with_goals(every_nth(fold(reader.items))))))
    nodes = in_order(into_ring(nodes))
    return nodes, tuple(_of_whole_row(reader.claims, nodes))


def _of_whole_row(claims: list[Claim], nodes: tuple[Node, ...]) -> Iterator[Claim]:
    """The counts but for those told on the way: "... along the side (60 sc), 3 sc in".

    Where one has been told so, another that more stitches are told behind is one as well.
    A row told stretch by stretch, each with its count, ends with that of the last stretch.
    """
    on_the_way = False
    passed_by: list[Claim] = []
    for i, claim in enumerate(claims):
        after = claims[i + 1].span.start if i + 1 < len(claims) else 0
        passed = any(
            claim.span.end <= node.span.start < after and is_work(node) for node in nodes
        )
        passed = passed or (bool(after) and any(_holds(node, claim) for node in nodes))
        passed = passed or _amid_repeat(nodes, claim)
        fewer = i + 1 < len(claims) and _tells_fewer(claim, claims[i + 1])
        on_the_way = passed or (on_the_way and fewer)
        if on_the_way:
            passed_by.append(claim)
        elif not _tells_last_stretch(claim, passed_by):
            yield claim


def _tells_last_stretch(claim: Claim, passed_by: list[Claim]) -> bool:
    """Whether a count tells no more than one on the way, as that of a whole row would."""
    return len(passed_by) > 1 and any(_tells_no_more(claim, other) for other in passed_by)


def _holds(node: Node, claim: Claim) -> bool:
    """Whether a count stands within a repeat: "*... along the side (84 sc)*, twice"."""
    within = node.span.start <= claim.span.start and claim.span.end <= node.span.end
    return within and isinstance(node, Repeat)


def _amid_repeat(nodes: tuple[Node, ...], claim: Claim) -> bool:
    """Whether work of a repeat goes on behind a count: "*... (one point), sc in next 7"."""
    around = (n.body for n in nodes if isinstance(n, Repeat) and _holds(n, claim))
    return any(
        _amid_repeat(body, claim)
        or any(n.span.start >= claim.span.end and is_work(n) for n in body)
        for body in around
    )


def _tells_fewer(claim: Claim, other: Claim) -> bool:
    """Whether a count is one of fewer stitches of one kind than another."""
    return (
        _tells_no_more(claim, other) and claim.figures[0].amount != other.figures[0].amount
    )


def _tells_no_more(claim: Claim, other: Claim) -> bool:
    """Whether a count is one of as many stitches of one kind as another, or fewer."""
    mine, its = claim.figures[0], other.figures[0]
    pairs = zip(mine.amount.values, its.amount.values, strict=False)
    return mine.unit == its.unit and all((a or 0) <= (b or 0) for a, b in pairs)


_MARKS = (_LINE, Kind.COMMA, Kind.SEMICOLON, Kind.STOP, Kind.COLON, Kind.PLUS)


def _read_item(words: list[str], readers: frozenset[Phrase], reader: Reader) -> None:
    cursor = reader.cursor
    token = cursor.token
    if token.kind in _BEFORE_COUNT:
        _dash(reader)
    elif token.text == "|" or _begins_column(reader, token):
        _next_column(reader)
    elif token.kind in _MARKS:
        cursor.step()
        _pass_mark(reader, token)
    elif token.kind is _STAR:
        read_star(reader)
    elif token.kind is not _OPEN or not read_bracket(reader):
        _phrase(words, readers, reader)


def _begins_column(reader: Reader, token: Token) -> bool:
    """Whether a number stands in a column of its own: the last one holds the counts."""
    apart = token.kind is _NUMBER and token.start > 0
    return apart and reader.text[token.start - 1] == "\t" and reader.mark is not Kind.EQUALS


def _next_column(reader: Reader) -> None:
    """The next column of a table, and the count in it if it is one."""
    if reader.cursor.token.text == "|":
        reader.cursor.step()
    reader.mark = Kind.EQUALS
    ended = any(isinstance(item, FinishOff | Turn) for item in reader.items)
    claim = read_claim(reader.cursor) if reader.has_work() or ended else None
    if claim is not None:
        reader.claims.append(claim)


def _pass_mark(reader: Reader, token: Token) -> None:
    if token.kind is _LINE and reader.mark is not _LINE:
        return
    reader.mark = token.kind
    if token.kind in _ENDS_SENTENCE:
        reader.sentence = len(reader.items)


def _dash(reader: Reader) -> None:
    claim = read_claim(reader.cursor)
    if claim is not None and reader.has_work():
        reader.claims.append(claim)
        return
    if claim is None:
        reader.cursor.step()
    reader.mark = Kind.DASH


def _phrase(words: list[str], readers: frozenset[Phrase], reader: Reader) -> None:
    """One phrase: the first reader that knows it takes it."""
    for read in _readers_of(_words_ahead(reader.cursor, words), readers):
        if read(reader):
            return
    read_other_word(reader)


_ENDS_PHRASE = frozenset(
    {Kind.COMMA, Kind.SEMICOLON, Kind.STOP, Kind.COLON, _CLOSE, Kind.STAR, _END}
)


_LONGEST_PHRASE = 60  # words and marks


def _words_ahead(cursor: Cursor, words: list[str]) -> tuple[str, ...]:
    """Those of a row's words up to the next mark, and the mark.

    None for a phrase longer than any that people write.
    """
    at = cursor.at
    depth = 0  # marks in brackets part the numbers of sizes: "4[4:6]ch"
    for end, token in enumerate(cursor.tokens[at : at + _LONGEST_PHRASE], at + 1):
        kind = token.kind
        if kind is _WORD or (kind is Kind.COLON and _parts_numbers(cursor, end)):
            continue
        if kind is _END or (kind in _ENDS_PHRASE and not depth):
            return tuple(words[at:end])
        depth += (kind is _OPEN) - (kind is _CLOSE)
    return ()


def _parts_numbers(cursor: Cursor, after: int) -> bool:
    """Whether a colon stands between the numbers of sizes: "make 44:48:52 ch"."""
    colon, further = cursor.tokens[after - 1], cursor.tokens[after]
    close = colon.glued and further.glued and further.kind is _NUMBER
    return close and cursor.sizes > 1


def _in_words(token: Token) -> str:
    """A token as phrases are told by it: all numbers are alike."""
    return "0" if token.kind is _NUMBER and not token.spelled else token.text


@lru_cache(maxsize=1024)  # rows differ in their numbers, and else are mostly alike
def _readers_in(words: frozenset[str]) -> frozenset[Phrase]:
    """Those that may read a phrase in a row of these words."""
    return frozenset(
        read for read in _READERS if not words.isdisjoint(_SIGNS.get(read, words))
    )


@lru_cache(maxsize=4096)  # phrases differ in their numbers, and else are mostly alike
def _readers_of(words: tuple[str, ...], readers: frozenset[Phrase]) -> tuple[Phrase, ...]:
    """Those of a row's readers that may take a phrase of these words, in order."""
    known = frozenset(words)
    first = words[0] if words else ""
    marked = not first.isalpha()
    return tuple(
        read
        for read in _READERS
        if read in readers
        and not (known and known.isdisjoint(_NEAR.get(read, known)))
        and (marked or first in _FIRST.get(read, known))
    )


Phrase = Callable[[Reader], bool]
"""Reads one kind of phrase; says whether it took the words where it stands."""

# In this order: words about repeats first, as they hold stitches; stitches before yarns, as
# "with" and "in" begin both; what fits almost anywhere last.
_READERS: tuple[Phrase, ...] = (
    read_said_repeat,
    read_list_to_end,
    read_told_over,
    read_said_aside,
    read_said_of_chain,
    read_nth_together,
    read_held_back,
    read_worked_as_one,
    read_note,
    read_own_number,
    read_count_of_row,
    read_doubled,
    read_what_comes,
    read_what_is_used,
    read_number_in_each,
    read_other_words,
    read_stripes_of_rows,
    read_until_so_many,
    read_to_the_end,
    read_by_turns,
    read_at_the_ends,
    read_others_at,
    read_first_place,
    read_row_in_stitch,
    read_same_way,
    read_going_on,
    read_every_row,
    read_change,
    read_called,
    read_name_told,
    read_first_of_row,
    read_joined_to_piece,
    read_seam,
    read_rate,
    read_evenly,
    read_numbered,
    read_spread_list,
    read_number_along,
    read_after_every,
    read_times_before,
    read_rows_of_kind,
    read_in_pattern,
    read_further_rounds,
    read_times_alone,
    read_repeat_from,
    read_all_along,
    read_ends_as_row,
    read_and_so_on,
    read_list_along,
    read_first_of_list,
    read_unproven,
    read_recall_phrase,
    read_likewise,
    read_replaced,
    read_ending,
    read_in_last,
    read_fewer_last,
    read_when_left,
    read_conditional,
    read_last_gets,
    read_working_last,
    read_loops_of_row,
    read_explained,
    read_number_so_far,
    read_bare_claim,
    read_explanation,
    read_said_of_stitch,
    read_how_begun,
    read_how_each,
    read_for_each,
    read_followed_by,
    read_square_upon_square,
    read_where_hook_goes,
    read_where_it_lies,
    read_number_again,
    read_where_begun,
    read_motion_phrase,
    read_negated,
    read_ring,
    read_row_of,
    read_turn,
    read_finish,
    read_join,
    read_slip_into_ring,
    read_loops_phrase,
    read_bare_yarn,
    read_chain_phrase,
    read_skip_phrase,
    read_first_only,
    read_corner,
    read_several_from_hook,
    read_make_phrase,
    read_yarn,
    read_start_in,
    read_and_in,
    read_place_first,
    read_list_round,
    read_bare_across,
)

# A row that holds none of these words has no phrase of this kind: most rows have few kinds.
_SIGNS: Mapping[Phrase, frozenset[str]] = {
    read: frozenset(words.split())
    for read, words in {
        read_seam: "through thru ends edges",
        read_going_on: "continue cont keep carry go work increase decrease inc dec repeat",
        read_explanation: "are is form forms become becomes lie lies were was stand stands "
        "look looks",
        read_said_of_stitch: " ".join(sorted(SAID_OF_STITCH)),
        read_first_only: "only more further alone",
        read_row_of: "row rnd round",
        read_number_again: "times time all total altogether",
        read_number_so_far: "all total altogether far again",
        read_where_begun: "beginning starting first from",
        read_how_begun: "begin start",
        read_how_each: "for",
        read_followed_by: "followed",
        read_for_each: " ".join(sorted(FOR_EACH_SIGNS)),
        read_square_upon_square: "mesh meshes square squares",
        read_where_hook_goes: "hook",
        read_several_from_hook: "hook",
        read_where_it_lies: " ".join(sorted(LIES_SIGNS)),
        read_said_repeat: "following",
        read_list_to_end: "rep repeat over again",
        read_and_so_on: " ".join(sorted(SO_ON_SIGNS)),
        read_first_of_list: "beginning begin starting start",
        read_list_along: "across along around round to till until the all",
        read_after_every: " ".join(sorted(AFTER_SIGNS)),
        read_nth_together: " ".join(sorted(TOGETHER_SIGNS)),
        read_told_over: " ".join(sorted(TOLD_OVER_SIGNS)),
        read_said_of_chain: "that this it they these which that's it's",
        read_said_aside: "skipped made go goes going fall falls falling lands sits comes",
        read_note: "note notes nb tip hint reminder",
        read_own_number: "that this which it your made done completed complete worked",
        read_other_words: "say words i ie",
        read_doubled: "double doubling",
        read_what_is_used: "used needed",
        read_what_comes: "now next then for",
        read_count_of_row: "you you'll there",
        read_number_in_each: "there you",
        read_evenly: "times start beginning equal regular equally per each every evenly up "
        "down left right side sides slope selvedge row end ends bottom lower "
        "foundation short long both either edge edges",
        read_spread_list: "evenly",
        read_numbered: "in into at on",
        read_number_along: " ".join(ALONG_SIGNS),
        read_every_row: " ".join(EVERY_SIGNS),
        read_stripes_of_rows: " ".join(sorted(STRIPE_SIGNS)),
        read_rate: "rows rnds rounds row edge side end",
        read_corner: "corner",
        read_likewise: "same this so likewise",
        read_unproven: "complete finish at evenly short tunisian entrelac down up",
        read_at_the_ends: " ".join(AT_ENDS_SIGNS),
        read_ends_as_row: " ".join(ENDS_AS_SIGNS),
        read_until_so_many: "until till til",
        read_by_turns: " ".join(BY_TURNS_SIGNS),
        read_first_place: " ".join(FIRST_PLACE_SIGNS),
        read_row_in_stitch: " ".join(IN_STITCH_SIGNS),
        read_to_the_end: " ".join(sorted(TO_THE_END_SIGNS)),
        read_further_rounds: "rounds rnds rows round rnd row rds until till til even "
        "straight without plain keep continue cont carry work working go crochet do",
        read_same_way: "more fewer less extra additional add adding",
        read_in_pattern: "pattern patt pat set established before given rows rnds rounds",
        read_times_before: "x times",
        read_rows_of_kind: "rows rnds rounds row rnd round",
        read_times_alone: "times time x twice",
        read_conditional: "if when where",
        read_working_last: "last final ends end brings",
        read_in_last: "last final only just",
        read_name_told: "this that it which call known that's",
        read_fewer_last: "not instead place rather where",
        read_explained: "work working place placing make making put putting hook go reach "
        "dig",
        read_last_gets: "gets takes has receives holds wants needs",
        read_when_left: "when once soon",
        read_motion_phrase: "loop loops lp lps",
        read_held_back: "loop loops lp lps",
        read_worked_as_one: " ".join(ONE_SIGNS),
        read_ring: "ring loop circle mr mc",
        read_slip_into_ring: "ring loop circle join close",
        read_turn: "turn turning turned rotate to",
        read_all_along: "all",
        read_join: "ring circle join close joining closed closing joined ssj",
        read_start_in: "from starting beginning begin start",
        read_repeat_from: "* ** *** rep repeat rpt repeating repeats reps go continue "
        "carry keep again cont",
        read_replaced: "replaced exchanged swapped",
        read_ending: "last final repeat rep omit omitting leaving ending end ends finish "
        "finishing finishes",
    }.items()
}

# The same of the words up to the next mark, where one of these stands in every such phrase.
_NEAR: Mapping[Phrase, frozenset[str]] = {
    read_held_back: HELD_SIGNS,
    read_worked_as_one: ONE_SIGNS,
    **{
        read: _SIGNS[read]
        for read in (
            read_said_repeat, read_told_over, read_nth_together, read_after_every,
            read_said_aside, read_note, read_how_begun, read_how_each, read_number_again,
            read_number_so_far, read_times_before,
            read_conditional, read_ring, read_working_last, read_when_left, read_last_gets,
            read_turn, read_join, read_start_in, read_repeat_from,
        )
    },
    read_ending: _SIGNS[read_ending] | {"leave"},
    read_slip_into_ring: _SIGNS[read_slip_into_ring],
    read_recall_phrase: RECALL_SIGNS,
    read_joined_to_piece: JOINED_SIGNS,
    read_chain_phrase: CHAIN_NOUNS | {"chained", "chaining", "cast"},
    **{
        read: frozenset(words.split())
        for read, words in {
            read_change: "but except only with work working for that rep repeat repeating "
            "do doing make making using having",
            read_first_of_row: " ".join(sorted(FIRST_SIGNS)),
            read_called: "for forming to which this makes forms",
            read_explanation: "the these those all",
            read_motion_phrase: "yo yoh yrh pull draw insert",
            read_negated: "no without omitting omit leave leaving not",
            read_finish: "fasten finish end break cut tie bind fo",
            read_loops_of_row: "loop loops lp lps lo blo flo",
            read_loops_phrase: "loop loops lps lo blo bl flo fl layers layer thicknesses",
            read_skip_phrase: " ".join((*PASSING, "leaves", "past", *SKIP_WORDS)),
            read_yarn: "change changing switch switching swap join rejoin attach tie using "
            "with in drop pick now new colour color shade",
            read_and_in: "and then",
            read_place_first: " ".join(INTO),
        }.items()
    },
}  # fmt: skip

# The same of the word that a phrase begins with, where it begins with no mark or figure.
_FIRST: Mapping[Phrase, frozenset[str]] = {
    read_bare_claim: CLAIM_BEGINS | {*NUMBER_WORDS},
    read_evenly: EVENLY_BEGINS | {*NUMBER_WORDS},
    read_same_way: SAME_WAY_BEGINS | {*NUMBER_WORDS},
    read_times_alone: TIMES_BEGIN | {*NUMBER_WORDS},
}
