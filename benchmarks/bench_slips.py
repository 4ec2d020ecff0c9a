"""Of every single slip in every row of the examples, how is it told?

Each slip is made at every place of every row that differs from those before it, in each
manner of working the end of a row. The counts it leaves are told, of one row and of two,
with the row before told as right. A class is told when the suspect it stands in comes first
or second; how many classes that suspect has stands beside it, for no count tells these
apart. "Place found" is the same once the row is halved down to one repeat or an end, as the
answer tells how to: then only slips of that stretch are left. Blaming the turning chain
whatever the count is told beside it.
"""

from __future__ import annotations

import sys
import time
from collections import Counter, defaultdict
from pathlib import Path

from hookwright.answers.counting import Left, TwoRows, two_rows, what_slips_leave
from hookwright.answers.diagnosis import diagnosed
from hookwright.answers.facts import Diagnosis, Scope, Told
from hookwright.answers.halving import stretch_of
from hookwright.answers.slips import Where, slips_in
from hookwright.checking import check
from hookwright.commands.project import draft_at
from hookwright.working.outcome import Outcome

EXAMPLES = Path(__file__).parents[1] / "examples"
_Tally = defaultdict[Where, Counter[str]]
_Stretches = defaultdict[tuple[int, int | None, int], set[Where]]
_ORDER = (
    Where.PEAK, Where.VALLEY, Where.FIRST, Where.LAST, Where.INSIDE, Where.REPEAT,
)  # fmt: skip
"""The order of looking in one repeat: what can be counted there first."""


def main() -> None:
    """Print the table."""
    began = time.perf_counter()
    tally: _Tally = defaultdict(Counter)
    for path in sorted(EXAMPLES.glob("*.md")):
        if path.stem != "README" and not path.stem.endswith("-slip"):
            _try(path, tally)
    _print(tally)
    sys.stdout.write(f"{time.perf_counter() - began:.0f} s\n")


def _try(path: Path, tally: _Tally) -> None:
    checked = check(draft_at(str(path)))
    seen: set[object] = set()
    for working in checked.worked.sizes:
        for at in range(len(working.outcomes)):
            rows = two_rows(working.outcomes, at)
            if rows is None:
                continue
            key = (rows.course.motions, rows.after and rows.after.motions, rows.turned)
            if key not in seen:
                seen.add(key)
                _try_row(working.outcomes, at, rows, tally)


def _try_row(outcomes: tuple[Outcome, ...], at: int, rows: TwoRows, tally: _Tally) -> None:
    known: dict[tuple[int, int | None], Diagnosis] = {}
    slips = tuple(slips_in(rows.course, first_row=rows.into_chain))
    every = tuple(what_slips_leave(rows, slips))
    stretches: _Stretches = defaultdict(set)
    for left in every:
        here = stretch_of(rows.course.motions, left.slip.at)
        for off_after in (None, left.off_after):
            stretches[left.off, off_after, here].add(left.slip.where)
    for left in every:
        own = tally[left.slip.where]
        if not left.off:
            own["unseen"] += 1
            continue
        for key in {(left.off, None), (left.off, left.off_after)}:
            if key not in known:
                known[key] = diagnosed(outcomes, _told(rows, at, *key))
            _count(own, known[key], left.slip.where, "one" if key[1] is None else "two")
        for rows_told in ("one", "two"):
            near = _near(left, stretches, rows, rows_told)
            own[f"{rows_told} near"] += len(near)
            first_two = sorted(near, key=_ORDER.index)[:2]
            own[f"{rows_told} near looked for"] += left.slip.where in first_two


def _near(left: Left, stretches: _Stretches, rows: TwoRows, rows_told: str) -> set[Where]:
    """The classes that are left once the stretch is found that the slip lies in."""
    off_after = None if rows_told == "one" else left.off_after
    return stretches[left.off, off_after, stretch_of(rows.course.motions, left.slip.at)]


def _told(rows: TwoRows, at: int, off: int, off_after: int | None) -> list[Told]:
    made = rows.course.makes
    told = [Told(at, "", "", made + off, made, "")]
    if at:
        told.append(Told(at - 1, "", "", 1, 1, ""))
    if off_after is not None and rows.after is not None:
        after = rows.after.makes
        told.append(Told(at + 1, "", "", after + off_after, after, ""))
    return told


def _count(own: Counter[str], found: Diagnosis, where: Where, rows: str) -> None:
    own[rows] += 1
    once = [s for s in found.suspects if s.scope is Scope.ONCE and where in s.where]
    own[f"{rows} told"] += bool(once) and found.suspects.index(once[0]) < 2
    own[f"{rows} classes"] += len(once[0].where) if once else 0
    order = [one for suspect in found.suspects for one in suspect.where]
    own[f"{rows} looked for"] += where in list(dict.fromkeys(order))[:2]


def _print(tally: _Tally) -> None:
    write = sys.stdout.write
    for rows in ("one", "two"):
        write(f"\n{rows} row(s) counted\n")
        write(
            f"{'class':36} {'tried':>6} {'told':>7} {'classes':>8} {'looked for':>11} "
            f"{'place found: classes':>21} {'looked for':>11}\n"
        )
        for where, own in tally.items():
            tried = own[rows]
            if tried:
                write(
                    f"{where:36} {tried:6} {own[f'{rows} told'] / tried:7.1%} "
                    f"{own[f'{rows} classes'] / tried:8.2f} "
                    f"{own[f'{rows} looked for'] / tried:11.1%} "
                    f"{own[f'{rows} near'] / own['one']:21.2f} "
                    f"{own[f'{rows} near looked for'] / own['one']:11.1%}\n"
                )
        tried = sum(own[rows] for own in tally.values())
        told = sum(own[f"{rows} told"] for own in tally.values())
        ends = sum(tally[where][rows] for where in (Where.FIRST, Where.LAST))
        write(f"all: {told / tried:.1%}; blaming the turning chain: {ends / tried:.1%}\n")
    unseen = sum(own["unseen"] for own in tally.values())
    write(f"\nleft the count right, so that nobody asks: {unseen}\n")


if __name__ == "__main__":
    main()
