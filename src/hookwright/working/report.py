"""What a worked pattern has to say: its rows as people label them, and its findings."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from hookwright.finding import Edit, Finding, Severity
from hookwright.notation.tree import (
    Claim,
    InOnePlace,
    Make,
    Node,
    Pattern,
    Repeat,
    RowText,
    Tail,
    Unread,
)
from hookwright.source import Source, Span
from hookwright.working.conventions import Choice
from hookwright.working.count import Count
from hookwright.working.pattern import Outcome, WorkedPattern, Working
from hookwright.working.plan import Step


@dataclass(frozen=True, slots=True)
class Line:
    """A printed label with what it stands for: rows alike in every number share one.

    Attributes:
        part: The name of its part.
        printed: The label as printed; "" for a row without one.
        first: Its first row number, one a size.
        last: Its last row number, one a size.
        times: How many rows it stands for.
        span: Where it stands.
        stitches: Stitches made, one a size; None where it is not worked.
        uses: Stitches of the edge below used, one a size.
        spaces: Chain spaces made, one a size.
        stated: The printed count, one a size.
        colours: Stitches with each yarn, in the first size.
        agrees: Whether it closes and its count agrees, in every size.
        below: Stitches of the edge below, one a size.
    """

    part: str
    printed: str
    first: tuple[int | None, ...]
    last: tuple[int | None, ...]
    times: int
    span: Span
    stitches: tuple[Count | None, ...]
    uses: tuple[Count | None, ...]
    spaces: tuple[Count | None, ...]
    stated: tuple[int | None, ...]
    colours: tuple[tuple[str, Count], ...]
    agrees: bool
    below: tuple[Count | None, ...] = ()


def lines_of(worked: WorkedPattern) -> tuple[Line, ...]:
    """The rows of a pattern, as they are printed, with their numbers in every size."""
    per_size = [
        [_line(worked.pattern, working, outcome) for outcome in working.outcomes]
        for working in worked.sizes
    ]
    rows = per_size[0] if len(per_size) == 1 else _merged(per_size)
    return tuple(_folded(rows))


def _folded(rows: Iterable[Line]) -> Iterator[Line]:
    """Rows of one label that are alike in every number share a line."""
    waiting: Line | None = None
    for line in rows:
        if waiting is not None and _alike(waiting, line):
            waiting = replace(
                waiting, last=line.last, times=waiting.times + 1, stated=_later(waiting, line),
                agrees=waiting.agrees and line.agrees,
            )  # fmt: skip
            continue
        if waiting is not None:
            yield waiting
        waiting = line
    if waiting is not None:
        yield waiting


def _later(waiting: Line, line: Line) -> tuple[int | None, ...]:
    return line.stated if any(n is not None for n in line.stated) else waiting.stated


def _alike(a: Line, b: Line) -> bool:
    numbers = (a.stitches, a.uses, a.spaces, a.printed, a.part, a.span)
    follows = all(
        (x is None and y is None) or (x is not None and y == x + 1)
        for x, y in zip(a.last, b.first, strict=True)
    )
    some = any(x is not None for x in a.last)
    return (
        numbers == (b.stitches, b.uses, b.spaces, b.printed, b.part, b.span)
        and follows
        and some
    )


def _line(pattern: Pattern, working: Working, outcome: Outcome) -> Line:
    step, worked = outcome.step, outcome.worked
    number = step.number
    stated = stated_number(step.claims, working, outcome)
    part = pattern.parts[step.part].name
    if worked is None:
        made: Count | None = outcome.foundation
        return Line(
            part, step.label, (number,), (number,), 1, step.span, (made,), (0,), (0,), (stated,),
            (), agrees=True,
        )  # fmt: skip
    yarns = tuple((name or "", count) for name, count in worked.row.yarns())
    return Line(
        part, step.label, (number,), (number,), 1, step.span, (worked.row.makes,),
        (worked.row.uses,), (worked.row.spaces,), (stated,), yarns,
        not problems_of(working, outcome), (outcome.below,),
    )  # fmt: skip


def stated_number(
    claims: Sequence[Claim], working: Working, outcome: Outcome
) -> int | None:
    """The printed count as one number; by kind it is their sum."""
    del working, outcome
    for claim in claims:
        if claim.of_rows:
            continue
        figures = [f for f in claim.figures if f.unit not in ("sp", "ch")] or list(
            claim.figures
        )
        numbers = [figure.amount.at(0) for figure in figures]
        if all(number is not None for number in numbers):
            return sum(number for number in numbers if number is not None)
    return None


def _merged(per_size: list[list[Line]]) -> list[Line]:
    """One line for every printed row, with a number for each size it is worked in."""
    found: list[dict[tuple[int, str, int], Line]] = []
    for lines in per_size:
        # Counted from the end: the last round of "Rnds 3-5 (5, 6, 6)" is one in every size.
        own: dict[tuple[int, str, int], Line] = {}
        seen: dict[tuple[int, str], int] = {}
        for line in reversed(lines):
            base = (line.span.start, line.printed)
            seen[base] = seen.get(base, -1) + 1
            own[(*base, seen[base])] = line
        found.append(dict(reversed(own.items())))
    places: dict[tuple[int, str, int], int] = {}
    for own in found:
        for place, key in enumerate(own):
            places[key] = max(place, places.get(key, 0))
    keys = sorted(places, key=lambda key: places[key])
    return [_across(key, found) for key in keys]


def _across(
    key: tuple[int, str, int], found: list[dict[tuple[int, str, int], Line]]
) -> Line:
    lines = [own.get(key) for own in found]
    first = next(line for line in lines if line is not None)
    stated = _stated_by_size(first, lines)
    return replace(
        first,
        first=tuple(line.first[0] if line else None for line in lines),
        last=tuple(line.last[0] if line else None for line in lines),
        times=max(line.times for line in lines if line),
        stitches=tuple(line.stitches[0] if line else None for line in lines),
        uses=tuple(line.uses[0] if line else None for line in lines),
        spaces=tuple(line.spaces[0] if line else None for line in lines),
        stated=stated,
        below=tuple(line.below[0] if line and line.below else None for line in lines),
        agrees=all(line.agrees for line in lines if line),
    )


def _stated_by_size(first: Line, lines: list[Line | None]) -> tuple[int | None, ...]:
    return tuple(line.stated[0] if line else None for line in lines)


@dataclass(frozen=True, slots=True)
class Problem:
    """A rule broken by a row, before it is put into words."""

    rule: str
    span: Span
    number: Count = 0


def problems_of(working: Working, outcome: Outcome) -> list[Problem]:
    """What is wrong with one row: its closing first, then its count."""
    worked = outcome.worked
    if worked is None:
        return []
    result: list[Problem] = []
    step = outcome.step
    if Choice.AS_MANY_AS_FIT in outcome.readings:
        result.append(Problem("past-the-end", _work_span(step), outcome.literal_missing))
    elif worked.missing:
        result.append(Problem("past-the-end", _work_span(step), worked.missing))
    elif worked.left and not outcome.meant:
        result.append(Problem("stitches-left", _work_span(step), worked.left))
    elif worked.leapt and not outcome.meant:
        result.append(Problem("stitches-left", _work_span(step), worked.leapt))
    claims = [claim for claim in step.claims if not claim.of_rows]
    for claim, agrees in zip(claims, outcome.agrees, strict=False):
        if not agrees[working.habit]:
            result.append(Problem("stated-count", claim.span))
    return result


def _work_span(step: Step) -> Span:
    """The words that work the end of the row."""
    work = [n for n in step.nodes if isinstance(n, (Make, Repeat, InOnePlace, Tail))]
    inside = [node for node in work if node.span in step.span]
    return inside[-1].span if inside else step.span


def findings_of(worked: WorkedPattern, source: Source) -> list[Finding]:
    """Every finding of a worked pattern, each mistake once, at its origin."""
    collected: dict[tuple[str, Span], tuple[Finding, list[int]]] = {}
    for size, working in enumerate(worked.sizes):
        for finding in _of_size(worked, working, size, source):
            key = (finding.rule, finding.span)
            if key in collected:
                collected[key][1].append(size)
            else:
                collected[key] = (finding, [size])
    names = worked.pattern.sizes
    result = []
    for finding, sizes in collected.values():
        some = len(sizes) < len(worked.sizes)
        result.append(
            replace(finding, sizes=tuple(names[s] for s in sizes if s < len(names)))
            if some and names else finding
        )  # fmt: skip
    result.extend(_unread(worked, source))
    return sorted(result, key=lambda f: (f.span.start, f.rule))


def _of_size(
    worked: WorkedPattern, working: Working, size: int, source: Source
) -> Iterator[Finding]:
    told: set[int] = set()
    after_fault = False
    for outcome in working.outcomes:
        if outcome.step.part >= 0 and outcome.worked is None:
            continue
        problems = problems_of(working, outcome)
        repeated = id(outcome.step.text) in told or (
            outcome.step.recalled is not None and after_fault
        )
        if problems and not repeated:
            told.add(id(outcome.step.text))
            after_fault = True
            yield _told(worked, working, outcome, problems, size, source)
    for rule, span, what in working.plan.problems:
        yield Finding(
            rule, Severity.ERROR, span, f"There is no row {what} to repeat here.",
            "Check the row number.", row=_row_at(worked, span),
        )  # fmt: skip


def _row_at(worked: WorkedPattern, span: Span) -> str | None:
    for part in worked.pattern.parts:
        for row in part.rows:
            if span in row.span and row.label is not None:
                return row.label.text
    return None


def _told(
    worked: WorkedPattern, working: Working, outcome: Outcome, problems: list[Problem], size: int,
    source: Source,
) -> Finding:  # fmt: skip
    """One finding for a row: places first, for a wrong count is often their consequence."""
    problem = problems[0]
    step = outcome.step
    name = row_name(step)
    numbers = (step.number, step.number) if step.number is not None else None
    part = worked.pattern.parts[step.part].name or None
    message, why = _words(problem, outcome, name, size, source)
    return Finding(
        problem.rule, Severity.ERROR, problem.span, message, why, edit=_edit(problem, outcome, size),
        row=step.label or None, part=part, numbers=numbers,  # type: ignore[arg-type]
    )  # fmt: skip


def row_name(step: Step) -> str:
    """What a finding calls a row: "Row 7"."""
    if step.number is None:
        return step.label or "This row"
    return f"{'Round' if step.is_round else 'Row'} {step.number}"


def _words(
    problem: Problem, outcome: Outcome, name: str, size: int, source: Source
) -> tuple[str, str]:
    worked = outcome.worked
    assert worked is not None
    if problem.rule == "past-the-end":
        wanted = outcome.below + problem.number
        return (
            f"{name} needs {wanted} stitches but only {outcome.below} are there: "
            f"{problem.number} too few.",
            "Look at the number of repeats, or at the count of the row before.",
        )
    if problem.rule == "stitches-left":
        return (
            f"{name} uses {worked.row.uses} stitches but {outcome.below} are there: "
            f"{problem.number} {'is' if problem.number == 1 else 'are'} left over.",
            "Look at the last repeat and what comes after it.",
        )
    printed = source.slice(problem.span).strip()
    return (
        f"{name} makes {_made(outcome)}, not {printed.strip('()[] .–—-=') or 'what is printed'}.",
        "Correct the count, or look at the repeat before it.",
    )


def _made(outcome: Outcome) -> str:
    tally = outcome.tally
    kinds = {k: n for k, n in tally.kinds.items() if k}
    parts = [f"{number} {kind}" for kind, number in kinds.items()]
    if len(parts) > 1 and any(len(c.figures) > 1 for c in outcome.step.claims):
        return ", ".join(parts) + f" ({tally.stitches} stitches)"
    return f"{tally.stitches} stitch{'es' if tally.stitches != 1 else ''}"


def _edit(problem: Problem, outcome: Outcome, size: int) -> Edit | None:
    if problem.rule != "stated-count":
        return None
    claim = next((c for c in outcome.step.claims if c.span == problem.span), None)
    if claim is None or len(claim.figures) != 1 or len(claim.figures[0].amount.values) != 1:
        return None
    if claim.figures[0].unit in ("sp", "ch", "group"):
        return None
    return Edit(claim.figures[0].amount.span, str(outcome.tally.stitches))


def _unread(worked: WorkedPattern, source: Source) -> Iterator[Finding]:
    """Words in the rows that nobody can read, each once."""
    seen: set[str] = set()
    for part in worked.pattern.parts:
        for row in part.rows:
            for node in _all_nodes(row.body):
                if not isinstance(node, Unread):
                    continue
                word = source.slice(node.span)
                if word.lower() in seen:
                    continue
                seen.add(word.lower())
                yield _unread_finding(node, row, part.name, word)


def _unread_finding(node: Unread, row: RowText, part: str, word: str) -> Finding:
    numbers = row.label.numbers if row.label else ()
    likely = f' Perhaps "{node.likely}" is meant.' if node.likely else ""
    return Finding(
        "unknown-word", Severity.ERROR, node.span, f'"{word}" is not a stitch known here.{likely}',
        "Correct it, or define it among the special stitches.",
        edit=Edit(node.span, node.likely) if node.likely else None,
        row=row.label.text if row.label else None, part=part or None,
        numbers=(numbers[0], numbers[-1]) if numbers else None,
    )  # fmt: skip


def _all_nodes(nodes: Iterable[Node]) -> Iterator[Node]:
    for node in nodes:
        yield node
        if isinstance(node, (Repeat, InOnePlace, Tail)):
            yield from _all_nodes(node.body)
