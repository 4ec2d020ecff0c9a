"""Do brackets and repeats stand in one another too deep to be followed?

Source: design/data/standards.json. Inner repeats take a different mark, so that a maker
finds the end of each; how deep is too deep is common practice. Only what is worked counts,
never a remark or a list of sizes in brackets.
"""

from __future__ import annotations

from collections.abc import Iterator

from hookwright.design.level import standards
from hookwright.editing.manuscript import Manuscript
from hookwright.finding import Finding, Severity
from hookwright.notation.nested import is_group
from hookwright.notation.tree import InOnePlace, Node, Repeat, RowText, Tail
from hookwright.source import Source, Span

_Group = Repeat | InOnePlace | Tail


def too_deep(manuscript: Manuscript) -> Iterator[Finding]:
    """One finding for a row with marks too deep in one another, at the innermost."""
    source = manuscript.source
    for part in manuscript.pattern.parts:
        for row in part.rows:
            if not any(map(_holds_another, row.body)):
                continue
            found = _deepest(row, source)
            if found is not None:
                yield _finding(row, part.name, *found)


def _holds_another(node: Node) -> bool:
    """Whether a node is a group with another in it, as one that is too deep must be."""
    return is_group(node) and any(map(is_group, node.body))


def _deepest(row: RowText, source: Source) -> tuple[Span, str, int] | None:
    """The first group that stands too deep, its mark, and how deep; "" for any mark."""
    limits = standards()["nesting"]
    waiting: list[tuple[_Group, tuple[str, ...]]] = [
        (node, ()) for node in reversed(row.body) if is_group(node)
    ]
    while waiting:
        node, around = waiting.pop()
        mark = _mark(node, row, source)
        marks = (*around, mark) if mark else around
        if mark and marks.count(mark) > limits["same_mark"]:
            return row.place(node.span), mark, marks.count(mark)
        if mark and len(marks) > limits["in_all"]:
            return row.place(node.span), "", len(marks)
        waiting.extend((one, marks) for one in reversed(node.body) if is_group(one))
    return None


def _mark(node: _Group, row: RowText, source: Source) -> str:
    """The mark a group stands in; "" where its words alone make it one."""
    if isinstance(node, Tail):
        return ""
    text, start = source.text, row.place(node.span).start
    if isinstance(node, Repeat) and node.mark.startswith("*"):
        return "*" if "*" in text[max(0, start - _STAR_NEAR) : start] else ""
    inner = min((inner.span.start for inner in node.body), default=node.span.start)
    opened = [mark for mark in text[start : row.at + inner] if mark in "([{"]
    return opened[-1] if opened else ""


_STAR_NEAR = 3


_NAMES = {"(": "round brackets", "[": "square brackets", "{": "braces", "*": "stars"}


def _finding(row: RowText, part: str, span: Span, mark: str, depth: int) -> Finding:
    label = row.label
    name = label.text if label else "This row"
    what = _NAMES.get(mark, "brackets and stars")
    numbers = label.numbers if label else ()
    return Finding(
        "too-deep",
        Severity.ADVICE,
        span,
        f"{name} has {what} {depth} deep in one another.",
        "Give the inner repeat another mark, or tell the row in two steps.",
        row=label.text if label else None,
        part=part or None,
        numbers=(numbers[0], numbers[-1]) if numbers else None,
    )
