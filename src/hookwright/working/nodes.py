"""What a row tells before it is worked: its stitch, its chain, its kind."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from itertools import islice

from msgspec import Struct, field
from msgspec.structs import replace

from hookwright.notation.tree import (
    MIDDLE,
    Amount,
    Chain,
    FinishOff,
    InOnePlace,
    Join,
    Loops,
    Make,
    Means,
    Node,
    Often,
    Recall,
    Remark,
    Repeat,
    Role,
    Skip,
    Tail,
    Target,
    Times,
    Turn,
    Unread,
    Unworked,
    Which,
    Yarn,
)
from hookwright.source import Span
from hookwright.working.conventions import Conventions
from hookwright.working.corners import is_each_centre, is_one_centre
from hookwright.working.hook import Effort
from hookwright.working.making import Own
from hookwright.working.mesh import OPEN
from hookwright.working.sides import NO_SIDES, Sides
from hookwright.working.stitches import base_of, facts_of

QUIET = frozenset((Remark, Turn, Yarn, FinishOff, Loops, Means, Unread, Unworked, Recall))
"""What works nothing: a node is looked up by its type, as it is asked of so many."""


class Setting(Struct, frozen=True):
    """What a row is worked under, apart from its edge.

    Attributes:
        own: Stitches the pattern defines.
        conventions: What is taken for granted.
        terms: "US" or "UK".
        size: Which size.
        is_round: Whether the row is a round.
        pending: Chains made at the end of the row before.
        yarn: The yarn in use.
        main: The last stitch used before this row, for "inc" and "dec".
        sides: The other edges of the piece, for a row that names them.
        effort: What may still be tried.
    """

    own: Own
    conventions: Conventions
    terms: str
    size: int = 0
    is_round: bool = False
    pending: Chain | None = None
    yarn: str | None = None
    main: str = "sc"
    sides: Sides = NO_SIDES
    effort: Effort = field(default_factory=Effort)


def is_elsewhere(node: Node) -> bool:
    """Whether a node is worked along another part or another side."""
    return (
        isinstance(node, Make)
        and node.target is not None
        and node.target.noun in ("elsewhere", "leg")
    )


def turned(nodes: Sequence[Node]) -> bool | None:
    """Whether the row says that the work is turned, or not turned, before or after it."""
    turns = [node.turned for node in nodes if isinstance(node, Turn)]
    if not turns:
        return None
    return turns[-1]


def slip_joins(nodes: Sequence[Node], setting: Setting) -> bool:
    """Whether the row ends with a slip stitch into its own beginning."""
    work = [node for node in nodes if isinstance(node, (Make, Repeat, InOnePlace, Join))]
    last = work[-1] if work else None
    if not isinstance(last, Make) or last.target is None or len(work) < 2:
        return False
    if facts_of(last.stitch, last.legs, setting.own).family != "slip":
        return False
    return is_beginning(last.target)


def is_beginning(target: Target) -> bool:
    """Whether a place is the one a round began in: its first stitch or its chain."""
    return (
        target.which is Which.FIRST
        or target.noun in ("tch", "base")
        or (target.noun == "ch" and target.ordinal is not None)
    )


def without_trailing(
    nodes: Sequence[Node], size: int, *, is_round: bool
) -> tuple[list[Node], int]:
    """The row without the chain at its end that belongs to the next row, and its length."""
    at = len(nodes)
    while at > 0 and type(nodes[at - 1]) in QUIET:
        at -= 1
    last = nodes[at - 1] if at else None
    if not isinstance(last, Chain) or not any(map(_works, nodes[: at - 1])):
        return list(nodes), 0
    turned = any(isinstance(node, Turn) and node.turned for node in nodes)
    if is_round and not turned:
        return list(nodes), 0
    length = last.amount.at(size) or 0
    if length > 6 and not _turn_near(nodes, at):
        return list(nodes), 0
    return [*nodes[: at - 1], *nodes[at:]], length


def without_hanger(nodes: Sequence[Node]) -> Sequence[Node]:
    """The row without a loop to hang it by: "join, ch 12, sl st in same st"."""
    work = [i for i, node in enumerate(nodes) if type(node) not in QUIET]
    if len(work) < _WITH_HANGER:
        return nodes
    join, chain, slip = (nodes[i] for i in work[-3:])
    into = slip.target if isinstance(slip, Make) and slip.stitch == "sl st" else None
    same = into is not None and into.which is Which.SAME
    joined = isinstance(join, Join) or (
        isinstance(join, Make) and join.stitch == "sl st" and join.target is not None
    )
    if not (same and isinstance(chain, Chain) and joined):
        return nodes
    return [node for i, node in enumerate(nodes) if i not in work[-2:]]


_WITH_HANGER = 4
"""A stitch at the least, the join, the chain and the slip stitch."""


def _turn_near(nodes: Sequence[Node], at: int) -> bool:
    return any(isinstance(node, Turn) for node in nodes[max(0, at - 2) :])


def _works(node: Node) -> bool:
    return isinstance(node, (Make, InOnePlace, Repeat))


def trailing_chain(nodes: Sequence[Node], size: int, *, is_round: bool) -> Chain | None:
    """The chain at the end of a row that belongs to the next, with what is said of it."""
    body, number = without_trailing(nodes, size, is_round=is_round)
    if not number:
        return None
    chains = [node for node in nodes if isinstance(node, Chain)]
    return chains[-1] if len(body) < len(nodes) and chains else None


def main_stitch(nodes: Sequence[Node], own: Own) -> str:
    """The stitch a beginning chain stands for: the first plain one of the row."""
    for node in nodes:
        found = _main_of(node, own)
        if found:
            return found
    return ""


def _main_of(node: Node, own: Own) -> str:
    if isinstance(node, Make):
        facts = facts_of(node.stitch, node.legs, own)
        if base_of(node.stitch) == "st":  # the row's own, whatever that is
            return ""
        if facts.family == "plain":
            return node.stitch.removeprefix("fp").removeprefix("bp")
        if facts.family == "together" and node.stitch != "dec":
            return node.stitch.rstrip("tog").rstrip("0123456789") or ""
        if facts.body:
            return main_stitch(facts.body, own)
        if facts.family == "group":
            return "dc"
        return ""
    if isinstance(node, (InOnePlace, Repeat)):
        return main_stitch(node.body, own)
    return ""


def is_lacy(nodes: Sequence[Node]) -> bool:
    """Whether chains stand between the stitches of a row."""
    for i, node in enumerate(nodes):
        if isinstance(node, Chain) and i > 0:
            return True
        if isinstance(node, Make) and node.stitch == OPEN:
            return True
        if isinstance(node, (Repeat, InOnePlace)) and any(
            isinstance(inner, Chain) or is_lacy((inner,)) for inner in node.body
        ):
            return True
    return False


def is_grouped(nodes: Sequence[Node]) -> bool:
    """Whether no chain stands but within groups that fill one place each."""
    return not any(
        (isinstance(node, Chain) and i > 0)
        or (isinstance(node, Make) and node.stitch == OPEN)
        or (isinstance(node, Repeat) and _holds_chain(node.body))
        for i, node in enumerate(nodes)
    )


def _holds_chain(nodes: Sequence[Node]) -> bool:
    return any(isinstance(node, Chain) for node in nodes) or not is_grouped(nodes)


def is_into_edge(nodes: Sequence[Node]) -> bool:
    """Whether a row works a stitch into the chain at the edge below."""
    return any(
        is_into_edge(node.body)
        if isinstance(node, (Repeat, Tail))
        else isinstance(node, Make)
        and node.target is not None
        and (node.target.noun == "tch" or is_space_at_edge(node.target))
        for node in nodes
    )


def works_under_edge(nodes: Sequence[Node]) -> bool:
    """Whether a row works a stitch into the space that the chain at the edge leaves."""
    return any(
        works_under_edge(node.body)
        if isinstance(node, (Repeat, Tail))
        else isinstance(node, Make)
        and node.target is not None
        and is_space_at_edge(node.target)
        for node in nodes
    )


def fills_its_start(nodes: Sequence[Node]) -> bool:
    """Whether a round works into the space that it begins in: "ch 1, sc in same sp"."""
    makes = (n for n in nodes if isinstance(n, (Make, InOnePlace)) and not _slips(n))
    first = next(makes, None)
    if isinstance(first, InOnePlace) and _slips(first.body[0]):
        return True  # "(sl st, ch 1, sc) in next loop"
    target = first.target if first is not None else None
    return target is not None and target.which is Which.SAME


def _slips(node: Node) -> bool:
    return isinstance(node, Make) and node.stitch == "sl st"


def is_space_at_edge(target: Target) -> bool:
    """ "The turning chain space"."""
    return target.noun == "sp" and target.of is not None and target.of.noun == "tch"


def with_meaning(chain: Chain, body: Sequence[Node]) -> Chain:
    """The chain of the row before, with what this row says of it: "(the ch 3 is a dc)"."""
    means = next((node for node in body[:4] if isinstance(node, Means)), None)
    if means is None or chain.role is not Role.UNSAID:
        return chain
    return replace(
        chain, role=means.role, stands=means.stands, stands_chains=means.stands_chains
    )


def following(nodes: Sequence[Node], at: int) -> Iterator[Node]:
    """The nodes from one on, of which mostly the first few are asked for."""
    return islice(nodes, at, None)


def is_in_each(node: Node) -> bool:
    """Whether a node works something in each place of a kind."""
    if not isinstance(node, (Make, InOnePlace)):
        return False
    return node.target is not None and node.target.which is Which.EACH


def each_row(nodes: Iterable[Node]) -> list[Make | InOnePlace]:
    """Stitches and groups that take every place of one kind each, side by side."""
    result: list[Make | InOnePlace] = []
    kinds: set[tuple[str, int | None]] = set()
    for node in nodes:
        if isinstance(node, Remark) and result:
            continue
        make = _in_each(node, follows=bool(result))
        if make is None or make.target is None:
            break
        centre = is_each_centre(make.target) or is_one_centre(make.target)
        kind = ("centre" if centre else make.target.noun, make.target.chains)
        if kind in kinds:
            break
        kinds.add(kind)
        result.append(make)
    while result and result[-1].target is not None and result[-1].target.noun == "tch":
        result.pop()  # it is the last place of a row, and stands at its end
    return result


def _in_each(node: Node, *, follows: bool) -> Make | InOnePlace | None:
    """Work in every place of a kind: "in each tr", or "in the space" behind it."""
    if not isinstance(node, (Make, InOnePlace)) or node.target is None:
        return None
    if isinstance(node, Make) and node.legs > 1:
        return None
    target = node.target
    corners = follows and target.noun == "corner"  # "with 3 sc in each of the 4 corners"
    if (target.amount and not corners) or target.until or target.left_out:
        return None
    if target.which is Which.EACH or (
        follows and (is_each_centre(target) or is_one_centre(target))
    ):
        return node
    if follows and target.noun == "tch":  # "in each tr, in top of the 3 ch and in each sp"
        return replace(node, target=replace(target, which=Which.EACH))
    if follows and target.noun == "sp" and target.which is Which.NEXT:
        return replace(node, target=replace(target, which=Which.EACH))
    return None


def ends_work(after: Iterable[Node]) -> bool:
    """Whether nothing but a join follows: what is left then stays on the edge."""
    return not any(
        isinstance(node, (Make, InOnePlace, Repeat))
        and getattr(node, "stitch", "") != "sl st"
        for node in after
    )


def is_behind(at: int, nodes: Sequence[Node], size: int) -> bool:
    """Whether a skip names what lies behind a stitch of a lower row, told beside it."""
    node = nodes[at]
    near = (*nodes[max(0, at - 1) : at], *nodes[at + 1 : at + 2])
    if not isinstance(node, Skip):
        return False
    number = node.target.amount.at(size) if node.target.amount else 1
    return any(
        isinstance(n, Make) and n.target is not None and n.target.rows_below > 0
        and _places(n, size) == number
        for n in near
    )  # fmt: skip


def _places(make: Make, size: int) -> int | None:
    amount = (make.target.amount if make.target else None) or make.amount
    return amount.at(size) if amount else 1


def reach_of(nodes: Iterable[Node], makes: int) -> int:
    """How many nodes hold the first so many makes."""
    seen = reach = 0
    for node in nodes:
        reach += 1
        seen += isinstance(node, (Make, InOnePlace))
        if seen == makes:
            break
    return reach


def up_to_next(node: Node, after: Iterable[Node]) -> Node:
    """Reads "dc in each st across, dc in last st": "each" stops before the last one."""
    if not isinstance(node, Make) or node.target is None:
        return node
    target = node.target
    if target.which is not Which.EACH or target.amount or target.left_out:
        return node
    follow = next((n for n in after if type(n) not in QUIET), None)
    middle = target.until is not None and target.until.noun == MIDDLE
    if not isinstance(follow, (Make, InOnePlace)) or follow.target is None:
        return replace(node, target=replace(target, until=None)) if middle else node
    if middle:
        return replace(node, target=replace(target, until=replace(follow.target, of=None)))
    if target.until is not None:
        return _up_to_its_space(node, target, follow.target)
    if isinstance(follow, Make) and follow.stitch == "sl st":
        return node
    last = follow.target
    if last.noun == "tch" or (last.which is Which.LAST and last.noun not in ("sp", "gap")):
        return replace(node, target=replace(target, until=replace(last, of=None)))
    return node


def _up_to_its_space(node: Make, target: Target, follow: Target) -> Node:
    """Reads "dc in each dc and sp to beg ch-4, dc in ch-4 sp": to its space.

    A chain that is a stitch and a space ends a row with both of them.
    """
    until = target.until
    chain = until is not None and until.noun == "tch" and until.chains is not None
    if until is None or not chain or (follow.noun, follow.chains) != ("sp", until.chains):
        return node
    space = replace(until, noun="sp", which=Which.LAST, chains=None)
    return replace(node, target=replace(target, until=space))


def up_to_its_begin(node: Repeat) -> Repeat:
    """Reads "*3 sc in corner sp, sc in each dc; rep": up to the next of the corners."""
    work = [one for one in node.body if type(one) not in QUIET]
    if len(work) < 2 or not isinstance(work[0], (Make, InOnePlace)):
        return node
    first, last = work[0].target, work[-1]
    if first is None or first.which is not Which.NEXT or first.noun not in ("sp", "corner"):
        return node
    target = last.target if isinstance(last, Make) and last.legs == 1 else None
    if target is None or target.which is not Which.EACH or target.noun == "sp":
        return node
    if target.amount or target.until or target.left_out:
        return node
    ended = replace(last, target=replace(target, until=first))
    return replace(node, body=tuple(ended if one is last else one for one in node.body))


def to_last(until: Target, span: Span) -> Times:
    """How often something is worked that goes "to last st", "to last ch-1 sp"."""
    noun = "sp" if until.noun == "sp" else "st"
    return Times(Often.TO_LAST, span, until.amount or Amount((1,), span), noun)


def each_place(node: InOnePlace, number: int | None) -> Node:
    """What is worked into one place, as a make for each of them."""
    target = replace(node.target, which=Which.NEXT, amount=None, until=None)
    one = replace(node, target=target)
    if number is not None:
        times = Times(Often.TIMES, node.span, Amount((number,), node.span))
    elif node.target.until is not None and node.target.until.which is Which.LAST:
        times = to_last(node.target.until, node.span)
    elif node.target.left_out:
        times = Times(
            Often.TO_LAST,
            node.span,
            Amount((node.target.left_out,), node.span),
            node.target.noun,
        )
    else:
        times = Times(Often.ACROSS, node.span)
    return Repeat((one,), times, node.span)


def is_from_hook_node(node: Node | None) -> bool:
    """Whether a node works into a chain counted from the hook."""
    if isinstance(node, Skip):
        return node.target.from_hook or node.target.noun == "ch"
    if isinstance(node, (Make, InOnePlace)):
        target = node.target
        if target is None:
            return False
        counted = target.ordinal is not None and target.of is None
        return target.from_hook or (counted and target.noun in ("ch", "st", "tch"))
    if isinstance(node, Repeat) and node.body:
        return is_from_hook_node(node.body[0])
    return False


def works_in_ring(nodes: Sequence[Node], *, made: bool = False) -> bool:
    """Whether the first thing worked goes into a ring, named with it or made before it."""
    for node in nodes:
        if isinstance(node, Remark):
            made = made or re.search(_RING_MADE, node.words, re.IGNORECASE) is not None
        if isinstance(node, (Make, InOnePlace)) and node.target is not None:
            return node.target.noun == "ring" or (made and node.target.noun == "here")
        if isinstance(node, Repeat):
            return works_in_ring(node.body, made=made)
        if isinstance(node, (Make, Skip)):
            return made and isinstance(node, Make)
    return False


_RING_MADE = (
    r"\b(?:(?:magic|slip|sliding|adjustable|thread|yarn)[ -](?:ring|loop|circle)|m[rc])\b"
)


def hooks_first(nodes: Iterable[Node]) -> bool:
    """Whether a row begins by working into the chain just made."""
    first = next((node for node in nodes if type(node) not in QUIET), None)
    return (
        first is not None
        and isinstance(first, (Make, Skip, InOnePlace))
        and bool(first.target and first.target.from_hook)
    )


def begins_with_slip(node: InOnePlace) -> bool:
    """Whether a list in one place begins with the slip stitch that goes there."""
    first = node.body[0] if node.body else None
    if node.target.which is Which.EACH:
        return False
    return isinstance(first, Make) and first.stitch == "sl st" and first.target is None


def slipped_into(node: InOnePlace) -> list[Node]:
    """The same list as the way to its place, and what is worked there then.

    So a round begins: the slip stitch only travels, and the place may be used at its end.
    """
    same = replace(node.target, which=Which.SAME)
    first, *others = node.body
    assert isinstance(first, Make)
    return [
        replace(first, target=node.target),
        *(replace(n, target=same) if isinstance(n, Make) else n for n in others),
    ]
