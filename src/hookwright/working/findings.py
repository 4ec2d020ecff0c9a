"""The findings of a worked pattern, each mistake told once, at its origin."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import zip_longest

from msgspec.structs import replace

from hookwright.finding import Edit, Finding, Severity
from hookwright.notation.nested import nested
from hookwright.notation.tree import (
    DEEPEST,
    TOO_DEEP,
    TOO_LONG,
    Claim,
    RowText,
    Unread,
)
from hookwright.regex import regex
from hookwright.source import Source, Span
from hookwright.working.count import Count
from hookwright.working.lists_by_size import lacks_number
from hookwright.working.open_shaping import shaped_for_a_length
from hookwright.working.outcome import Outcome, WorkedPattern, Working
from hookwright.working.problems import Fault, Problem, problems_of
from hookwright.working.stated import groups_made
from hookwright.working.steps import Step, row_name
from hookwright.working.unclear import without_unclear


def findings_of(worked: WorkedPattern, source: Source) -> list[Finding]:
    """Every finding of a worked pattern, each mistake once, at its origin."""
    faults: dict[tuple[str, Span], list[Fault]] = {}
    for size, working in enumerate(worked.sizes):
        for fault in _of_size(worked, working, size, source):
            key = (fault.finding.rule, fault.finding.span)
            faults.setdefault(key, []).append(replace(fault, sizes=(size,)))
    of_all = [_named(_over_sizes(some), worked) for some in faults.values()]
    of_all = without_unclear(of_all, worked)
    result = [*_put_right(of_all, worked, source), *_unread(worked, source)]
    return sorted(result, key=lambda f: (f.span.start, f.rule))


def _put_right(
    faults: Sequence[Fault], worked: WorkedPattern, source: Source
) -> Iterable[Finding]:
    """The findings with their repairs, which only a text with a slip has need of."""
    if not faults:
        return ()
    from hookwright.working.repairs import with_repairs  # noqa: PLC0415

    return with_repairs(faults, worked, source)


def _over_sizes(faults: Sequence[Fault]) -> Fault:
    """One fault for the sizes that have it."""
    first = faults[0]
    found = first.finding
    message = _in_one([fault.finding.message for fault in faults])
    edit = found.edit if all(f.finding.edit == found.edit for f in faults) else None
    sizes = tuple(size for fault in faults for size in fault.sizes)
    return replace(first, finding=replace(found, message=message, edit=edit), sizes=sizes)


_NUMBER = regex(r"\d+")


def _in_one(messages: Sequence[str]) -> str:
    """Two sizes make 55 and 60, not 56 and 61: "makes 55 (60) stitches, not 56 (61)".

    The first stands for all where they differ in more than their numbers.
    """
    if len({_NUMBER.sub("", message) for message in messages}) > 1:
        return messages[0]
    by_place = zip(*(_NUMBER.findall(message) for message in messages), strict=True)
    sized = iter(
        [
            first if set(others) <= {first} else f"{first} ({', '.join(others)})"
            for first, *others in by_place
        ]
    )
    return _NUMBER.sub(lambda _: next(sized), messages[0])


def _named(fault: Fault, worked: WorkedPattern) -> Fault:
    """A fault with the names of its sizes, where not all have it."""
    names = worked.pattern.sizes
    if not names or len(fault.sizes) == len(worked.sizes):
        return fault
    own = tuple(names[size] for size in fault.sizes if size < len(names))
    return replace(fault, finding=replace(fault.finding, sizes=own))


def _of_size(
    worked: WorkedPattern, working: Working, size: int, source: Source
) -> Iterator[Fault]:
    told: set[int] = set()
    after_fault = unsure = lost = False
    later = size > 0  # lists that are too short lack a number for the last sizes
    before: Outcome | None = None  # a row told of that moves the edge of this one
    shaped = shaped_for_a_length(working.outcomes)
    pairs = zip_longest(working.outcomes, working.outcomes[1:])
    for at, (outcome, after) in enumerate(pairs):
        lost = (lost or _lacks_rows(outcome, size)) and not outcome.foundation
        if lost:
            continue  # how many rows there are for this size is not told
        if outcome.step.part >= 0 and outcome.worked is None:
            short = later and lacks_number(outcome.step.nodes, size)
            unsure = unsure or outcome.is_open or short
            continue
        problems = problems_of(working, outcome)
        if problems and not unsure:
            short = later and lacks_number((outcome.step.nodes, outcome.step.claims), size)
            unsure = short or _has_unread(outcome.step)
        unsure = (unsure or at in shaped) and (bool(problems) or at + 1 in shaped)
        if unsure:
            continue  # it follows from what could not be read or is lacking, which is told
        repeated = id(outcome.step.text) in told or (
            outcome.step.recalled is not None and after_fault
        )
        follows = before is not None and _is_over(before, outcome, problems)
        before = None
        if problems and not repeated and not follows:
            told.add(id(outcome.step.text))
            after_fault = True
            before = outcome if _moves_the_edge(outcome, problems) else None
            found = _told(worked, outcome, problems[0], size, source)
            defended = after is not None and _is_defended(found, working, after)
            if after is not None and defended:
                found = _defended(found, after)
            yield Fault(found, at, is_defended=defended)
    yield from (Fault(found, len(working.outcomes)) for found in _of_plan(worked, working))


def _lacks_rows(outcome: Outcome, size: int) -> bool:
    """Whether a label has rows for each size but this one: "Rows 3-14 (15, 16)" of four."""
    label = outcome.step.text.label
    return label is not None and bool(label.by_size) and size >= len(label.by_size)


def _of_plan(worked: WorkedPattern, working: Working) -> Iterator[Finding]:
    """Rows that are to be worked again and are not there, or are not so many."""
    for rule, span, what in working.plan.problems:
        message, why = _OF_THE_PLAN[rule]
        row = _row_at(worked, span)
        yield Finding(rule, Severity.ERROR, span, message.format(what), why, row=row)


_OF_THE_PLAN = {
    "missing-target": ("There is no row {} to repeat here.", "Check the row number."),
    "row-range": ("The label stands for {}.", "Look at the label and the number of times."),
}
"""Rules about which rows are worked again: what is wrong, and what to look at."""


def _moves_the_edge(outcome: Outcome, problems: list[Problem]) -> bool:
    """Whether a row that is told of leaves another edge than the one that was meant.

    One that does not close, and still has the count printed with it, leaves that edge.
    """
    return problems[0].rule == "stated-count" or not any(map(any, outcome.agrees))


def _is_over(before: Outcome, outcome: Outcome, problems: list[Problem]) -> bool:
    """Whether a row only fails to close for the slip in the row under it.

    A plain edge can be given its printed number and proves a second slip; where spaces or
    groups lie along it, nobody knows which of them the slip has moved.
    """
    over = outcome.resized or outcome.below == before.tally.stitches
    closing = bool(problems) and problems[0].rule != "stated-count"
    uneven = bool(before.tally.spaces or before.tally.groups.get("", 0))
    return over and closing and uneven


def _has_unread(step: Step) -> bool:
    return any(isinstance(node, Unread) for node in nested(step.nodes))


def _row_at(worked: WorkedPattern, span: Span) -> str | None:
    for part in worked.pattern.parts:
        for row in part.rows:
            if span in row.span and row.label is not None:
                return row.label.text
    return None


def _told(
    worked: WorkedPattern, outcome: Outcome, problem: Problem, size: int, source: Source
) -> Finding:
    """One finding for a row: its first problem, for the others often follow from it."""
    step = outcome.step
    message, why = _words(problem, outcome, size, source)
    return Finding(
        problem.rule,
        Severity.ERROR,
        problem.span,
        message,
        why,
        edit=_edit(problem, outcome, size, source),
        row=step.label or None,
        part=worked.pattern.parts[step.part].name or None,
        numbers=(step.number, step.number) if step.number is not None else None,
    )


def _is_defended(finding: Finding, working: Working, after: Outcome) -> bool:
    """Whether the next row closes over a printed count that its own row denies."""
    closes = after.resized and not problems_of(working, after)
    return finding.rule == "stated-count" and closes


def _defended(finding: Finding, after: Outcome) -> Finding:
    """A printed count over which the next row closes is right: the words are not."""
    why = (
        f"{row_name(after.step)} closes over the printed count, so it is likely right: "
        "look at the words of this row."
    )
    return replace(finding, why=why, edit=None)


def _words(
    problem: Problem, outcome: Outcome, size: int, source: Source
) -> tuple[str, str]:
    """What is wrong, and what to do about it."""
    name = row_name(outcome.step)
    number, below = problem.number, outcome.below
    if problem.rule == "period":
        return (
            f"{name} is not proven: its repeat never comes round to where it began.",
            "Look at the numbers in the repeat: they may be far larger than meant.",
        )
    if problem.rule == "missing-target":
        return (
            f"{name} asks for a {problem.what}, but there is none.",
            "Name the stitch that is meant, or put the space into the row before.",
        )
    if problem.rule == "past-the-end":
        needs = _of_stitches(below + number)
        are = "is" if below == 1 else "are"
        message = f"{name} needs {needs} but only {below} {are} there"
        return (
            f"{message}: {number} too few.",
            "Look at the number of repeats, or at the count of the row before.",
        )
    if problem.rule == "stitches-left":
        below = max(below, number)
        are = "is" if below == 1 else "are"
        message = f"{name} uses {_of_stitches(below - number)} but {below} {are} there"
        return (
            f"{message}: {number} {'is' if number == 1 else 'are'} left over.",
            "Look at the last repeat and what comes after it.",
        )
    printed = _printed(problem, outcome, size, source) or "what is printed"
    return (
        f"{name} makes {_made(outcome, _denied(problem, outcome), size)}, not {printed}.",
        "Correct the count, or look at the repeat before it.",
    )


def _printed(problem: Problem, outcome: Outcome, size: int, source: Source) -> str:
    """A printed count as it is for one size: "66 dc" of "that is 60 (66, 72) dc"."""
    claim, span = _denied(problem, outcome), problem.span
    if claim is not None:  # from its first number on: what leads to it is no count
        first = outcome.step.place(claim.figures[0].amount.span)
        span = Span(max(span.start, first.start), span.end)
    words = source.slice(span)
    for figure in reversed(claim.figures if claim else ()):
        number, place = figure.amount.at(size), outcome.step.place(figure.amount.span)
        if len(figure.amount.values) > 1 and number is not None and place in span:
            words = (
                words[: place.start - span.start]
                + str(number)
                + words[place.end - span.start :]
            )
    return words.strip().strip("()[]{}<> .–—-=")


def _denied(problem: Problem, outcome: Outcome) -> Claim | None:
    """The printed count that a problem is about."""
    step = outcome.step
    return next((c for c in step.claims if step.place(c.span) == problem.span), None)


def _of_stitches(number: Count) -> str:
    return f"{number} stitch{'es' if number != 1 else ''}"


def _made(outcome: Outcome, claim: Claim | None, size: int) -> str:
    tally = outcome.tally
    groups = groups_made(claim, tally, size) if claim is not None else ()
    if claim is not None and groups:
        units = ("space" if f.unit == "sp" else f.unit for f in claim.figures)
        made = ", ".join(map(_counted, groups, units))
        return f"{made} ({_of_stitches(tally.stitches)})"
    kinds = {k: n for k, n in tally.kinds.items() if k}
    parts = [_counted(number, kind) for kind, number in kinds.items()]
    if len(parts) > 1 and any(len(c.figures) > 1 for c in outcome.step.claims):
        return ", ".join(parts) + f" ({tally.stitches} stitches)"
    return _of_stitches(tally.stitches)


def _counted(number: Count, kind: str) -> str:
    """A number of stitches: an abbreviation has no plural, a name of the writer's has."""
    is_word = kind.replace(" ", "").isalpha() and set(kind) & set("aeiou")
    plural = number != 1 and is_word and not kind.endswith("s")
    ending = "es" if kind.endswith("sh") else "s"
    return f"{number} {kind}{ending if plural else ''}"


