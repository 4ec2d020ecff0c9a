"""A pattern's text at another size, or with a list of sizes in its numbers.

Only numbers that the equations fix are changed: the chain, the repeats that grow with it,
how often a set of rows is worked, the labels behind it, and the counts, which go on
counting what they count. The new text is read and worked again, and given out only where
every row of it comes out. What cannot be settled so is named, and nothing is written.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from msgspec import Struct
from msgspec.structs import replace

from hookwright.checking import Checked, check
from hookwright.finding import Edit, Finding, Severity
from hookwright.notation.tree import Amount
from hookwright.reading import Draft
from hookwright.reading.draft import Heading, SameLines
from hookwright.regex import regex
from hookwright.sizing.alike import growing_together, main_part, rows_alike, with_alike
from hookwright.sizing.along_unsettled import along_unsettled
from hookwright.sizing.beside_sizes import amounts_told, rounded_rates, standing_apart
from hookwright.sizing.finished_sizes import SizeMeasured, finished_edits
from hookwright.sizing.heights import row_slots
from hookwright.sizing.kept_square import sets_of_a_square
from hookwright.sizing.multiples import Growth, growth_of
from hookwright.sizing.new_counts import new_counts
from hookwright.sizing.size_written import (
    SizeWritten,
    has_repeats,
    has_rows,
    more_repeats,
)
from hookwright.sizing.slots import Slot, Unwritten, edits_for, slot
from hookwright.sizing.to_see_to import notes_on
from hookwright.sizing.why_stopped import why_stopped
from hookwright.sizing.wishes import SIZE_RULE
from hookwright.sizing.worked_out import in_a_sum
from hookwright.source import Source, Span

_NOWHERE = Span(0, 0)
_CHAIN = "foundation chain"
_SPREAD = "stitches along an edge"
_LETTERS = regex(r"[A-Za-z/¼½¾]")


class Rewritten(Struct, frozen=True):
    """A pattern's text with other numbers.

    Attributes:
        text: The new text; as it was where anything is open.
        edits: What was changed in it, in reading order.
        checked: The new text, read and worked; None where anything is open.
        wording: Changes in which more than figures had to change: "twice", "time".
        notes: What else the designer has to see to, in sentences.
        open: What the equations do not settle. Where there is any, nothing is changed.
        tried: The new text in which that stands; None where it stands in the old one.
    """

    text: str
    edits: tuple[Edit, ...] = ()
    checked: Checked | None = None
    wording: tuple[Edit, ...] = ()
    notes: tuple[str, ...] = ()
    open: tuple[Finding, ...] = ()
    tried: Checked | None = None


def rewritten(
    checked: Checked,
    wanted: Sequence[SizeWritten],
    growths: Mapping[int, Growth] | None = None,
) -> Rewritten:
    """The text with the numbers of other sizes, and a list of them for several.

    Args:
        checked: The text, read and worked.
        wanted: The sizes that it is to have.
        growths: How its sizes grow, where that is known.
    """
    text = checked.source.text
    known = growths or {}
    growths = {
        one.source: known.get(one.source) or growth_of(checked, one.source)
        for one in wanted
    }
    every = [growth_of(checked, size) for size in range(len(checked.worked.sizes))]
    growths = with_alike(growths, every)
    found = list(dict.fromkeys(_not_possible(checked, growths, wanted)))
    if found:
        return Rewritten(text, open=tuple(found))
    if _is_as_written(checked, growths, wanted):
        return Rewritten(text, checked=checked)
    wanted = [_kept_square(checked, growths[one.source], one) for one in wanted]
    try:
        slots = [*_numbers(checked, growths, wanted), *_rows(checked, growths, wanted)]
        edits = [*edits_for(text, slots), *_sizes_line(checked, wanted)]
        measured = _measured(growths, wanted)
        edits += finished_edits(checked, measured)
        edits = list(dict.fromkeys(edits))  # parts alike tell of one row by the same words
        first = with_edits(text, edits)
        sources = [one.source for one in wanted]
        moved = _moved(checked.draft, edits, first)
        counts = new_counts(checked, growths, sources, moved)
        edits += edits_for(text, list(counts))
    except Unwritten as why:
        return Rewritten(text, open=(_finding(why.span, why.said),))
    edits = sorted(dict.fromkeys(edits), key=lambda edit: edit.span)
    notes = (
        *notes_on(checked, measured, edits),
        *rounded_rates(checked, growths, wanted),
        *standing_apart(checked, growths, wanted),
    )
    return _proven(checked, growths, wanted, edits, notes)


def _is_as_written(
    checked: Checked, growths: Mapping[int, Growth], wanted: Sequence[SizeWritten]
) -> bool:
    """Whether the sizes wanted are those that the text has."""
    if [one.source for one in wanted] != [*range(max(1, len(checked.sizes)))]:
        return False
    parts = [(one, main_part(growths[one.source])) for one in wanted]
    return all(
        part is not None
        and one.repeats == part.repeats
        and one.set_repeats in (None, part.set_repeats)
        for one, part in parts
    )


def _kept_square(checked: Checked, growth: Growth, one: SizeWritten) -> SizeWritten:
    """A size with the rows that it takes to stay square, where the text calls it so."""
    part = main_part(growth)
    if part is None or one.set_repeats is not None:
        return one
    return replace(one, set_repeats=sets_of_a_square(checked, part, one.repeats))


def with_edits(text: str, edits: Sequence[Edit]) -> str:
    """A text with changes made in it; none of them touch."""
    pieces, at = [], 0
    for edit in sorted(edits, key=lambda edit: edit.span):
        pieces += [text[at : edit.span.start], edit.replacement]
        at = edit.span.end
    return "".join((*pieces, text[at:]))


def _not_possible(
    checked: Checked, growths: Mapping[int, Growth], wanted: Sequence[SizeWritten]
) -> Iterator[Finding]:
    """What stands in the way before anything is tried."""
    if checked.has_errors():
        said = "Mend what is wrong in the text first: its numbers are not yet proven."
        yield _finding(_NOWHERE, said)
        return
    for one in wanted:
        growth = growths[one.source]
        part = main_part(growth)
        if part is None:
            reason = next((own.reason for own in growth.parts.values()), "It has no rows.")
            yield _finding(_NOWHERE, f"It cannot be resized. {reason}")
            return
        if one.repeats < (part.stitches.least if part.stitches else 1):
            least = part.stitches.least if part.stitches else 1
            said = (
                f"{one.repeats} repeats are too few: {least} is the least its words allow."
            )
            yield _finding(_NOWHERE, said)
        moved = growing_together(growth)
        if moved is not None and moved.stops is not None and one.repeats != part.repeats:
            step = growth.growing.steps[moved.stops]
            message, why = why_stopped(checked, growth.growing, moved.stops)
            yield Finding(SIZE_RULE, Severity.ERROR, step.span, message, why)


def _numbers(
    checked: Checked, growths: Mapping[int, Growth], wanted: Sequence[SizeWritten]
) -> Iterator[Slot]:
    """The chain and the repeats that grow with it, in every place where they stand."""
    changing: dict[int, str] = {}
    for growth in growths.values():
        together = growing_together(growth)
        if together is not None:
            roots = {id(one.root.amount) for one in growth.solved}
            for amount in together.amounts:
                what = _CHAIN if id(amount) in roots else "repeats"
                changing.setdefault(id(amount), what)
            for rate in together.rates:
                changing.setdefault(id(rate.amount), _SPREAD)
    text = checked.source.text
    parts = [part for one in wanted if (part := main_part(growths[one.source]))]
    repeats = [one.repeats for one in wanted]
    for amount, span in amounts_told(checked):
        if id(amount) not in changing:
            continue
        values = [_value(growths[one.source], one, amount) for one in wanted]
        one = slot(amount, span, values, changing[id(amount)])
        of_chain = one.what == _CHAIN
        yield from (of_chain and in_a_sum(text, one, parts, repeats)) or (one,)


def _value(growth: Growth, one: SizeWritten, amount: Amount) -> int | None:
    """A number in a size that is wanted."""
    value = amount.at(one.source)
    together = growing_together(growth)
    for rate in together.rates if together is not None else ():
        if rate.amount is amount:
            return rate.at(more_repeats(growth, one), one.source)
    each = together.changes.get(id(amount), 0) if together is not None else 0
    return None if value is None else value + each * more_repeats(growth, one)


def _rows(
    checked: Checked, growths: Mapping[int, Growth], wanted: Sequence[SizeWritten]
) -> Iterator[Slot]:
    """How often the set of rows is worked, and every number that moves with it."""
    more = []
    for one in wanted:
        part = main_part(growths[one.source])
        assert part is not None
        sets = part.set_repeats if one.set_repeats is None else one.set_repeats
        more.append(sets - part.set_repeats)
    if any(more):
        growth = growths[wanted[0].source]
        for number in rows_alike(growth):
            yield from row_slots(checked, growth.growing, number, more)


def _measured(
    growths: Mapping[int, Growth], wanted: Sequence[SizeWritten]
) -> list[SizeMeasured]:
    """The sizes as the printed measurements tell of them."""
    measured = []
    for one in wanted:
        part = main_part(growths[one.source])
        assert part is not None
        sets = part.set_repeats if one.set_repeats is None else one.set_repeats
        measured.append(SizeMeasured(part, one.repeats, sets))
    return measured


def _sizes_line(checked: Checked, wanted: Sequence[SizeWritten]) -> Iterator[Edit]:
    """The line that names the sizes, in a text that had one size."""
    if len(wanted) < 2 or checked.sizes:
        return
    first, *others = (one.name for one in wanted)
    at = _behind_title(checked)
    yield Edit(Span(at, at), f"\n\nSizes: {first} ({', '.join(others)}).")


def _behind_title(checked: Checked) -> int:
    """Where a line may be put in below the title: the end of its line."""
    headings = checked.draft.headings
    title = min(headings, key=lambda heading: heading.level, default=None)
    text = checked.source.text
    begin = title.span.end if title is not None else 0
    end = text.find("\n", begin)
    return len(text) if end < 0 else end


def _moved(draft: Draft, edits: Sequence[Edit], text: str) -> Draft:
    """A draft of the changed text, with the headings where they stand now."""
    source = Source(text, draft.source.name)
    headings = tuple(
        Heading(
            Span(_moved_to(one.span.start, edits), _moved_to(one.span.end, edits)),
            one.level,
        )
        for one in draft.headings
    )
    return Draft(source, SameLines(source), headings, only_words=draft.only_words)


def _moved_to(offset: int, edits: Sequence[Edit]) -> int:
    return offset + sum(
        len(edit.replacement) - (edit.span.end - edit.span.start)
        for edit in edits
        if edit.span.end <= offset and edit.span.start < offset
    )


def _proven(
    checked: Checked,
    growths: Mapping[int, Growth],
    wanted: Sequence[SizeWritten],
    edits: Sequence[Edit],
    notes: tuple[str, ...],
) -> Rewritten:
    """The text with its changes, if every row of it comes out in every size."""
    if not edits:
        return Rewritten(checked.source.text, checked=checked, notes=notes)
    text = with_edits(checked.source.text, edits)
    again = check(_moved(checked.draft, edits, text), checked.worked.terms)
    names = checked.sizes or (tuple(one.name for one in wanted) if len(wanted) > 1 else ())
    if again.sizes != names:
        read = ", ".join(again.sizes) or "one size"
        said = f"The sizes {', '.join(names)} are read back as {read}: name them otherwise."
        return Rewritten(checked.source.text, open=(_finding(_NOWHERE, said),))
    known = {(found.rule, _words(checked, found)) for found in checked.findings}
    louder = [
        found
        for found in again.findings
        if found.severity is not Severity.ADVICE
        and (found.rule, _words(again, found)) not in known
    ]
    measures = [found for found in louder if _is_of_measure(found)]
    louder = [found for found in louder if found not in measures]
    if not louder and not has_repeats(again, growths, wanted):
        louder = [_finding(_NOWHERE, "The number of its repeats does not follow.")]
    if not louder and not has_rows(again, growths, wanted):
        louder = [_finding(_NOWHERE, "The number of its rows does not follow.")]
    if louder:
        return Rewritten(checked.source.text, open=tuple(louder), tried=again)
    unsettled = tuple(along_unsettled(checked, again, edits))
    if unsettled:
        return Rewritten(checked.source.text, open=unsettled)
    wording = tuple(edit for edit in edits if _LETTERS.search(_around(checked, edit)))
    notes = (*notes, *(found.message for found in measures))
    return Rewritten(text, tuple(edits), again, wording, notes)


def _is_of_measure(found: Finding) -> bool:
    """Whether a printed girth or length is left standing, which its rows no longer make."""
    return found.rule == "measure" and found.severity is Severity.WARNING


def _around(checked: Checked, edit: Edit) -> str:
    """The words that go and those that come."""
    return checked.source.slice(edit.span) + edit.replacement


def _words(checked: Checked, found: Finding) -> str:
    return checked.source.slice(found.span)


def _finding(span: Span, said: str) -> Finding:
    return Finding(SIZE_RULE, Severity.ERROR, span, said)


__all__ = ["Rewritten", "SizeWritten", "rewritten", "with_edits"]
