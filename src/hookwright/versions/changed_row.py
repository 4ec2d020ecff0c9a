"""How does a row differ from what it was: in count, stitches, places, colour?"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from msgspec.structs import replace

from hookwright.versions.fabric_of_row import RowMade
from hookwright.versions.facts import Change, Kind
from hookwright.versions.versioned_row import VersionedRow


def changed_row(
    old: VersionedRow, new: VersionedRow, was: RowMade, now: RowMade
) -> Iterator[Change]:
    """The one change of a row whose fabric is another: the heaviest of all that differ."""
    kind = _kind(was, now)
    before, after = _told(kind, old, new, was, now)
    yield Change(
        kind,
        new.part,
        new.name,
        before,
        after,
        follows=old.body == new.body,
        counts=(_count(was), _count(now)),
        first=new.at,
    )


def wording_of(old: VersionedRow, new: VersionedRow) -> Iterator[Change]:
    """What changed in the words of a row that makes the same as before."""
    if old.stated != new.stated:
        yield Change(
            Kind.STATED, new.part, new.name,
            _printed(old.stated), _printed(new.stated), first=new.at,
        )  # fmt: skip
    elif old.words != new.words:
        yield Change(
            Kind.WORDING, new.part, new.outcome.step.label or new.name,
            old.words, new.words, first=new.at,
        )  # fmt: skip


def gathered(changes: Sequence[Change]) -> Iterator[Change]:
    """Like changes of rows of one part as one: "Rows 4-110", "Rows 12, 18, 24"."""
    groups: dict[Change, list[Change]] = {}
    for change in changes:
        whole = change.follows or change.kind in {Kind.ADDED, Kind.REMOVED}
        like = replace(change, rows="" if whole else change.rows, first=0)
        groups.setdefault(like, []).append(change)
    for same in sorted(groups.values(), key=lambda own: own[0].first):
        yield same[0] if len(same) == 1 else replace(same[0], rows=_range(same))


def _range(changes: Sequence[Change]) -> str:
    """The rows of some changes as one label; rows without numbers are listed."""
    names = list(dict.fromkeys(change.rows for change in changes))
    called = {name.rpartition(" ")[0] for name in names}
    numbers = [name.rpartition(" ")[2] for name in names]
    if len(names) == 1 or len(called) > 1 or not all(map(str.isdigit, numbers)):
        return ", ".join(names)
    first, last = int(numbers[0]), int(numbers[-1])
    whole = last - first + 1 == len(numbers)
    told = f"{first}-{last}" if whole else ", ".join(numbers)
    return f"{called.pop()}s {told}"


def _kind(was: RowMade, now: RowMade) -> Kind:
    one, other = was.fabric, now.fabric
    if was.over != now.over or _count(was) != _count(now) or one.spaces != other.spaces:
        return Kind.COUNT
    if one.names != other.names:
        return Kind.STITCH
    if one.bare != other.bare:
        return Kind.PLACE
    if one.whole != other.whole or was.begun_in != now.begun_in:
        return Kind.COLOUR
    return Kind.PLACE


def _count(made: RowMade) -> int | None:
    return made.foundation if made.foundation is not None else made.makes


def _told(
    kind: Kind, old: VersionedRow, new: VersionedRow, was: RowMade, now: RowMade
) -> tuple[str, str]:
    """How it was and how it is: numbers for a count, names for a colour, else the words."""
    if kind is Kind.COUNT and (_count(was), was.over) != (_count(now), now.over):
        return _stitches(was), _stitches(now)
    if kind is Kind.COLOUR:
        return _yarns(was), _yarns(now)
    if old.words != new.words:
        return old.words, new.words
    if was.turned == now.turned and was.closed == now.closed:
        return "", "as the row that it repeats"
    return _turns(was), _turns(now)


def _stitches(made: RowMade) -> str:
    if made.foundation is not None:
        return f"{made.foundation:,} chains"
    told = f"{made.makes:,} stitches" if made.makes is not None else "not told by the words"
    left, lacking = made.over
    if lacking:
        return f"{told}, and {lacking} places are lacking"
    return f"{told}, and {left} places are left over" if left else told


def _yarns(made: RowMade) -> str:
    names = [name or "no colour told" for name in made.fabric.yarns]
    return ", ".join(names or made.begun_in)


def _turns(made: RowMade) -> str:
    joined = "joined" if made.closed else "not joined"
    return (
        joined
        if made.turned is None
        else f"{joined}, {'turned' if made.turned else 'not turned'}"
    )


def _printed(number: int | None) -> str:
    return f"({number:,})" if number is not None else "no count"