_UNSURE = ("sp", "mesh", "ch", "group", "pair")
"""What may be counted in more than one way, so that no number is put in its place."""


def _edit(problem: Problem, outcome: Outcome, size: int, source: Source) -> Edit | None:
    claim = _denied(problem, outcome) if problem.rule == "stated-count" else None
    if claim is None:
        return None
    made: tuple[Count, ...] = groups_made(claim, outcome.tally, size)
    if not made and len(claim.figures) == 1 and claim.figures[0].unit not in _UNSURE:
        made = (outcome.tally.stitches,)
    wrong = [
        (figure, number)
        for figure, number in zip(claim.figures, made, strict=False)
        if figure.amount.at(size) != number
    ]
    if len(wrong) != 1 or wrong[0][0].unit in ("ch", "picot"):
        return None
    ((figure, number),) = wrong
    amount = figure.amount
    span = outcome.step.place(amount.span)
    printed = _NUMBER.findall(source.slice(span))
    if len(amount.values) == 1 and len(printed) > 1:
        return None  # "(18 A, 18 B)": which of them is wrong, nothing tells
    if len(amount.values) == 1 and printed and int(printed[0]) != amount.at(size):
        return None  # "4 dc at each edge": what is printed is half of what is counted
    if len(amount.values) > 1:
        numbers = list(_NUMBER.finditer(source.slice(span)))
        if len(numbers) != len(amount.values):  # a size without one has a dash
            return None
        of_size = numbers[size]
        span = Span(span.start + of_size.start(), span.start + of_size.end())
    return Edit(span, str(number))


