"""The hook at work: what lies ahead, what has been made, and what was wanting.

All movements come down to a few here: take the next place of a kind, passing what lies
before it; stay in the place just used; make something that uses none.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from copy import copy

from msgspec import Struct, field
from msgspec.structs import replace

from hookwright.notation.tree import Definition, Means, Node
from hookwright.source import Span
from hookwright.working import ahead
from hookwright.working.ahead import Ahead, Kinds, kinds_of
from hookwright.working.conventions import Choice, Conventions, Readings
from hookwright.working.count import Count
from hookwright.working.fabric import (
    GAP,
    Foot,
    Into,
    Place,
    PlaceKind,
    Row,
    Stitch,
    extent,
    is_space,
    top,
)
from hookwright.working.sequence import Group, Line, Piece, Repeat, Run, join, split, total

LOOPS = {
    "": Into.BOTH_LOOPS,
    "front": Into.FRONT_LOOP,
    "back": Into.BACK_LOOP,
    "third": Into.THIRD_LOOP,
}
QUIET_KINDS = frozenset({"sl st", "tch", "pass", "skip"})
POSTS = {"front": Into.FRONT_POST, "back": Into.BACK_POST}


class Trouble(Struct, frozen=True):
    """Something that could not be done as written.

    Attributes:
        rule: The identifier of the finding it may become.
        span: The words.
        what: What was wanted, in the words of the trade.
    """

    rule: str
    span: Span
    what: str


class Effort(Struct):
    """How many movements of the hook may still be tried, so that no text takes forever.

    A movement is one instruction worked once. Along an edge of very many unlike pieces it
    counts for several, as it then takes as long.

    Attributes:
        left: Movements left for the whole text.
        in_row: Movements left for the row.
        gives_up: Whether no more than the likeliest reading is tried where none are left.
    """

    left: int = 40_000
    in_row: int = 0
    gives_up: bool = False

    def allow(self, movements: int) -> None:
        """Lets a longer text take more."""
        self.left += movements

    def new_row(self, nodes: Sequence[Node]) -> None:
        """A row may always try some for each of its words, and a long period once."""
        least = _LEAST if self.left > 0 else _LEAST_LATE
        least += EACH_WORD * len(nodes)
        self.in_row = max(least, min(_MOST_IN_ROW, self.left))

    def spend(self, line: Ahead) -> None:
        """Counts one movement along what lies ahead."""
        number = 1 + len(line) // _MANY_PIECES
        self.left -= number
        self.in_row -= number

    def take(self, movements: int) -> None:
        """Counts movements that were made before."""
        self.left -= movements
        self.in_row -= movements

    def is_out(self) -> bool:
        """Whether the row may try no more."""
        return self.in_row < 0

    def spent(self) -> bool:
        """Counts one movement; true where none is left."""
        self.left -= 1
        self.in_row -= 1
        return self.in_row < 0

    def is_short(self) -> bool:
        """Whether only the likeliest reading of each row may still be tried."""
        return self.gives_up and self.left < 0


EACH_WORD = 20
"""Movements that each instruction of a text is worth: a row that is right takes fewer."""
_LEAST = 5_000
_LEAST_LATE = 1_000
_MOST_IN_ROW = 40_000
_MANY_PIECES = 100


class Task(Struct, frozen=True):
    """What holds for a whole row.

    Attributes:
        size: Which size is worked.
        conventions: What is taken for granted.
        readings: How the row's own questions are answered.
        terms: "US" or "UK".
        main: The stitch a beginning chain stands for, and "inc" doubles, in this row.
        is_round: Whether the row is a round.
        lacy: Whether the row holds chains between stitches.
        into_edge: Whether such a row also works into the chain at the edge below.
        effort: What may still be tried.
        own: The stitches that the pattern defines.
        of_slips: Whether the row is a fabric of slip stitches, or loops held by them.
        ends_on_first: Whether the last of such loops ends where the first one begins.
        closing: Where the bare slip stitch stands that closes a round, begun with a chain.
        grouped: Whether no chain stands but within groups that fill one place each.
    """

    size: int
    conventions: Conventions
    readings: Readings
    terms: str
    main: str
    is_round: bool
    lacy: bool = False
    into_edge: bool = False
    effort: Effort = field(default_factory=Effort)
    own: Mapping[str, Definition] = field(default_factory=dict)
    of_slips: bool = False
    ends_on_first: bool = False
    closing: Span | None = None
    grouped: bool = False


Wanted = Callable[[Place], bool]


class Hook(Struct):
    """The state of a row being worked.

    Attributes:
        task: What holds for the row.
        ahead: Places of the edge that are not used yet.
        made: What has been made so far, in working order.
        last: The place just used.
        missing: Places that were wanted when none was left.
        began: Whether a stitch or chain has been made.
        stands_on_first: Whether a counting chain stands on the first place.
        loop: The loop that stitches go under.
        yarn: The yarn in use.
        inside: The place of a group being worked in one place.
        leapt: Stitches passed in silence on the way to "the last".
        edge_line: The whole edge, for "the centre space".
        kinds: The unlike places and groups along it, once they have been asked for.
        edge_laid: The whole edge, with the edges laid in where the row came to them.
        inside_group: The name of the group whose place the hook is in.
        passed_in_group: How many stitches of the group that the hook is in lie behind.
        skip_meaning: What the chains skipped at the hook are said to stand for.
        asked: Questions met on the way, for the search of readings.
        oddness: How far words were stretched: a noun that did not fit.
        troubles: What could not be done.
        chains: Chains made at the start of this row: a first row may be worked into them.
        own_chains: Chains of the row's own that have been put before the edge.
        worked: Whether more than slip stitches and a beginning chain has been made.
        chained: Whether the beginning chain has been made.
        in_gaps: Whether the row has been worked between stitches.
        lengths: The chains of the spaces that have been worked into.
        elsewhere: Whether the row goes along other parts as well.
        sought: Whether stitches have been passed in silence on the way to a named place.
        beside_chain: Whether the hook is in the gap right beside the beginning chain.
        used_space: Whether the place used last was a space, a gap or a group.
        before: Places of a round that lie before its first stitch: they come last.
        start: The place slipped into last on the way to the first stitch.
        start_free: Whether nothing has been worked into that place.
        begun_in: The space that a round begins in.
        along_chains: Whether it was slipped into along its chains.
        stands_in_start: Whether the beginning chain is a stitch in that space.
        start_left: Whether the round has gone on from there, with nothing worked in it.
        come_round: How many places from before the first stitch have come ahead.
        worked_spaces: Whether a space has been worked into.
        stopped: What lay ahead where "each st to next sp" stopped, the space in front.
        skipped: Whether places have been passed by word.
        came_under: Whether a border has come to the underside of the foundation.
        cut_short: Whether the last repeat ends without the skip or chain nobody says.
        vain: How many spaces were to be skipped that are not there.
        lacks: Whether a list of numbers has none for the size worked.
        tail_replaces: Whether the words after "ending" take the place of the repeat's own
            end, where only counting tells.
    """

    task: Task
    ahead: Ahead
    made: list[Piece[Stitch]] = field(default_factory=list)
    last: Place | None = None
    missing: Count = 0
    began: bool = False
    stands_on_first: bool = False
    loop: str = ""
    yarn: str | None = None
    inside: Place | None = None
    asked: set[Choice] = field(default_factory=set)
    oddness: int = 0
    troubles: list[Trouble] = field(default_factory=list)
    chains: int = 0
    own_chains: Count = 0
    used_space: bool = False
    worked_spaces: bool = False
    skipped: bool = False
    cut_short: bool = False
    vain: Count = 0
    lacks: bool = False
    tail_replaces: bool = False
    came_under: bool = False
    worked: bool = False
    chained: bool = False
    in_gaps: bool = False
    beside_chain: bool = False
    sought: bool = False
    elsewhere: bool = False
    lengths: frozenset[int] = frozenset()
    leapt: Count = 0
    edge_line: Ahead = ()
    kinds: Kinds | None = None
    edge_laid: Ahead = ()
    inside_group: str = ""
    passed_in_group: int = 0
    skip_meaning: Means | None = None
    before: Ahead = ()
    start: Place | None = None
    start_free: bool = False
    begun_in: Place | None = None
    along_chains: bool = False
    stands_in_start: bool = False
    start_left: bool = False
    come_round: Count = 0
    stopped: Ahead = ()

    def edge_holds(self, wanted: Wanted) -> bool:
        """Whether a wanted place lies anywhere along the whole edge."""
        return any(map(wanted, self._kinds().places))

    def edge_holds_group(self, wanted: Callable[[Group[Place]], bool]) -> bool:
        """Whether a wanted group lies anywhere along the whole edge."""
        return any(map(wanted, self._kinds().groups))

    def _kinds(self) -> Kinds:
        """What there is along the whole edge, which is asked at every movement."""
        if self.kinds is None or self.kinds.line is not self.edge_line:
            self.kinds = kinds_of(self.edge_line)
        return self.kinds

    def fork(self) -> Hook:
        """The same state, to try something on."""
        trial = copy(self)
        trial.made, trial.troubles = list(self.made), list(self.troubles)
        return trial

    def become(self, other: Hook) -> None:
        """Takes over the state of a fork."""
        for name in self.__struct_fields__:
            setattr(self, name, getattr(other, name))

    def put_back(self, place: Place) -> None:
        """Makes a place that is used up the next one again: it passes nothing twice."""
        spent = (
            GAP
            if place.kind is PlaceKind.RING
            else replace(place, kind=PlaceKind.SPENT, counts=0)
        )
        self.ahead = (Run(spent), *self.ahead)
        self.start_free = False

    def lay(self, line: Ahead) -> None:
        """Puts what lies ahead, with another edge of the piece in front of it."""
        more = total(line, extent) - total(self.ahead, extent)
        if more > 0:
            used = total(self.edge_laid, extent) - total(self.ahead, extent)
            halves = split(self.edge_laid, used, extent) or (self.edge_laid, ())
            laid = split(line, more, extent) or (line, ())
            self.edge_laid = join((*halves[0], *laid[0], *halves[1]))
        self.ahead = line

    def before_first(self) -> Count:
        """How much of the edge of a round lies before its first stitch, in `extent`."""
        start: Ahead = () if self.start is None else (Run(self.start),)
        return total((*start, *self.before), extent)

    def asks(self, choice: Choice) -> bool:
        """Whether a question is answered the other way in this reading."""
        self.asked.add(choice)
        return choice in self.task.readings

    def emit(self, stitch: Stitch, times: Count, span: Span | None) -> None:
        """Adds stitches to the row."""
        if times:
            self.worked = self.worked or stitch.kind not in QUIET_KINDS
            self.made.append(Run(stitch, times, span, self.yarn))

    def trouble(self, rule: str, span: Span, what: str) -> None:
        """Notes what could not be done."""
        if len(self.troubles) < 50:
            self.troubles.append(Trouble(rule, span, what))

    def row(self) -> Row:
        """What has been made, as a row."""
        return Row(join(self.made))

    def left(self) -> Count:
        """Stitches of the edge that are not used."""
        return ahead.stitches(self.ahead)

    def left_spaces(self) -> Count:
        """Chain spaces of the edge that are not used."""
        return ahead.spaces(self.ahead)


def just_skipped(hook: Hook) -> bool:
    """Whether the way to a place was told as a skip: "sk 3 dc, sc in 4th dc of fan"."""
    last = hook.made[-1] if hook.made else None
    return isinstance(last, Run) and last.item.kind == "skip"


def pass_over(hook: Hook, line: Ahead, span: Span | None, kind: str = "pass") -> None:
    """Leaves places behind, by word ("skip") or in silence ("pass")."""
    if line and kind == "pass" and hook.task.is_round and not hook.worked:
        hook.before = (*hook.before, *line)
    elif line:
        hook.sought = hook.sought or (kind == "pass" and ahead.stitches(line) > 0)
        hook.made.extend(_passes(line, kind, span))


def close_round(hook: Hook) -> None:
    """What was passed before the first stitch is passed after all."""
    start: Ahead = () if hook.start is None else (Run(hook.start),)
    hook.made.extend(_passes((*start, *hook.before), "pass", None))
    hook.before, hook.start = (), None


def _passes(line: Ahead, kind: str, span: Span | None) -> list[Piece[Stitch]]:
    result: list[Piece[Stitch]] = []
    for piece in line:
        if isinstance(piece, Run):
            result.append(Run(passing(piece.item, kind), piece.times, span))
        elif isinstance(piece, Repeat):
            result.append(Repeat(tuple(_passes(piece.body, kind, span)), piece.times))
        else:
            result.extend(_passes(piece.body, kind, span))
    return result


def passing(place: Place, kind: str) -> Stitch:
    """The movement that leaves a place behind."""
    return Stitch(kind, place.counts, (), (), is_space(place), 1)


MANY_RUNS = 1_000
"""Runs of unlike places that one instruction may cover before they cost effort."""


def is_stitch(place: Place) -> bool:
    """Whether a place counts as a stitch."""
    return place.counts > 0


def reach(hook: Hook, wanted: Wanted, span: Span) -> bool:
    """Goes forward to the next wanted place, passing what lies before it."""
    found = ahead.seek(hook.ahead, wanted)
    before = lies_before(hook) if hook.worked else hook.before
    if found is None and ahead.holds(before, wanted):
        come_round(hook)
        found = ahead.seek(hook.ahead, wanted)
    if found is None:
        return False
    pass_over(hook, found.line, span)
    hook.ahead = found.rest
    return True


def come_round(hook: Hook) -> None:
    """The end of a round: what was passed before its first stitch lies ahead again."""
    before = lies_before(hook)
    hook.ahead = (*hook.ahead, *before)
    hook.come_round = ahead.stitches(before)
    hook.before = ()
    if hook.start_free:
        hook.start, hook.start_free = None, False


def lies_before(hook: Hook) -> Ahead:
    """What lies before the first stitch, with the place slipped into if that is free."""
    free = hook.start if hook.start_free else None
    return hook.before if free is None else (*hook.before, Run(free))


def use(
    hook: Hook, wanted: Wanted, number: Count, span: Span, *, by_space: bool = False
) -> Iterable[tuple[Place, Count]]:
    """The next `number` wanted places, in runs; ends early where they run out.

    A space that counts as several stitches is as many places, and may be used in part;
    where spaces are told `by_space` it is one.
    """
    left, runs = number, 0
    while left > 0:
        runs += 1
        if runs > MANY_RUNS and hook.task.effort.spent():
            hook.trouble("period", span, "no end of different places")
            return
        if not reach(hook, wanted, span):
            return
        taken = _taken(hook.ahead, left, by_space=by_space)
        if taken is None:
            return
        hook.ahead = taken.rest
        hook.last = taken.place
        hook.began = True
        left = left - taken.number * (1 if by_space else max(1, taken.place.counts))
        yield taken.place, taken.number


def _taken(line: Ahead, most: Count, *, by_space: bool) -> ahead.Taken | None:
    """Up to so many places: "dc in next 5 sts" may end in the middle of a space."""
    taken = ahead.take(line)
    worth = taken.place.counts if taken is not None and is_space(taken.place) else 1
    if taken is None or by_space or worth <= 1:
        return ahead.take(line, most)
    if not isinstance(most, int) or most >= worth:
        return taken
    part = replace(taken.place, chains=most, counts=most)
    other = replace(
        taken.place, chains=max(1, taken.place.chains - most), counts=worth - most
    )
    return ahead.Taken(part, 1, (Run(other), *taken.rest))


def onto(
    place: Place, kind: str, heads: tuple[Place, ...], into: Into, down: int = 0
) -> Stitch:
    """A stitch that uses one place up."""
    foot = Foot(0, down, Into.WHOLE if is_space(place) else into)
    return Stitch(kind, place.counts, (foot,), heads, is_space(place), 1)


def beside(kind: str, heads: tuple[Place, ...], into: Into) -> Stitch:
    """One more stitch in the place just used."""
    return Stitch(kind, 0, (Foot(-1, 0, into),), heads)


def grouped(pieces: Line[Stitch], name: str = "") -> Group[Stitch]:
    """Stitches that share a place."""
    return Group(join(pieces), name)


def tops(kind: str, number: int = 1) -> tuple[Place, ...]:
    """The tops a stitch leaves."""
    return (top(kind),) * number
