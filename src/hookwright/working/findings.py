"""The findings of a worked pattern, each mistake told once, at its origin."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from hookwright.finding import Edit, Finding, Severity
from hookwright.notation.tree import InOnePlace, Node, Repeat, RowText, Tail, Unread
from hookwright.source import Source, Span
from hookwright.working.count import Count
from hookwright.working.outcome import Outcome, WorkedPattern, Working
from hookwright.working.problems import Problem, problems_of
from hookwright.working.steps import Step


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
            f"{name} uses {outcome.below - problem.number} stitches but {outcome.below} are there: "
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
    parts = [_counted(number, kind) for kind, number in kinds.items()]
    if len(parts) > 1 and any(len(c.figures) > 1 for c in outcome.step.claims):
        return ", ".join(parts) + f" ({tally.stitches} stitches)"
    return f"{tally.stitches} stitch{'es' if tally.stitches != 1 else ''}"


def _counted(number: Count, kind: str) -> str:
    """ "26 sc", "9 pebbles": an abbreviation has no plural, a name of the writer's has."""
    is_word = kind.replace(" ", "").isalpha() and set(kind) & set("aeiou")
    plural = number != 1 and is_word and not kind.endswith("s")
    return f"{number} {kind}{'s' if plural else ''}"


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
