"""A row that is another row again, with the changes its own words make."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from msgspec.structs import replace

from hookwright.notation.rebuilding import bare
from hookwright.notation.tree import (
    Amount,
    Chain,
    Evenly,
    FinishOff,
    InOnePlace,
    Instead,
    Join,
    Loops,
    Make,
    Means,
    Node,
    Often,
    Recall,
    Remark,
    Repeat,
    Skip,
    Tail,
    Turn,
    Unworked,
    Which,
    Yarn,
)


def named_rows(recall: Recall) -> str:
    """The rows that a recall names, as it names them."""
    numbers = ", ".join(str(n) for n in recall.rows[:6])
    return f"{recall.label} {numbers}".strip()


def numbered_name(name: str, number: int | None) -> str:
    """What a row of a name and a number is known by: "hem row 2"."""
    return name if number is None else f"{name} {number}"


def recall_in(nodes: Iterable[Node]) -> Recall | None:
    """The recall among instructions, also within a repeat."""
    return next(
        (node for node in nodes if isinstance(node, Recall) and _names_rows(node)), None
    )


def _names_rows(recall: Recall) -> bool:
    """Whether it works rows again that it names: no word on which rows the pattern is."""
    return not recall.forms_pattern and not recall.pattern


def pattern_in(nodes: Iterable[Node]) -> tuple[int, ...]:
    """The rows that are said to form the pattern; () where none are."""
    told = (n for n in nodes if isinstance(n, Recall) and n.forms_pattern)
    return next((node.rows for node in told), ())


def repeats_itself(
    body: Sequence[Node], recall: Recall, numbers: Sequence[int] = ()
) -> bool:
    """Reads "sc in each st, turn. Rep this row 3 more times": the row, and then again.

    So does "sc in each st, turn. Rep rows 2 and 3 twice more", and a row of some `numbers`
    that is told first and then named: "2nd row: sc in each st. Repeat 2nd row for length".
    """
    at = _place_of(body, recall)
    worked = any(isinstance(n, (Make, Repeat, InOnePlace, Evenly)) for n in body[:at])
    if not worked or not recall.rows:
        return False
    if max(recall.rows) < 0:
        told = recall.open_length or recall.up_to or recall.more
        further = bool(told or recall.reached)
        return recall.times is not None or further
    ended = any(isinstance(node, (Turn, Join, FinishOff)) for node in body[:at])
    ended = ended or recall.rows[-1] in numbers
    return ended or (recall.times is not None and recall.times.amount is not None)


def _place_of(body: Sequence[Node], recall: Recall) -> int:
    """Where a row tells of a recall, which may name the rows its words leave open."""
    told = (
        i for i, n in enumerate(body) if isinstance(n, Recall) and n.span == recall.span
    )
    return next(told, 0)


def where_begun(nodes: tuple[Node, ...]) -> tuple[Node, ...]:
    """A row from where its yarn is joined behind stitches that are skipped.

    "Skip next 8 sts, join yarn in next st" is done once, and in no row that is this again.
    """
    quiet = (Skip, Remark, Join, Yarn)
    begins = next((i for i, n in enumerate(nodes) if not isinstance(n, quiet)), 0)
    skips = [i for i, node in enumerate(nodes[:begins]) if isinstance(node, Skip)]
    joins = [i for i, node in enumerate(nodes[:begins]) if isinstance(node, (Join, Yarn))]
    return nodes[joins[-1] + 1 :] if skips and joins and skips[0] < joins[-1] else nodes


def with_changes(
    body: Sequence[Node], recall: Recall, found: tuple[Node, ...], again: int = 1
) -> tuple[Node, ...]:
    """The recalled words with what the row says besides: a yarn, a first or last stitch.

    `again` says how often the other row has been worked so, this time with it.
    """
    at = _place_of(body, recall)
    for change in body[at + 1 :]:
        if isinstance(change, Instead):
            times = again if change.each else 1
            if change.begins:
                found = _begun_with(found, change.body)
            elif change.length:
                found = _with_run(found, _only_stitch(change.body), change)
            elif change.more:
                found = _grown(found, _only_stitch(change.body), change.more * times)
            else:
                found = _changed(found, change)
        elif isinstance(change, Repeat) and change.times.amount is not None:
            found = tuple(_retimed(node, change, bare(change.body)) for node in found)
    before = [node for node in body[:at] if isinstance(node, Yarn)]
    said = (Yarn, Loops, Unworked)
    yarns = [node for node in body[at + 1 :] if isinstance(node, said)]
    kept = tuple(
        node for node in found if not any(type(node) is type(own) for own in yarns)
    )
    first = [node for node in body[:at] if isinstance(node, Make)]
    last = [node for node in body[at + 1 :] if isinstance(node, Make)]
    tail = next(
        (node for node in body[at + 1 :] if isinstance(node, Tail) and node.body), None
    )
    tailed = any(isinstance(node, Tail) for node in kept)
    if tail is not None:
        end: tuple[Node, ...] = (tail,) if tailed else tail.body
        kept = (*_without_last(kept), *end, *(n for n in kept if isinstance(n, Join)))
    if first and all(node.target is not None for node in first):
        kept = (*first, *_without_first(kept))
    if last and all(_is_last(node) for node in last):
        end = (Tail(tuple(last), last[0].span),) if tailed else tuple(last)
        kept = (*_without_last(kept), *end)
    means = [node for node in body if isinstance(node, Means)]
    return (*before, *yarns, *means, *kept)


_AT_THE_START = (Which.FIRST, Which.SAME)


def _begun_with(nodes: tuple[Node, ...], body: tuple[Node, ...]) -> tuple[Node, ...]:
    """The words of a row that begins otherwise: with other chains, or another stitch."""
    at = next((i for i, n in enumerate(nodes) if not isinstance(n, _BEFORE_WORK)), 0)
    first = nodes[at] if nodes else None
    target = first.target if isinstance(first, (Make, InOnePlace, Skip)) else None
    worked = any(isinstance(node, (Make, InOnePlace, Skip)) for node in body)
    if target is not None and (
        target.from_hook or (worked and target.which in _AT_THE_START)
    ):
        at += 1
    kept = [n for n in nodes[:at] if isinstance(n, (Turn, Yarn, Loops, Join))]
    turned = any(isinstance(node, Turn) for node in body)
    return (*(n for n in kept if not (turned and isinstance(n, Turn))), *body, *nodes[at:])


_BEFORE_WORK = (Chain, Means, Turn, Yarn, Loops, Join, Remark)


def _changed(nodes: tuple[Node, ...], change: Instead) -> tuple[Node, ...]:
    """The words of a row with one repeat worked otherwise, or one instruction another."""
    if change.times is not None:
        places = [i for i, node in enumerate(nodes) if _is_numbered(node, change)]
        if not places:
            return nodes
        repeat = nodes[places[0]]
        assert isinstance(repeat, Repeat)
        times = replace(repeat.times, amount=change.times)
        return _with(nodes, places[0], replace(repeat, times=times))
    if change.of:
        old, by = _only_stitch(change.of), _only_stitch(change.body)
        if old and by:
            return tuple(_restitched(node, old, by) for node in nodes)
        return _replaced(nodes, bare(change.of), change.body)
    new = change.body[0] if change.body else None
    if not isinstance(new, Make):
        return nodes
    alike = [i for i, n in enumerate(nodes) if isinstance(n, Make) and _is_like(n, new)]
    if alike:
        return _with(nodes, alike[len(alike) // 2], new)
    return tuple(_with_number(node, new) for node in nodes)


def _retimed(node: Node, told: Repeat, body: tuple[Node, ...]) -> Node:
    """A node in which the repeat told anew is worked as often as told, wherever it is."""
    if not isinstance(node, (Repeat, Tail, InOnePlace)):
        return node
    if isinstance(node, Repeat) and node.times.amount and bare(node.body) == body:
        return replace(node, times=told.times)
    return replace(node, body=tuple(_retimed(n, told, body) for n in node.body))


def _grown(nodes: tuple[Node, ...], stitch: str, more: int) -> tuple[Node, ...]:
    """A row with the longest run of a stitch longer, wherever it stands in its repeat."""
    longest = max((_run_of(node, stitch) for node in _all_makes(nodes)), default=0)
    if not longest:
        return nodes
    first = _run_beside_chain(nodes, stitch, longest)
    return tuple(
        _grow(node, stitch, more, longest - (i == first)) for i, node in enumerate(nodes)
    )


def _with_run(nodes: tuple[Node, ...], stitch: str, change: Instead) -> tuple[Node, ...]:
    """A row whose longest run is now so long; open where it has none."""
    longest = max((_run_of(node, stitch) for node in _all_makes(nodes)), default=0)
    if not longest:
        return (*nodes, Unworked(change.span, "grows otherwise"))
    return _grown(nodes, stitch, change.length - longest)


def _run_beside_chain(nodes: Sequence[Node], stitch: str, longest: int) -> int | None:
    """Where "3 ch, tr in next 2" stands: the chain is the third of a run of three."""
    work = [i for i, node in enumerate(nodes) if isinstance(node, (Chain, Make, Repeat))]
    if len(work) < _CHAIN_AND_RUN or not isinstance(nodes[work[0]], Chain):
        return None
    node = nodes[work[1]]
    short = isinstance(node, Make) and _run_of(node, stitch) == longest - 1
    return work[1] if short and longest > 1 else None


_CHAIN_AND_RUN = 2


def _all_makes(nodes: Sequence[Node]) -> Iterator[Make]:
    for node in nodes:
        if isinstance(node, Make):
            yield node
        elif isinstance(node, (Repeat, Tail)):
            yield from _all_makes(node.body)


def _run_of(node: Make, stitch: str) -> int:
    """How many places a stitch is worked over, one in each; 0 for another stitch."""
    if node.legs > 1 or (stitch and node.stitch != stitch):
        return 0
    if node.target is None:
        return (node.amount.at(0) or 0) if node.amount else 1
    if node.target.which is not Which.NEXT or (node.amount and node.amount.at(0) != 1):
        is_run = node.target.which is Which.EACH and node.target.amount is not None
        return (node.target.amount.at(0) or 0) if is_run and node.target.amount else 0
    return (node.target.amount.at(0) or 0) if node.target.amount else 1


def _grow(node: Node, stitch: str, more: int, longest: int) -> Node:
    if isinstance(node, (Repeat, Tail)):
        return replace(node, body=tuple(_grow(n, stitch, more, longest) for n in node.body))
    if not isinstance(node, Make) or _run_of(node, stitch) != longest:
        return node
    amount = Amount((max(0, longest + more),), node.span)
    if node.target is None:
        return replace(node, amount=amount)
    return replace(node, target=replace(node.target, amount=amount))


def _only_stitch(nodes: tuple[Node, ...]) -> str:
    """The stitch, where nothing else is named: "with hdc in place of sc"; else ""."""
    only = nodes[0] if len(nodes) == 1 else None
    plain = isinstance(only, Make) and only.target is None and only.amount is None
    return only.stitch if plain and isinstance(only, Make) else ""


def _restitched(node: Node, old: str, new: str) -> Node:
    """A node with one stitch worked in place of another, wherever it is worked."""
    if isinstance(node, (Repeat, Tail, InOnePlace)):
        return replace(node, body=tuple(_restitched(n, old, new) for n in node.body))
    if isinstance(node, Make) and node.stitch == old:
        return replace(node, stitch=new)
    return node


def _with_number(node: Node, new: Make) -> Node:
    """A node in which the like stitch in the like place is worked as often as told."""
    if isinstance(node, (Repeat, Tail)):
        return replace(node, body=tuple(_with_number(n, new) for n in node.body))
    if not isinstance(node, Make) or node.target is None or new.target is None:
        return node
    alike = (node.stitch, node.target.noun) == (new.stitch, new.target.noun)
    return replace(node, amount=new.amount) if alike else node


def _replaced(
    nodes: tuple[Node, ...], of: tuple[Node, ...], by: tuple[Node, ...]
) -> tuple[Node, ...]:
    """Instructions with some of them, wherever they stand, exchanged for others."""
    result: list[Node] = []
    at = 0
    while at < len(nodes):
        node = nodes[at]
        if bare(nodes[at : at + len(of)]) == of:
            result.extend(by)
            at += len(of)
            continue
        if isinstance(node, (Repeat, Tail, InOnePlace)):
            node = replace(node, body=_replaced(node.body, of, by))
        result.append(node)
        at += 1
    return tuple(result)


def _with(nodes: tuple[Node, ...], at: int, node: Node) -> tuple[Node, ...]:
    return (*nodes[:at], node, *nodes[at + 1 :])


def _is_numbered(node: Node, change: Instead) -> bool:
    """Whether a repeat is told by the number that is changed, or by any where none is."""
    if not isinstance(node, Repeat) or node.times.amount is None:
        return False
    if node.times.often in (Often.ACROSS, Often.TO_LAST):
        return False
    return change.was is None or node.times.amount.values == change.was.values


def _is_like(node: Make, new: Make) -> bool:
    several = node.amount or (node.target.amount if node.target else None)
    return node.stitch == new.stitch and several is not None


def _without_first(nodes: tuple[Node, ...]) -> tuple[Node, ...]:
    """A row without its own first stitch, which the row that recalls it gives anew."""
    at = next((i for i, node in enumerate(nodes) if isinstance(node, (Make, Repeat))), None)
    if at is None or not isinstance(nodes[at], Make):
        return nodes
    return (*nodes[:at], *nodes[at + 1 :])


def _without_last(nodes: tuple[Node, ...]) -> tuple[Node, ...]:
    """A row without its own end, which the row that recalls it gives anew."""
    kept = list(nodes)
    while kept and not isinstance(kept[-1], (Make, Repeat, InOnePlace, Tail)):
        kept.pop()
    if kept and (isinstance(kept[-1], Tail) or _is_last(kept[-1])):
        kept.pop()
    return tuple(kept)


def _is_last(node: Node) -> bool:
    if not isinstance(node, Make) or node.target is None:
        return False
    target = node.target
    return target.which is Which.LAST or target.last or target.noun == "tch"
