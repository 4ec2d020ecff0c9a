"""What does custom tell of the terms? A chain of 3 goes with the US dc and the UK tr."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from hookwright.notation.tree import Chain, InOnePlace, Make, Node, Repeat

# Turning chains of US and UK magazines and handbooks: sc 1, hdc 2, dc 3, tr 4 in US names.
_BEGINNING = {
    ("dc", 1): "UK",
    ("tr", 3): "UK",
    ("dc", 3): "US",
    ("dc", 2): "US",
    ("tr", 4): "US",
    ("tr", 2): "UK",
}
_FROM_HOOK = {
    ("dc", 2): "UK",
    ("dc", 3): "US",
    ("dc", 4): "US",
    ("tr", 4): "UK",
    ("tr", 5): "US",
}


def terms_by_height(rows: Iterable[Sequence[Node]]) -> str | None:
    """US or UK by the chains that stitches are begun with; None where they do not tell."""
    votes = {"US": 0, "UK": 0}
    pending: int | None = None
    for row in rows:
        for vote in _votes(row, pending):
            votes[vote] += 1
        pending = _last_chain(row)
    if votes["UK"] == votes["US"]:
        return None
    return max(votes, key=lambda terms: votes[terms])


def _votes(row: Sequence[Node], pending: int | None) -> Iterator[str]:
    work = [
        node for node in row
        if isinstance(node, (Chain, InOnePlace, Repeat))
        or (isinstance(node, Make) and node.stitch != "sl st")
    ]  # fmt: skip
    if not work:
        return
    first = work[0]
    length = pending
    if isinstance(first, Chain):  # "4ch (= 1tr and 1ch)" is as tall as 3
        length = (first.amount.at(0) or 0) - first.stands_chains
    made = next(_makes(work), None)
    if made is None:
        return
    if made.target is not None and made.target.from_hook and made.target.ordinal:
        vote = _FROM_HOOK.get((made.stitch, made.target.ordinal))
    else:
        vote = _BEGINNING.get((made.stitch, length or 0))
    if vote:
        yield vote


def _makes(nodes: Iterable[Node]) -> Iterator[Make]:
    for node in nodes:
        if isinstance(node, Make):
            if node.stitch != "sl st":
                yield node
        elif isinstance(node, (InOnePlace, Repeat)):
            yield from _makes(node.body)


def _last_chain(row: Sequence[Node]) -> int | None:
    work = [node for node in row if isinstance(node, (Chain, Make, InOnePlace, Repeat))]
    last = work[-1] if work else None
    return last.amount.at(0) if isinstance(last, Chain) else None
