"""One row to be worked, with its label, words and counts."""

from __future__ import annotations

from itertools import pairwise

from msgspec import Struct
from msgspec.structs import replace

from hookwright.notation.tree import (
    Chain,
    Claim,
    Figure,
    InOnePlace,
    Join,
    Make,
    Node,
    Repeat,
    RowText,
    Skip,
    Which,
)
from hookwright.source import Span

MOST_ROWS = 5_000


class Step(Struct, frozen=True):
    """One row to be worked.

    Attributes:
        part: Number of its part.
        number: Its row number; None for a row without one.
        label: The label as printed.
        nodes: Its instructions, those of the row it recalls where it recalls one.
        claims: Counts printed for it.
        span: Where it stands.
        is_round: Whether its label says round.
        text: The row of the tree it comes from.
        recalled: The number of the row it recalls.
        side: "RS", "WS" or "".
    """

    part: int
    number: int | None
    label: str
    nodes: tuple[Node, ...]
    claims: tuple[Claim, ...]
    span: Span
    is_round: bool
    text: RowText
    recalled: int | None = None
    side: str = ""

    def place(self, span: Span) -> Span:
        """Where the words of a count or of an instruction of its own stand in the text."""
        return self.text.place(span)


def row_name(step: Step) -> str:
    """What a finding calls a row: "Row 7"."""
    if step.number is None:
        return step.label or "This row"
    return f"{'Round' if step.is_round else 'Row'} {step.number}"


def is_called_row(step: Step) -> bool:
    """Whether a label says "row", which in a pattern of rounds means no round."""
    return step.label[:3].lower() == "row"


def claims_at(
    claims: tuple[Claim, ...], at: int, of: int, number: int
) -> tuple[Claim, ...]:
    """The counts of one row of a range: "(18, 24, 30 dc)" has one for each of three.

    "22 dc after Row 3, 38 dc after Row 5" says which rows its numbers are of.
    """
    told = {figure.row for claim in claims for figure in claim.figures} - {0}
    if len(told) > 1 or (of > 1 and told):
        of_row = (_of_row(claim, number, last=at == of - 1) for claim in claims)
        return tuple(claim for claim in of_row if claim.figures)
    if of > 1 and len(claims) == 1 and _is_one_a_row(claims[0].figures, of):
        figures = claims[0].figures[:of]
        unit = figures[-1].unit  # told once, behind the last number
        if all(figure.unit in ("st", unit) for figure in figures):
            own = replace(figures[at], unit=unit, chains=figures[-1].chains)
            return (replace(claims[0], figures=(own,)),)
    return claims if at == of - 1 else ()


def _of_row(claim: Claim, number: int, *, last: bool) -> Claim:
    """What a count says of one row; what it tells of none is of the last."""
    figures = tuple(
        figure for figure in claim.figures
        if figure.row == number or (last and not figure.row)
    )  # fmt: skip
    if len(figures) == len(claim.figures) or not figures:
        return replace(claim, figures=figures)
    span = figures[0].amount.span.to(figures[-1].amount.span)
    return replace(claim, figures=figures, span=span)


def _is_one_a_row(figures: tuple[Figure, ...], of: int) -> bool:
    """Whether a count goes from row to row: "(24 sc, 30 sc, 36 sc; 6 in each wedge)"."""
    if len(figures) <= of:
        return len(figures) == of
    told = [figure.amount.at(0) or 0 for figure in figures[:of]]
    steps = {one < other for one, other in pairwise(told)}
    return len({figure.unit for figure in figures[:of]}) == 1 and len(steps) == 1


def carried(steps: list[Step]) -> list[Step]:
    """Slip stitches behind the join of a round travel to where the next one begins."""
    result: list[Step] = []
    carry: tuple[Node, ...] = ()
    for step in steps:
        nodes = (*carry, *step.nodes)
        kept, carry = _split_travel(nodes)
        result.append(replace(step, nodes=kept) if kept != step.nodes else step)
    return result


def _split_travel(nodes: tuple[Node, ...]) -> tuple[tuple[Node, ...], tuple[Node, ...]]:
    joins = [i for i, node in enumerate(nodes) if _closes(node)]
    if not joins:
        return nodes, ()
    after = nodes[joins[-1] + 1 :]
    slips = [node for node in after if isinstance(node, Make)]
    travel = slips and all(n.stitch == "sl st" and n.target is not None for n in slips)
    others = any(isinstance(node, (Chain, Repeat, InOnePlace, Skip)) for node in after)
    if (
        not travel
        or others
        or not any(
            isinstance(n, (Make, Repeat, InOnePlace)) and not _closes(n)
            for n in nodes[: joins[-1]]
        )
    ):
        return nodes, ()
    return nodes[: joins[-1] + 1], tuple(slips)


def _closes(node: Node) -> bool:
    """Whether a node joins the end of a round to its beginning."""
    if isinstance(node, Join):
        return True
    if not isinstance(node, Make) or node.stitch != "sl st" or node.target is None:
        return False
    return node.target.noun == "tch" or node.target.which is Which.FIRST
