"""What is kept of a row once its words are collected: its work, its counts, a stripe."""

from __future__ import annotations

from bisect import bisect_left
from itertools import takewhile

from msgspec.structs import replace

from hookwright.notation.claims import read_claim
from hookwright.notation.collected import Collected, OpenRow
from hookwright.notation.counts_by_size import in_order_of_sizes
from hookwright.notation.cursor import Cursor
from hookwright.notation.lexer import Kind, Token
from hookwright.notation.rebuilding import moved
from hookwright.notation.rows_of_kinds import only_words_of_kinds
from hookwright.notation.size_order import for_sizes, of_some_sizes
from hookwright.notation.tree import (
    Amount,
    Chain,
    Change,
    Claim,
    Evenly,
    FinishOff,
    Label,
    Node,
    Remark,
    RowText,
    Turn,
)
from hookwright.notation.unlabelled import lead_behind_chain, lead_behind_end
from hookwright.notation.work import work_in
from hookwright.source import Span


def keep_row(draft: Collected, opened: OpenRow | None) -> None:
    """Ends the row being collected and keeps it."""
    if opened is None or _only_names_rows(opened) or _is_name(draft, opened):
        return
    at = draft.tokens[opened.first].start
    if draft.lead is not None:
        at = min(at, draft.tokens[draft.lead.first].start)
    nodes, claims = draft.read(opened, at)
    claims = claims or _count_before(opened, at)
    claims = in_order_of_sizes(claims, draft.source.text, at, draft.sizes)
    last = draft.tokens[max(opened.first, opened.last) - 1]
    span = Span(opened.start, max(opened.start, last.end))
    if opened.label is not None and _stripe_line(draft, opened, nodes):
        return
    if draft.lead is not None:
        lead, _ = draft.read(draft.lead, at)
        nodes = (*lead, *nodes)
        draft.lead = None
    if opened.label is not None:
        if not claims and all(isinstance(node, Remark) for node in nodes):
            even, claims = _as_before(draft, opened, opened.label, at)
            nodes = even or nodes
        own = opened.label.sizes
        _share_count(draft, opened.label, claims, at)
        nodes, claims = of_some_sizes((nodes, claims), own, draft.sizes)
        nodes = only_words_of_kinds(nodes)
    elif opened.sizes:
        told = of_some_sizes((nodes, claims), opened.sizes, draft.sizes)
        nodes, claims = for_sizes(told, opened.sizes, draft.sizes)
    behind = _lead_behind(nodes) if opened.label is None and not claims else 0
    if behind:
        first = bisect_left(draft.tokens, at + nodes[behind].span.start, key=_start)
        draft.lead = OpenRow(None, first, opened.last, draft.tokens[first].start)
        nodes, span = nodes[:behind], Span(span.start, at + nodes[behind - 1].span.end)
    if behind and not draft.rows and not isinstance(nodes[behind - 1], Chain):
        return  # it ends a row of the part before
    draft.rows.append(RowText(opened.label, nodes, claims, span, at))


def _lead_behind(nodes: tuple[Node, ...]) -> int:
    """Where on a line the next row is led to, behind its end or its chain; else 0."""
    return lead_behind_end(nodes) or lead_behind_chain(nodes)


def _count_before(opened: OpenRow, at: int) -> tuple[Claim, ...]:
    """ "[18] Rnd 3: ...": the count that stands before the label."""
    return moved((opened.count,), -at) if opened.count is not None else ()


def _as_before(
    draft: Collected, opened: OpenRow, label: Label, at: int
) -> tuple[tuple[Node, ...], tuple[Claim, ...]]:
    """ "R4-6: 15": rounds that only their number tells go on as the one before them."""
    if not label.is_round or not label.numbers or label.numbers[0] == 1:
        return (), ()
    claim = _only_count(draft, opened)
    figures = claim.figures if claim is not None else ()
    plain = len(figures) == 1 and figures[0].unit == "st" and figures[0].chains is None
    if claim is None or not plain:
        return (), ()
    told = moved((claim,), -at)
    span = told[0].span
    return (Evenly(Amount((0,), span), Change.MORE, span, ""),), told


def _only_count(draft: Collected, opened: OpenRow) -> Claim | None:
    """The number that is all a line tells, in brackets or bare."""
    line = list(takewhile(lambda t: t.kind is not Kind.LINE, draft.tokens_in(opened)))
    for words in (line, line[1:-1]):
        if not words:
            continue
        end = Token(Kind.END, "", 0, words[-1].end, words[-1].end)
        cursor = Cursor([*words, end], 0, draft.own_words, max(1, len(draft.sizes)))
        claim = read_claim(cursor)
        cursor.take_kind(Kind.STOP)
        if claim is not None and cursor.done():
            return claim
    return None


def _start(token: Token) -> int:
    return token.start


def _share_count(
    draft: Collected, label: Label, claims: tuple[Claim, ...], at: int
) -> None:
    """ "Child: sc in each st. Adult: inc in each st. 48 (56)": the count of all of them."""
    before = draft.rows[-1] if draft.rows else None
    if before is None or before.label is None or before.claims or not label.sizes:
        return
    same = before.label.text == label.text and before.label.sizes
    numbers = {len(f.amount.values) for claim in claims for f in claim.figures}
    if same and numbers == {len(draft.sizes)}:
        draft.rows[-1] = replace(before, claims=moved(claims, at - before.at))


def _only_names_rows(opened: OpenRow) -> bool:
    """ "Joining round:" over "Rnd 11: ...": a title, for nothing stands behind it."""
    label = opened.label
    if label is None or label.numbers or label.next_rows is not None:
        return False
    return label.every in ("", "next") and opened.first >= opened.last


def _is_name(draft: Collected, opened: OpenRow) -> bool:
    """ "Wall:" before "6th rnd: ...", on the same line: a name, and no row."""
    tokens = draft.tokens[opened.first : opened.last]
    named = opened.label is None and 1 < len(tokens) <= _LONGEST_NAME
    return (
        named
        and tokens[-1].kind is Kind.COLON
        and all(t.kind is Kind.WORD for t in tokens[:-1])
    )


_LONGEST_NAME = 5


_ENDINGS = (Turn, FinishOff)


def _stripe_line(draft: Collected, opened: OpenRow, nodes: tuple[Node, ...]) -> bool:
    """ "Rows 3-4: Slate" tells the colour of rows; it is not a row."""
    label = opened.label
    if label is None or work_in(nodes) or any(isinstance(n, _ENDINGS) for n in nodes):
        return False
    words = [t for t in draft.tokens_in(opened) if t.kind not in (Kind.LINE, Kind.STOP)]
    if not words or len(words) > 3 or not all(t.text in draft.yarns for t in words):
        return False
    name = draft.source.text[words[0].start : words[-1].end]
    draft.stripes.extend((number, name) for number in label.numbers)
    return True
