"""Which reading the text itself supports.

Conventions hold for the whole pattern: each way to take them is a whole working, sixteen at
most, and none goes against a sentence of the text. Within a row each question that only
counting settles is answered both ways, at most thirty-two answers a row, and at most four
readings go on to the next. What they cost, highest first: a printed count denied, places
left over or missing, a row that departs from the pattern, custom.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import combinations, pairwise, product

from msgspec import Struct

from hookwright.notation.tree import (
    Amount,
    Chain,
    InOnePlace,
    Join,
    Make,
    Means,
    Node,
    Often,
    Pattern,
    Repeat,
    Role,
    Skip,
    Statement,
    Topic,
)
from hookwright.working.blocks import loops_at_edge, loops_at_hook, loops_of_groups
from hookwright.working.conventions import Choice, Conventions, Readings
from hookwright.working.first_chain import into_first_chain
from hookwright.working.nodes import QUIET, is_from_hook_node, works_under_edge
from hookwright.working.row import WorkedRow
from hookwright.working.standing_chains import standing_chains
from hookwright.working.steps import Step
from hookwright.working.stitches import facts_of, height

MOST_WORKINGS = 16
MOST_READINGS = 32
MOST_STATES = 4

DENIED = 100
NOT_CLOSED = 60
MOST_FOR_PLACES = 20
LEAPT = 30
AGAINST_CUSTOM = 2

SURELY_COUNTS = 4
"""A beginning chain of so many chains counts, where the text is silent."""
STRONG = 110
"""How much more it costs to let a single chain count: it takes two printed counts."""
STANDING = 100
"""How much more it costs to let one that the words take for a stitch count for none: two
printed counts too, and less than a habit of counting it apart."""
TIMES_IN_ALL = 40
"""What "rep from * 5 times" costs where it is taken for five in all: with a row that then
does not close it is more than one wrong count."""
UNUSUAL = (0, 103, 104)
"""What each habit of counting costs: one wrong count is no habit, two that agree are."""

DEPARTING = {
    Choice.OTHER_TIMES: 75,
    Choice.LOOSE_NOUNS: 4,
    Choice.EACH_TAKES_SPACES: 5,
    Choice.SEVERAL_IN_ONE: 6,
    Choice.SKIP_UNDER_CHAIN: 6,
    Choice.SKIP_BESIDE: 5,
    Choice.BETWEEN: 6,
    Choice.START_WORKED_FIRST: 5,
    Choice.START_WORKED_LAST: 5,
    Choice.ON_FROM_JOIN: 5,
    Choice.PAST_START: 4,
    Choice.PAST_GROUP: 1,
    Choice.PAIRS_BETWEEN_GAPS: 4,
    Choice.GAP_AT_EDGE: 4,
    Choice.EDGE_STITCH: 4,
    Choice.FIRST_CHAIN: 5,
    Choice.TAIL_INSTEAD: 5,
    Choice.TWO_PIECES: 4,
    Choice.AS_MANY_AS_FIT: 60,
    Choice.SKIPPED_APART: DENIED,
    Choice.OTHERS_AMONG: 40,
    Choice.FIRST_SPACE: 4,
}


class Assumption(Struct, frozen=True):
    """One way to take the whole pattern, what it costs, and why it is open.

    Attributes:
        conventions: What is taken for granted.
        cost: How far it goes against custom.
        open_chains: Lengths of beginning chains on which the text is silent.
        times_open: Whether "rep from * 5 times" may be five in all or five more.
    """

    conventions: Conventions
    cost: int
    open_chains: frozenset[int]
    times_open: bool = False


def assumptions(pattern: Pattern, steps: Iterable[Step], terms: str) -> list[Assumption]:
    """The whole workings to be tried, customary ones first."""
    steps = list({step.nodes: step for step in reversed(list(steps))}.values())[::-1]
    said, open_chains = _beginning_chains(pattern, steps, terms)
    spaces = _spaces_said(pattern.statements)
    apart = _spaces_apart(pattern.statements)
    worth = _spaces_worth(pattern.statements)
    edged = any(s.topic is Topic.SPACES and s.word == "edge" for s in pattern.statements)
    asked = sorted(open_chains, key=lambda n: open_chains[n], reverse=True)[:3]
    times_open = _times_open(steps)
    beside = loops_of_groups(steps)
    loops = loops_at_hook(steps, pattern.definitions) | beside
    slips = any(s.topic is Topic.SLIPS and s.holds for s in pattern.statements)
    under = any(works_under_edge(step.nodes) for step in steps)
    stands = tuple(s for s in pattern.statements if _names_a_stitch(s))
    times = (True, False) if times_open else (True,)
    asked_of_spaces = (False, True) if _may_count_spaces(steps) else (False,)
    ways = []
    for counts in product(*((_custom(n), not _custom(n)) for n in asked)):
        answers = list(zip(asked, counts, strict=True))
        counting = said | {n for n, yes in answers if yes}
        against = sum(
            AGAINST_CUSTOM + open_chains[n] for n, yes in answers if yes != _custom(n)
        )
        for spaced in (spaces,) if spaces is not None else asked_of_spaces:
            edges = (False, True) if spaced and under else (False,)
            edges = (True,) if edged else edges
            for more, edge in product(times, edges):
                unsaid = 8 if spaced and spaces is None else 0
                cost = against + unsaid + (0 if more else TIMES_IN_ALL)
                cost += AGAINST_CUSTOM * edge
                conventions = Conventions(
                    frozenset(counting),
                    spaced,
                    more,
                    stands,
                    loops,
                    slips,
                    under,
                    apart,
                    beside,
                    edge,
                    worth,
                )
                ways.append(Assumption(conventions, cost, frozenset(asked), times_open))
    ways.sort(key=lambda way: way.cost)
    return ways[:MOST_WORKINGS]


def _names_a_stitch(statement: Statement) -> bool:
    """Whether a sentence says for which stitch chains of a length stand."""
    if statement.topic is not Topic.TURNING_CHAIN or not statement.holds:
        return False
    return bool(statement.chains) and statement.word not in ("", "st")


def _times_open(steps: Iterable[Step]) -> bool:
    """Whether the pattern says "rep from * 5 times" anywhere: five in all, or five more."""
    return any(_unclear_times(step.nodes) for step in steps)


def _unclear_times(nodes: Iterable[Node]) -> bool:
    return any(
        (isinstance(node, Repeat) and node.times.often is Often.UNCLEAR)
        or (isinstance(node, (Repeat, InOnePlace)) and _unclear_times(node.body))
        for node in nodes
    )


def _custom(number: int) -> bool:
    """Whether custom counts a chain of this length: from three up, where dc follows."""
    return number >= 3


def _spaces_said(statements: Iterable[Statement]) -> bool | None:
    said = [s for s in statements if s.topic is Topic.SPACES]
    of_all = (s.holds for s in said if s.holds or s.chains is None)
    return next(of_all, False if said else None)


def _spaces_apart(statements: Iterable[Statement]) -> frozenset[int]:
    """Lengths of the spaces that are said not to count, whatever others do."""
    said = [s for s in statements if s.topic is Topic.SPACES and not s.holds]
    return frozenset(s.chains for s in said if s.chains is not None)


def _spaces_worth(statements: Iterable[Statement]) -> tuple[tuple[int, int], ...]:
    """Lengths of spaces said to count as some stitches: "a ch-3 sp counts as 2 sts"."""
    said = (s for s in statements if s.topic is Topic.SPACES and s.stands_stitches)
    return tuple((s.chains, s.stands_stitches) for s in said if s.chains is not None)


def _may_count_spaces(steps: Iterable[Step]) -> bool:
    """Whether any count is one of stitches of all kinds, or nothing is counted.

    Counts of dc and sc never tell whether the chains of a space are stitches too.
    """
    claims = (claim for step in steps for claim in step.claims)
    units = {figure.unit for claim in claims for figure in claim.figures}
    return not units or "st" in units


def _beginning_chains(
    pattern: Pattern, steps: Sequence[Step], terms: str
) -> tuple[set[int], dict[int, int]]:
    """Lengths said to count, and those left open with how strong custom is about them."""
    lengths = _unsaid_lengths(steps)
    told = _told(pattern.statements, lengths, terms)
    given = _stands_at_hook(steps, terms) | _roles_given(steps)
    said = {n for roles in (told, given) for n, counts in roles.items() if counts}
    silent = [n for n in lengths if n not in told and n not in given]
    loops = loops_at_edge(steps)
    said.update(n for n in silent if n >= SURELY_COUNTS and n not in loops)
    strong = {n: STANDING for n in standing_chains(steps) if _custom(n)} | {1: STRONG}
    return said, {n: strong.get(n, 0) for n in silent if n < SURELY_COUNTS}


def _unsaid_lengths(steps: Sequence[Step]) -> list[int]:
    """Lengths of the chains that a row begins or ends with and says nothing of."""
    unsaid = (
        chain.amount.at(0) or 0
        for step in steps
        for chain in beginning_chains(step)
        if chain.role is Role.UNSAID
    )
    return list(dict.fromkeys(number for number in unsaid if 0 < number <= 12))


def _told(
    statements: Iterable[Statement], lengths: Sequence[int], terms: str
) -> dict[int, bool]:
    """What sentences say of chains of some lengths: the first about a length holds."""
    told: dict[int, bool] = {}
    for statement in statements:
        if statement.topic is not Topic.TURNING_CHAIN:
            continue
        for number in lengths:
            if _speaks_of(statement, number, terms):
                told.setdefault(number, statement.holds)
    return told


def beginning_chains(step: Step) -> Iterator[Chain]:
    """The chains that begin and end a step."""
    nodes: list[Node] = [node for node in step.nodes if type(node) not in QUIET]
    begun = nodes[0] if nodes else None
    if isinstance(begun, Chain):
        after = into_first_chain(nodes[1:], begun.amount.at(0) or 0, 0)
        nodes = nodes if after is None else [begun, *after]
    for at in {_begin(nodes), len(nodes) - 1} if nodes else set():
        node = nodes[at]
        following = nodes[at + 1] if at + 1 < len(nodes) else None
        if isinstance(node, Chain) and not is_from_hook_node(following):
            yield node
    first = next((node for node in nodes if not isinstance(node, Chain)), None)
    target = getattr(first, "target", None)
    if target is not None and is_from_hook_node(first) and target.ordinal:
        span = target.span
        yield Chain(Amount((target.ordinal - 1,), span), span)
    elif isinstance(first, Skip) and first.target.noun == "ch" and first.target.amount:
        yield Chain(first.target.amount, first.span)  # "miss 3 ch, 1 tr in each ch"


def _begin(nodes: Sequence[Node]) -> int:
    """Where a row begins, behind a ring made in it and slip stitches to its first place."""
    at = 0
    ringed = len(nodes) > 2 and isinstance(nodes[0], Chain) and _slips(nodes[1])
    if ringed and isinstance(nodes[2], Chain):
        at = 2
    while at < len(nodes) - 1 and _slips(nodes[at]):
        at += 1
    return at


def _slips(node: Node) -> bool:
    return isinstance(node, Join) or (isinstance(node, Make) and node.stitch == "sl st")


def _speaks_of(statement: Statement, number: int, terms: str) -> bool:
    """Whether a sentence about turning chains is about one of this length."""
    if statement.chains is not None:
        return statement.chains == number
    if not statement.holds:
        return True
    if statement.word in ("", "st"):
        return number > 1
    tall = height(statement.word, terms)
    return number in (tall, tall - 1, tall + 1) and number > 1


def _roles_given(steps: Iterable[Step]) -> dict[int, bool]:
    """What the row that first has chains of a length says of them holds from then on.

    Chains that are part of a decrease or cluster behind them say nothing of others.
    """
    roles: dict[int, bool] = {}
    for step in steps:
        for node, behind in pairwise((*step.nodes, None)):
            if isinstance(node, Chain) and node.role is not Role.UNSAID:
                number = node.amount.at(0) or 0
                part = node.role is Role.COUNTS_NOT and _is_of_several(behind)
                if not node.stands_chains and not part:
                    roles.setdefault(number, node.role is Role.COUNTS)
    return roles


def _is_of_several(node: Node | None) -> bool:
    """Whether a stitch of several legs is worked, a decrease or a cluster."""
    if not isinstance(node, Make):
        return False
    return node.legs > 1 or facts_of(node.stitch, node.legs, {}).family == "cluster"


def _stands_at_hook(steps: Iterable[Step], terms: str) -> dict[int, bool]:
    """ "Hdc in 4th ch (the first 2 chs count as an hdc)": so does a chain of 2 later on."""
    stitches = {
        node.stands
        for step in steps
        for node in step.nodes
        if isinstance(node, Means) and node.role is Role.COUNTS and not node.stands_chains
    }
    tall = (height(stitch, terms) for stitch in stitches - {"", "st"})
    return {number: True for number in tall if number > 1}


def readings_to_try(asked: frozenset[Choice]) -> Iterator[Readings]:
    """Answers to a row's questions other than the plain ones: single ones, then pairs."""
    questions = sorted(asked, key=lambda choice: (DEPARTING.get(choice, 5), choice))
    for size in (1, 2, 3):
        for some in combinations(questions, size):
            if not {*some} >= _AT_ONE_END:
                yield frozenset(some)


