"""Whether the places that a row leaves are left on purpose."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct

from hookwright.notation.tree import (
    Claim,
    Evenly,
    InOnePlace,
    Join,
    Make,
    Node,
    Remark,
    Repeat,
    Skip,
    Which,
    Yarn,
)
from hookwright.working.nodes import QUIET
from hookwright.working.points_at_edge import ends_before_point
from hookwright.working.reading_state import State
from hookwright.working.row import WorkedRow
from hookwright.working.sequence import Group
from hookwright.working.sides import is_both_sides
from hookwright.working.stated import Agreement, figures_of_stitches
from hookwright.working.steps import Step
from hookwright.working.surroundings import begins_part
from hookwright.working.tally import Tally

_PURPOSE = frozenset(
    "unworked wait later leave leaving remaining rest unused free left others other".split()
)


_OTHER_SIDE = frozenset("side sides loop loops".split())
"""Words of a remark on where the round goes on: "along the other side", "in free loops"."""


class Counted(Struct, frozen=True):
    """The counts printed with a row, what it comes to, and whether they agree."""

    claims: tuple[Claim, ...]
    tally: Tally
    agrees: Agreement

    def is_proven(self) -> bool:
        """Whether there are counts, and all of them agree."""
        return bool(self.agrees) and all(map(any, self.agrees))

    def is_near(self, worked: WorkedRow, size: int) -> bool:
        """Whether every count is that of the few stitches worked, or hardly another.

        One that is far nearer to them than to what the whole edge would give is a wrong
        count, not a row that stops too early.
        """
        if not self.agrees or not isinstance(worked.left, int):
            return False
        return all(map(any, self.agrees)) or all(
            self._misses(claim, size) * _FAR_NEARER <= worked.left
            for claim in self.claims
            if not claim.of_rows
        )

    def _misses(self, claim: Claim, size: int) -> int:
        """By how many stitches a count misses what was made."""
        numbers = [f.amount.at(size) for f in figures_of_stitches(claim, self.tally)]
        made = self.tally.stitches
        if not numbers or None in numbers or not isinstance(made, int):
            return _OUT_OF_REACH
        return abs(sum(number or 0 for number in numbers) - made)


_FAR_NEARER = 4
_OUT_OF_REACH = 10**9


def left_on_purpose(
    nodes: Sequence[Node],
    size: int,
    worked: WorkedRow,
    counted: Counted,
    *,
    divided: bool = False,
    beside: bool = False,
) -> bool:
    """Whether the text says that places are left, or plainly works only the first few."""
    agrees = counted.agrees
    if counted.is_proven() and _goes_into_few(nodes, worked):
        return True
    goes_on = divided and _turns_back_early(nodes, worked) and counted.is_near(worked, size)
    if goes_on or (beside and worked.finished and _only_numbered(nodes)):
        return True
    if not agrees and any(isinstance(n, Evenly) and n.along == "side" for n in nodes):
        return True  # along edges of which only numbers are told
    for node in nodes:
        if isinstance(node, Remark):
            words = set(node.words.lower().replace(",", " ").split())
            if words & _PURPOSE and not words & _OTHER_SIDE:
                return True
        if isinstance(node, Skip) and (node.left or node.target.which is Which.EACH):
            told = node.target.amount.at(size) if node.target.amount else None
            return told in (None, worked.left)
        if isinstance(node, Make) and node.target is not None and node.target.left_out:
            return True
    proven = bool(agrees) and all(map(any, agrees))
    ended = _ends_early(nodes, worked) or (proven and _begins_around(nodes, worked))
    if _stops_before(nodes, size) == worked.left or ended:
        return True
    first = next((n for n in nodes if isinstance(n, Make) and n.target is not None), None)
    only_first = (
        first is not None
        and first.target is not None
        and (first.target.which is Which.FIRST and first.target.amount is not None)
    )
    return only_first and counted.is_near(worked, size)


def _ends_early(nodes: Sequence[Node], worked: WorkedRow) -> bool:
    """Whether the end of a row shows that it leaves what lies beyond."""
    if _ends_under_first(nodes, worked) or _ends_in_group(nodes, worked):
        return True
    back = bool(worked.turned) and not worked.leapt
    return back and ends_before_point(nodes, worked.over.line, worked.rest.line)


def _ends_in_group(nodes: Sequence[Node], worked: WorkedRow) -> bool:
    """ "..., (1 tr, 3 ch, 1 tr) in centre tr of 7, turn": the rest of the seven is left."""
    work = [node for node in nodes if isinstance(node, (Make, InOnePlace))]
    target = work[-1].target if work else None
    rest = worked.rest.line[0] if len(worked.rest.line) == 1 else None
    if target is None or target.of is None or target.which not in _WITHIN:
        return False
    return bool(worked.turned) and isinstance(rest, Group) and not rest.whole


_WITHIN = (Which.CENTRE, Which.NTH)


def _begins_around(nodes: Sequence[Node], worked: WorkedRow) -> bool:
    """Whether the end of a chain that is left was turned by the first stitches of a round.

    "3 dc in 2nd ch from hook, ..., dc in next 18 ch" stops before it on the other side.
    """
    if worked.left != 1 or worked.leapt or not is_both_sides(nodes):
        return False
    first = next((n for n in nodes if isinstance(n, Make) and n.target is not None), None)
    return first is not None and first.amount is not None and (first.amount.at(0) or 0) > 1


def is_divided(state: State, step: Step) -> bool:
    """Whether a row may go on with some stitches only: of a round, or begun again."""
    begun = begins_part(state, step) and state.has_chain
    return state.in_rounds or bool(state.rests) or begun


def is_begun_beside(step: Step, following: Step | None) -> bool:
    """ "Skip next 20 sts, join in next st": the next row lies beside this one.

    What this one leaves is then worked, or passed over, in that.
    """
    if following is None or following.part != step.part:
        return False
    begins = [node for node in following.nodes[:_BEGINS] if type(node) is not Remark]
    skip, joined = (*begins, None, None)[:2]
    passes = isinstance(skip, Skip) and skip.target.which is Which.NEXT
    return passes and isinstance(joined, (Join, Yarn)) and joined.target is not None


_BEGINS = 4


def _turns_back_early(nodes: Sequence[Node], worked: WorkedRow) -> bool:
    """ "6 sc, turn" on a round, or on what a front has left: so many stitches go on."""
    return bool(worked.turned) and not worked.closed and _only_numbered(nodes)


def _only_numbered(nodes: Sequence[Node]) -> bool:
    """Whether every stitch is told with its number: "hdc in each of first 12 sts"."""
    work = [node for node in nodes if isinstance(node, (Make, InOnePlace, Repeat))]
    numbered = [node for node in work if isinstance(node, Make) and _is_numbered(node)]
    return 0 < len(numbered) == len(work)


def _goes_into_few(nodes: Sequence[Node], worked: WorkedRow) -> bool:
    """Whether each stitch is told by number, and twice as many are left as are used.

    "Join in the 4th underarm ch, 1 tr in next 2 ch, 1 tr in each of the 28 tr, join" goes
    round a sleeve, whatever else lies along the edge.
    """
    used, left = worked.row.uses, worked.left
    work = [node for node in nodes if isinstance(node, (Make, InOnePlace, Repeat))]
    told = [n for n in work if isinstance(n, Make) and (_is_numbered(n) or _slips(n))]
    many = isinstance(used, int) and isinstance(left, int) and left >= 2 * used > 0
    return many and len(told) == len(work)


def _slips(node: Make) -> bool:
    return node.stitch == "sl st"


def _is_numbered(node: Make) -> bool:
    """Whether a stitch is told with its number, or into one place that is told."""
    target = node.target
    if target is None:
        return node.amount is not None
    return target.amount is not None or target.which in (Which.SAME, Which.FIRST)


_ROUND_AN_END = 3
"""Stitches in the first chain that turn a round on both its sides."""


def _ends_under_first(nodes: Sequence[Node], worked: WorkedRow) -> bool:
    """Whether both sides of a chain are worked and the last stitches join the first ones.

    "2 sc in same ch as first sc" stand under the chain that the round began in; three or
    more that it began with go round its end by themselves.
    """
    if worked.left != 1 or worked.leapt or not is_both_sides(nodes):
        return False
    stitches = [n for n in nodes if isinstance(n, Make) and n.target is not None]
    if not stitches:
        return False
    places = [node.target for node in stitches if node.target is not None]
    several = stitches[0].amount.values[0] if stitches[0].amount else 1
    around = places[0].from_hook and (several or 1) >= _ROUND_AN_END
    return around or places[-1].which is Which.SAME


def _stops_before(nodes: Sequence[Node], size: int) -> int | None:
    """The number that the end of a row leaves: "sc in each st until 4 sts remain, turn"."""
    work = [node for node in nodes if type(node) not in QUIET]
    target = work[-1].target if work and isinstance(work[-1], Make) else None
    until = target.until if target is not None else None
    if until is None or until.which is not Which.LAST or until.amount is None:
        return None
    return until.amount.at(size)