def _unread(worked: WorkedPattern, source: Source) -> Iterator[Finding]:
    """Words in the rows that nobody can read, each once."""
    seen: set[str] = set()
    for part in worked.pattern.parts:
        for row in part.rows:
            for node in nested(row.body):
                if not isinstance(node, Unread) or node.likely == TOO_LONG:
                    continue
                word = source.slice(row.place(node.span))
                if word.lower() in seen:
                    continue
                seen.add(word.lower())
                yield _unread_finding(node, row, part.name, word)


def _unread_finding(node: Unread, row: RowText, part: str, word: str) -> Finding:
    numbers = row.label.numbers if row.label else ()
    span = row.place(node.span)
    likely = f' Perhaps "{node.likely}" is meant.' if node.likely else ""
    message = f'"{word}" is not a stitch known here.{likely}'
    why = "Correct it, or define it among the special stitches."
    edit = Edit(span, node.likely) if node.likely else None
    if node.likely == TOO_DEEP:
        message = (
            f"Here brackets and repeats stand more than {DEEPEST} deep in one another."
        )
        why, edit = "Look at the marks: one may never be closed.", None
    return Finding(
        "unknown-word",
        Severity.ERROR,
        span,
        message,
        why,
        edit=edit,
        row=row.label.text if row.label else None,
        part=part or None,
        numbers=(numbers[0], numbers[-1]) if numbers else None,
    )
