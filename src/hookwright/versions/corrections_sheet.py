"""The page of corrections to a new version, and the stamp for every page."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from hookwright.sheets.facts import Block, Grid, Heading, Points, Sheet, Words
from hookwright.versions.advice import affected, if_past
from hookwright.versions.facts import Change, Compared, Kind

_MOST_WORDINGS = 40


def corrections_sheet(compared: Compared, title: str, date: str) -> Sheet:
    """The page.

    Args:
        compared: The two versions.
        title: What the design is called.
        date: The day of the new version, as it is to be printed.
    """
    return Sheet(
        f"Corrections to {title}" if title else "Corrections",
        "Corrections",
        (
            ("Version", compared.new),
            ("Replaces", compared.old),
            ("Date", date),
            ("Concerns", affected(compared).rstrip(".")),
        ),
        tuple(_blocks(compared, date)),
    )


def stamp(compared: Compared, date: str) -> str:
    """The line at the foot of every page of the new version."""
    return f"Version {compared.new}, {date}. Replaces version {compared.old}."


def _blocks(compared: Compared, date: str) -> Iterator[Block]:
    fabric = compared.of_fabric
    yield Heading("What changes in the work")
    if not fabric:
        yield Words(
            "Nothing: every row makes the same stitches in the same places as before."
        )
    else:
        yield _table(fabric)
        yield Heading("If you are already past it")
        yield Points(if_past(compared))
    listed = [change for change in compared.changes if change.kind is Kind.LISTED]
    if listed:
        yield Heading("What changes in what is listed")
        yield _table(listed)
    stated = [change for change in compared.changes if change.kind is Kind.STATED]
    if stated:
        yield Heading("Printed counts put right")
        yield Words("The stitches are the same; only the number behind the row was wrong.")
        yield _table(stated)
    yield from _wordings([c for c in compared.changes if c.kind is Kind.WORDING])
    yield Words(stamp(compared, date))


def _table(changes: Sequence[Change]) -> Grid:
    return Grid(
        ("Where", "What", "It was", "It is"),
        tuple(
            (_where(one), _what(one), one.before or "-", one.after or "-")
            for one in changes
        ),
        wide=(2, 3),
    )


def _where(change: Change) -> str:
    place = f"{change.part}, {change.rows}" if change.part else change.rows
    return f"{place} ({', '.join(change.sizes)})" if change.sizes else place


def _what(change: Change) -> str:
    return f"{change.kind}, follows" if change.follows else str(change.kind)


def _wordings(changes: Sequence[Change]) -> Iterator[Block]:
    if not changes:
        return
    yield Heading("Only the wording")
    yield Words("These say the same as before in other words; nothing comes out otherwise.")
    shown = changes[:_MOST_WORDINGS]
    yield Points(tuple(f"{_where(change)}: {change.after}" for change in shown))
    if len(changes) > len(shown):
        yield Words(f"And {len(changes) - len(shown)} more.")
