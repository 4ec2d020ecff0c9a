"""Two versions of a pattern: what changed in the fabric, and what only in words?"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from msgspec import Struct
from msgspec.structs import replace

from hookwright.checking import Checked
from hookwright.notation.printing import translate
from hookwright.notation.rebuilding import bare
from hookwright.versions.aligned import Pair, aligned
from hookwright.versions.changed_row import changed_row, gathered, wording_of
from hookwright.versions.fabric_of_row import Names, RowMade, row_made
from hookwright.versions.facts import Change, Compared, Kind
from hookwright.versions.listed import listed_changes
from hookwright.versions.renamed import colours_renamed, stitches_renamed
from hookwright.versions.versioned_row import VersionedRow
from hookwright.working.outcome import WorkedPattern
from hookwright.working.pattern import work_pattern
from hookwright.working.row_yarns import row_yarns


def compare(old: Checked, new: Checked, old_name: str, new_name: str) -> Compared:
    """All changes between two versions.

    Args:
        old: The older one.
        new: The newer one.
        old_name: What the older one is called: "1.0".
        new_name: What the newer one is called.
    """
    worked = _in_terms_of(old, new)
    changes = [*listed_changes(old, new)]
    by_size = [
        [(change, name) for change in _in_size(old, new, worked, *at)]
        for name, *at in _sizes(old, new)
    ]
    changes += _across(by_size)
    changes += _sizes_changed(old, new)
    if not changes and old.source.text != new.source.text:
        changes.append(_only_words(old, new))
    return Compared(old_name, new_name, tuple(changes), new.sizes)


def _in_terms_of(old: Checked, new: Checked) -> WorkedPattern:
    """The newer version worked by the names that stitches have in the older one."""
    terms, own = old.worked.terms, new.worked.terms
    if terms == own:
        return new.worked
    pattern = new.reading.pattern
    return work_pattern(translate(replace(pattern, terms=own), terms), terms)


def _sizes(old: Checked, new: Checked) -> Iterator[tuple[str, int, int]]:
    """The sizes that both have; patterns in one size have one without a name."""
    if not old.sizes and not new.sizes:
        yield "", 0, 0
        return
    mine, other = old.sizes or ("",), new.sizes or ("",)
    if len(mine) == len(other):
        yield from ((name, n, n) for n, name in enumerate(other))
        return
    for n, name in enumerate(other):
        if name in mine:
            yield name, mine.index(name), n


def _sizes_changed(old: Checked, new: Checked) -> Iterator[Change]:
    if len(old.sizes) != len(new.sizes):
        before, after = ", ".join(old.sizes) or "one size", ", ".join(new.sizes)
        yield Change(Kind.LISTED, "", "sizes", before, after or "one size")


class _Side(Struct, frozen=True):
    """One version in one size: its rows, and what each makes."""

    rows: tuple[VersionedRow, ...]
    made: tuple[RowMade, ...]


def _in_size(
    old: Checked, new: Checked, worked: WorkedPattern, size: int, own: int
) -> Iterator[Change]:
    before = _side(old, old.worked, size)
    after = _side(new, worked, own)
    stitches = stitches_renamed(old.reading.pattern.definitions, worked.pattern.definitions)
    listed = {name for one in old.design.colours for name in (one.letter, one.name)}
    colours = colours_renamed(
        list(zip(before.made, after.made, strict=False)), listed - {""}
    )
    if stitches or colours:
        after = _side(new, worked, own, tuple(colours.items()), tuple(stitches.items()))
    pairs = list(aligned(before.made, after.made, _names(before), _names(after)))
    yield from gathered(list(_changes(before, after, pairs)))


def _changes(before: _Side, after: _Side, pairs: Sequence[Pair]) -> Iterator[Change]:
    for mine, other in pairs:
        if mine is None and other is not None:
            yield after.rows[other].added()
        elif other is None and mine is not None:
            yield before.rows[mine].removed()
        elif mine is not None and other is not None:
            one, two = before.made[mine], after.made[other]
            rows = before.rows[mine], after.rows[other]
            yield from changed_row(*rows, one, two) if one != two else wording_of(*rows)


def _names(side: _Side) -> list[tuple[str, str]]:
    return [(row.part, row.name) for row in side.rows]


def _side(
    checked: Checked,
    worked: WorkedPattern,
    size: int,
    colours: Names = (),
    stitches: Names = (),
) -> _Side:
    working = worked.sizes[size]
    yarns = row_yarns(worked.pattern, working.outcomes)
    rows = tuple(
        VersionedRow(
            at, outcome, worked.pattern.parts[outcome.step.part].name, checked.source, size
        )
        for at, outcome in enumerate(working.outcomes)
    )
    made = tuple(
        row_made(row.outcome, yarns.get(row.at), colours, stitches) for row in rows
    )
    return _Side(rows, made)


def _across(by_size: Sequence[Sequence[tuple[Change, str]]]) -> Iterator[Change]:
    """Like changes of several sizes as one; those of all sizes name none."""
    found: dict[Change, list[str]] = {}
    for changes in by_size:
        for change, name in changes:
            found.setdefault(change, []).append(name)
    for change, names in sorted(found.items(), key=lambda one: one[0].first):
        every = len(names) == len(by_size)
        yield change if every else replace(change, sizes=tuple(names))


def _only_words(old: Checked, new: Checked) -> Change:
    alike = bare(old.reading.pattern) == bare(new.reading.pattern)
    what = "words beside the rows" if alike else "words"
    return Change(Kind.WORDING, "", what, "", "the rows make the same as before")
