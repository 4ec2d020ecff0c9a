"""What does a row say, put as what would be heard of it?

A row is said aloud by its own words, and those are listened to as a film is: so what is
heard and what stands in the text are compared in one form.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise

from msgspec import Struct
from msgspec.structs import replace

from hookwright.checking import Checked
from hookwright.lesson.heard.facts import Stated
from hookwright.lesson.heard.recalled import recalls_of
from hookwright.lesson.heard.stated import stated_in
from hookwright.lesson.heard.terms import Term
from hookwright.lesson.heard.transcripts import cues_in, words_of
from hookwright.lesson.speech import row_said
from hookwright.lesson.words_of import said
from hookwright.notation.tree import Node, Repeat
from hookwright.working.outcome import Outcome
from hookwright.working.sequence import Run

Numbers = Mapping[str, frozenset[int | None]]
Thing = tuple[str, int | None]
_NO_STITCH = frozenset({"chain", "skip", "times", "more times"})


class RowSays(Struct, frozen=True):
    """What a row says.

    Attributes:
        numbers: Each thing it has, with its numbers; None where it is told without one.
        placed: The same without its counts: what goes into some place.
        in_next: Of each stitch the numbers of places it is worked in, one after another.
        pairs: Two things that stand side by side in it.
        threes: Three of them: the numbers that one of the three has, by which of them it is
            and what the three are without that number.
    """

    numbers: Numbers
    placed: Numbers
    in_next: Numbers
    pairs: frozenset[tuple[Thing, Thing]]
    threes: Mapping[tuple[int, tuple[Thing, ...]], frozenset[int | None]]


class Expectations:
    """What the rows of a pattern say in one size, each worked out when it is asked for."""

    def __init__(self, checked: Checked, terms: Sequence[Term], size: int) -> None:
        self.outcomes = checked.worked.sizes[size].outcomes
        self.recalls = recalls_of(checked, size)
        self._checked = checked
        self._terms = terms
        self._size = size
        self._known: dict[int, RowSays] = {}

    @property
    def foundation(self) -> int | None:
        """The chain that the whole begins with; None where it has none."""
        return self.outcomes[0].foundation if self.outcomes else None

    def of(self, at: int) -> RowSays:
        """What a row says, by its place among all that are worked."""
        if at not in self._known:
            outcome = self.outcomes[at]
            own = _instructions(self._checked, outcome, self._size)
            worked = [*own, *_defined(self._checked, outcome, own)]
            counts = _counts(self._checked, outcome, self._size)
            self._known[at] = _row_says(
                outcome,
                self._stated([*worked, *counts]),
                self._stated(worked),
                self._stated(own),
            )
        return self._known[at]

    def _stated(self, sentences: Sequence[str]) -> tuple[Stated, ...]:
        joined = " ".join(" . ".join(sentences).split())
        words = words_of(cues_in(f"0:00 {joined}"))
        return stated_in(words, self._terms, is_written=True)

    def has_own_words(self, at: int) -> bool:
        """Whether a row is written out, and not told as other rows again."""
        outcome = self.outcomes[at]
        return outcome.worked is not None and outcome.step.recalled is None


def _row_says(
    outcome: Outcome,
    stated: Sequence[Stated],
    worked: Sequence[Stated],
    in_order: Sequence[Stated],
) -> RowSays:
    things = [(one.what, one.number) for one in in_order]
    threes: dict[tuple[int, tuple[Thing, ...]], set[int | None]] = {}
    for three in zip(things, things[1:], things[2:], strict=False):
        for at in range(3):
            threes.setdefault(without_number(three, at), set()).add(three[at][1])
    return RowSays(
        _numbers(outcome, [*stated, *_singles(in_order)]),
        _numbers(outcome, [*worked, *_singles(in_order)]),
        _in_next(in_order),
        frozenset(pairwise(things)),
        {key: frozenset(numbers) for key, numbers in threes.items()},
    )


def without_number(three: Sequence[Thing], at: int) -> tuple[int, tuple[Thing, ...]]:
    """What three things are when the number of one of them is left open."""
    return at, (*three[:at], (three[at][0], None), *three[at + 1 :])


def _singles(in_order: Sequence[Stated]) -> Iterator[Stated]:
    """The same stitch several times on end: "two trebles" for one and another one."""
    total = 0
    for before, one in pairwise(in_order):
        if one.what != before.what or {before.number, one.number} != {None}:
            total = 0
            continue
        total = (total or 1) + 1
        yield replace(one, number=total)


def _in_next(in_order: Sequence[Stated]) -> Numbers:
    """In how many places a stitch is worked, also where two of its kind are said in one."""
    found: dict[str, set[int | None]] = {}
    total, before = 0, ""
    for one in in_order:
        is_plain = one.of_next or one.number is None
        if one.what in _NO_STITCH or not is_plain:
            total, before = 0, ""
            continue
        number = one.number or 1
        total = total + number if one.what == before else number
        before = "" if one.what.endswith("tog") else one.what
        found.setdefault(one.what, {None}).update((one.number, total))
    return {what: frozenset(numbers) for what, numbers in found.items()}


def _numbers(outcome: Outcome, stated: Sequence[Stated]) -> Numbers:
    found: dict[str, set[int | None]] = {}
    for one in stated:
        found.setdefault(one.what, set()).add(one.number)
    makes = outcome.worked.row.makes if outcome.worked is not None else None
    counts = [makes, outcome.below, outcome.foundation, *_printed(stated)]
    found.setdefault("count", set()).update(n for n in counts if isinstance(n, int))
    for own in list(found):
        found[own].add(None)
        if own.endswith("tog"):
            found.setdefault(own.rstrip("0123456789tog") or own, set()).add(None)
    for one in stated:
        if one.what.endswith("tog") and one.number is not None and not one.of_next:
            found.setdefault("times", {None}).add(one.number)  # "dec 6 times" and "6 dec"
    _with_other_times(found)
    skipped = _skipped_at_the_hook(outcome)
    if skipped:
        found.setdefault("skip", {None}).add(skipped)
    return {what: frozenset(numbers) for what, numbers in found.items()}


def _printed(stated: Sequence[Stated]) -> Iterator[int | None]:
    """The numbers of each kind of stitch: those of the count are among them."""
    for one in stated:
        if one.what not in _NO_STITCH:
            yield one.number


def _skipped_at_the_hook(outcome: Outcome) -> int:
    """Chains that "in the third chain from the hook" passes over; 0 in other rows."""
    line = outcome.worked.row.line if outcome.worked is not None else ()
    first = line[0] if line else None
    if isinstance(first, Run) and first.item.kind == "tch":
        return first.item.passes
    return 0


def _with_other_times(found: dict[str, set[int | None]]) -> None:
    """Times in all beside times more: 3 more times are 4 in all."""
    more = {number for number in found.get("more times", ()) if number is not None}
    whole = {number for number in found.get("times", ()) if number is not None}
    if more or whole:
        found.setdefault("times", set()).update(more, {number + 1 for number in more})
        found.setdefault("more times", set()).update(number - 1 for number in whole)


def _instructions(checked: Checked, outcome: Outcome, size: int) -> list[str]:
    """The words of a row, and those of the row it repeats."""
    text = outcome.step.text
    nodes = (*_over_again(text.body), *_over_again(outcome.step.nodes))
    whole = replace(text, body=nodes, claims=())
    own = replace(outcome, step=replace(outcome.step, text=whole))
    return list(row_said(checked, own, size))


def _over_again(nodes: Sequence[Node]) -> Iterator[Node]:
    """Instructions with each repeat twice, so that its end stands before its beginning."""
    for node in nodes:
        if isinstance(node, Repeat):
            yield from node.body
        yield node


def _counts(checked: Checked, outcome: Outcome, size: int) -> tuple[str, ...]:
    """The counts that are printed behind a row."""
    counts = replace(outcome.step.text, body=())
    return row_said(
        checked, replace(outcome, step=replace(outcome.step, text=counts)), size
    )


def _defined(checked: Checked, outcome: Outcome, sentences: Sequence[str]) -> Iterator[str]:
    """The definitions of the stitches that a row has."""
    kinds = outcome.worked.row.kinds() if outcome.worked is not None else {}
    told = " ".join(sentences).lower()
    for definition in checked.reading.pattern.definitions:
        named = set(definition.names) & set(kinds)
        if named or any(name in told for name in definition.names):
            yield said(checked, checked.source.slice(definition.span))