_AT_ONE_END = {Choice.START_WORKED_FIRST, Choice.START_WORKED_LAST}
"""The space that a round starts in is worked into at its start or its end, not at both."""

UNPROVEN = 60
"""For a reading that is only worth its cost where a printed count bears it out."""


_ONLY_PROVEN = {
    Choice.SEVERAL_IN_ONE, Choice.EDGE_STITCH, Choice.FIRST_CHAIN, Choice.BETWEEN,
    Choice.FIRST_SPACE,
}  # fmt: skip


TWICE_STRETCHED = DENIED + 1
"""For a reading out of the common whose last repeat ends early as well."""


def stretched(readings: Readings, worked: WorkedRow) -> int:
    """What it costs to stretch the words of one row in two ways."""
    return TWICE_STRETCHED if readings and worked.cut_short else 0


def departing(readings: Readings, *, proven: bool, again: bool = False) -> int:
    """What a reading costs for itself.

    A space filled at the start of a round and then `again` at its end takes two witnesses
    where no count of the round below is denied: one count that needs it may be wrong.
    """
    if not readings:
        return 0
    cost = sum(DEPARTING.get(choice, 5) for choice in readings)
    if again:
        cost += DENIED
    if readings & _ONLY_PROVEN and not proven:
        cost += UNPROVEN
    return cost


def unclosed(worked: WorkedRow, *, meant: bool) -> int:
    """What a row costs for places left over or missing."""
    amiss = worked.missing + (0 if meant else worked.left)
    cost = 0
    if amiss:
        number = amiss if isinstance(amiss, int) else MOST_FOR_PLACES
        cost += NOT_CLOSED + min(number, MOST_FOR_PLACES)
    if worked.leapt and not meant:
        cost += LEAPT
    if any(trouble.rule == "missing-target" for trouble in worked.troubles):
        cost += NOT_CLOSED
    if worked.left_spaces and not meant:
        cost += 10
    return cost + worked.oddness + (2 if worked.cut_short else 0)
