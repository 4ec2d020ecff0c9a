"""Which groups lie along an edge, by name and by shape, and what stands beside them?

A group is what was worked in one place. The one that a row begins with has the beginning
chain for its first stitch, whether the chain was worked with it or stands before it: it is
of the shape of those that follow. A group without a name is one of those that have one if
both are of one shape.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

from msgspec.structs import replace

from hookwright.working.count import Count
from hookwright.working.fabric import Place, PlaceKind, counted, is_space
from hookwright.working.sequence import Group, Line, Piece, Repeat, Run, total

SHAPE = "="
"""What the key of a shape begins with, where groups are listed by name."""
PAIRS = f"{SHAPE}pair"
"""The key of groups of two stitches, where a row is made of nothing else."""


def is_called(unit: str, name: str) -> bool:
    """Whether a group of a name is one of what is counted: an "edge tile" is a tile."""
    return name == unit or (name.endswith(f" {unit}") and not name.startswith("half "))


def has_groups(line: Line[Place]) -> bool:
    """Whether any group lies along a line: on most edges none does."""
    return any(
        isinstance(piece, Group) or (isinstance(piece, Repeat) and has_groups(piece.body))
        for piece in line
    )


def groups_along(line: Line[Place]) -> dict[str, Count]:
    """The groups along a line by name and by shape; "" for all that are large enough."""
    line = with_begun(line)
    result: dict[str, Count] = {}
    unnamed: dict[str, Count] = {}
    names: dict[str, str] = {}
    for group, times in _groups(line, 1):
        shape = _shape(group.body)
        if _is_big(group):
            _add(result, "", times)
            _add(result, f"{SHAPE}{shape}", times)
        if group.name:
            _add(result, group.name, times)
            names.setdefault(shape, group.name)
        else:
            _add(unnamed, shape, times)
    for shape, name in names.items():
        if shape in unnamed:
            _add(result, name, unnamed[shape])
    return result


def groups_named(line: Line[Place]) -> dict[str, str]:
    """The names of the groups along a line, by their shape."""
    return {shape_of(g.body): g.name for g, _ in _groups(line, 1) if g.name}


def shapes_unnamed(line: Line[Place]) -> list[str]:
    """The shapes of the groups along a line that are large enough and have no name."""
    named = groups_named(line)
    big = {_shape(g.body): 1 for g, _ in _groups(with_begun(line), 1) if _is_big(g)}
    return [shape for shape in big if shape not in named]


def shape_of(line: Line[Place]) -> str:
    """What a group is made of, as groups are told apart by it."""
    return _shape(line)


def _add(numbers: dict[str, Count], key: str, number: Count) -> None:
    numbers[key] = numbers.get(key, 0) + number


def with_begun(line: Line[Place]) -> Line[Place]:
    """The same line, with a beginning chain taken into the group it is a stitch of.

    "Ch 3, (2 dc, ch 2, 3 dc) in same sp" is a group like the (3 dc, ch 2, 3 dc) after it.
    """
    at = next((i for i, p in enumerate(line) if not _counts_nothing(p)), len(line))
    chain, group = (*line[at : at + 2], None, None)[:2]
    if not isinstance(chain, Run) or chain.item.kind is not PlaceKind.TURNING_CHAIN:
        return line
    if not isinstance(group, Group) or next(beginnings(group.body), None):
        return line
    whole = Group((chain, *group.body), group.name, group.whole)
    shapes = {_shape(other.body) for other, _ in _groups(line[at + 2 :], 1)}
    if _shape(whole.body) not in shapes:
        return line
    return (*line[:at], whole, *line[at + 2 :])


def named_alike(line: Line[Place]) -> Line[Place]:
    """The same line, with the name of a group for all others that are made like it.

    "(Dc, ch 1, dc) in first ch, *V-st in next ch" is a row of V-stitches, and what stands
    beside a beginning chain is the rest of the first one.
    """
    names = {_shape(one.body): one.name for one, _ in _groups(line, 1) if one.name}
    if not names:
        return line
    first = with_begun(line)
    begun = ""
    if first is not line:
        whole = next(piece for piece in first if isinstance(piece, Group))
        begun = names.get(_shape(whole.body), "")
    return tuple(_named_in(line, names, begun))


def _named_in(
    line: Line[Place], names: dict[str, str], begun: str = ""
) -> Iterator[Piece[Place]]:
    """The pieces of a line with their names; the first group is named as said."""
    for piece in line:
        if isinstance(piece, Repeat):
            yield replace(piece, body=tuple(_named_in(piece.body, names)))
        elif isinstance(piece, Group) and not piece.name:
            yield replace(piece, name=begun or names.get(_shape(piece.body), ""))
        else:
            yield piece
        if isinstance(piece, Group):
            begun = ""


def _counts_nothing(piece: Piece[Place]) -> bool:
    return isinstance(piece, Run) and not piece.item.counts and not is_space(piece.item)


def _groups(line: Line[Place], times: Count) -> Iterator[tuple[Group[Place], Count]]:
    """Each group along a line with how often it stands there, those within others too."""
    for piece in line:
        if isinstance(piece, Group):
            yield piece, times
            within = tuple(p for p in piece.body if isinstance(p, Group))
            yield from _groups(within, times)
        elif isinstance(piece, Repeat):
            yield from _groups(piece.body, piece.times * times)


def _shape(line: Line[Place]) -> str:
    """What a group is made of, a beginning chain for the stitch it stands for."""
    words: list[tuple[str, Count]] = []
    for what, times in _made_of(line):
        if words and words[-1][0] == what:
            words[-1] = (what, words[-1][1] + times)
        else:
            words.append((what, times))
    return " ".join(f"{times}{what}" for what, times in words)


def _made_of(line: Line[Place]) -> Iterator[tuple[str, Count]]:
    for piece in line:
        if not isinstance(piece, Run):
            yield from _made_of(piece.body)
        elif piece.item.kind is PlaceKind.SPACE:
            yield f"ch{piece.item.chains}", piece.times
        elif piece.item.counts or piece.item.kind is not PlaceKind.TURNING_CHAIN:
            yield piece.item.stitch, piece.times


def _is_big(group: Group[Place]) -> bool:
    """Whether a group is more than an increase: by its name, a space, three stitches."""
    several = total(group.body, counted) >= 3
    return bool(group.name) or several or bool(total(group.body, is_space))


def pairs_along(line: Line[Place]) -> Count:
    """How many groups of two stitches stand along a line."""
    return _over_groups(line, lambda group: int(_is_pair(group)))


def spaces_in_groups(line: Line[Place]) -> Count:
    """How many spaces along a line were made in one place with the stitches beside them."""
    return _over_groups(line, lambda group: total(group.body, is_space))


def _over_groups(line: Line[Place], worth: Callable[[Group[Place]], Count]) -> Count:
    """What the groups along a line are worth together."""
    whole: Count = 0
    for piece in line:
        if isinstance(piece, Repeat):
            whole = whole + _over_groups(piece.body, worth) * piece.times
        elif isinstance(piece, Group):
            whole = whole + worth(piece)
    return whole


def begins_in_pair(line: Line[Place]) -> bool:
    """Whether a beginning chain and one stitch stand alone before the first space."""
    chain, stitch, behind = (*line[:3], None, None, None)[:3]
    while isinstance(behind, (Repeat, Group)):
        behind = behind.body[0] if behind.body else None
    alone = [isinstance(p, Run) and p.times * p.item.counts == 1 for p in (chain, stitch)]
    begun = isinstance(chain, Run) and chain.item.kind is PlaceKind.TURNING_CHAIN
    spaced = isinstance(behind, Run) and is_space(behind.item) > 0
    return all(alone) and begun and spaced


def edge_pairs_loose(line: Line[Place]) -> Iterator[Line[Place]]:
    """The same line, and then with the pairs at its edges as two loose stitches each.

    "(2 tr, 15 pairs, 2 tr)" counts those at both edges apart, and sometimes only the one
    with the beginning chain.
    """
    yield line
    for opened in (_opened_first, _opened_last):
        loose = opened(line)
        if loose is not None:
            line = loose
            yield line


def _opened_first(line: Line[Place]) -> Line[Place] | None:
    """The line with its first piece out of its group, if that is a pair."""
    first, rest = (line[0], line[1:]) if line else (None, ())
    if isinstance(first, Repeat):
        body = _opened_first(first.body)
        return body and (*body, replace(first, times=first.times - 1), *rest)
    if isinstance(first, Group) and _is_pair(first):
        return (*first.body, *rest)
    return None


def _opened_last(line: Line[Place]) -> Line[Place] | None:
    """The line with its last piece out of its group, if that is a pair."""
    before, last = (line[:-1], line[-1]) if line else ((), None)
    if isinstance(last, Repeat):
        body = _opened_last(last.body)
        return body and (*before, replace(last, times=last.times - 1), *body)
    if isinstance(last, Group) and _is_pair(last):
        return (*before, *last.body)
    return None


def _is_pair(group: Group[Place]) -> bool:
    return not group.name and total(group.body, counted) == 2


def beginnings(line: Line[Place]) -> Iterator[Place]:
    """The beginning chains along a line."""
    for piece in line:
        if isinstance(piece, Run):
            if piece.item.kind is PlaceKind.TURNING_CHAIN:
                yield piece.item
        else:
            yield from beginnings(piece.body)


def outside_named(
    line: Line[Place], named: frozenset[str], *, any_name: bool
) -> dict[str, Count]:
    """Stitches by name, without those in groups that are counted as groups."""
    return _outside(line, lambda g: g.name in named or (any_name and _is_big(g)))


def outside_pairs(line: Line[Place]) -> dict[str, Count]:
    """Stitches by name, without those in groups of two."""
    return _outside(line, lambda group: total(group.body, counted) == 2)


def outside_shape(line: Line[Place], named: frozenset[str], shape: str) -> dict[str, Count]:
    """Stitches by name, without those in groups of some names or of one shape."""
    line = with_begun(line)
    return _outside(line, lambda g: g.name in named or _shape(g.body) == shape)


def _outside(
    line: Line[Place], is_apart: Callable[[Group[Place]], bool]
) -> dict[str, Count]:
    result: dict[str, Count] = {}
    for place, times in _loose(line, 1, is_apart):
        if place.counts:
            _add(result, place.stitch, times * place.counts)
    return result


def _loose(
    line: Line[Place], times: Count, is_apart: Callable[[Group[Place]], bool]
) -> Iterator[tuple[Place, Count]]:
    for piece in line:
        if isinstance(piece, Run):
            yield piece.item, piece.times * times
        elif isinstance(piece, Repeat):
            yield from _loose(piece.body, piece.times * times, is_apart)
        elif not is_apart(piece):
            yield from _loose(piece.body, times, is_apart)


def halves(unit: str, line: Line[Place]) -> Count:
    """How many groups are half as large as those of a name; 0 where the line has none."""
    sized = [(g.name, _size(g), times) for g, times in _groups(with_begun(line), 1)]
    named = [size for name, size, _ in sized if name == unit]
    whole = max(named or [size for _, size, _ in sized], default=0)
    small = max(2, whole // 2)
    at_ends = [g for g in _at_ends(line) if small <= _size(g) < whole and g.name != unit]
    if at_ends:
        return len(at_ends)
    half = {small, (whole + 1) // 2}
    return sum(times for name, size, times in sized if size in half and name != unit)


def is_parted_by_join(line: Line[Place]) -> bool:
    """Whether a round begins within a group and ends with its rest: they are one."""
    loose = next((at for at, p in enumerate(line) if isinstance(p, Group)), len(line))
    first, last = (*line[loose : loose + 1], None)[0], line[-1] if line else None
    if first is last or not isinstance(first, Group) or not _may_end(first, last):
        return False
    chain = line[:loose]
    if not all(
        isinstance(p, Run) and p.item.kind is PlaceKind.TURNING_CHAIN for p in chain
    ):
        return False
    begun = total(chain, counted)
    chained = begun or next(beginnings(first.body), None) is not None
    whole = max((_size(group) for group, _ in _groups(line[loose + 1 : -1], 1)), default=0)
    ended = total(line[-1:], counted)
    return bool(chained) and begun + _size(first) + ended == whole


def _may_end(first: Group[Place], last: Piece[Place] | None) -> bool:
    """Whether a round's last stitches may be the rest of its first group."""
    if isinstance(last, Run):
        runs = (piece for piece in first.body if isinstance(piece, Run))
        return all(run.item.stitch == last.item.stitch for run in runs)
    return isinstance(last, Group)


def are_only(number: Count, unit: str, line: Line[Place]) -> bool:
    """Whether the groups of a name are so many stitches, with no space among them."""
    named = [group for group, _ in _groups(line, 1) if group.name == unit]
    return all(
        total(group.body, counted) == number and not total(group.body, is_space)
        for group in named
    )


def _at_ends(line: Line[Place]) -> Iterable[Group[Place]]:
    """The groups that a line begins and ends with."""
    line = with_begun(line)
    ends = {0, len(line) - 1} if line else set()
    return [piece for at in ends if isinstance(piece := line[at], Group)]


def _size(group: Group[Place]) -> int:
    size = total(group.body, counted)
    return size if isinstance(size, int) else 0
