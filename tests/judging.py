"""How far an answer agrees with what a careful tech editor gets out of the pattern.

A case is a draft and a sheet of what is expected: the numbers of its rows, and the fault
planted in it, if any. What is judged is the object that `check --json` prints:

    rows     rows whose stitches are right in every size
    uses     rows that use the right number of stitches of the edge below
    spaces   rows that make the right number of chain spaces
    faults   planted faults told on their row by a rule that fits
    terms    patterns read in the right terms
    alarms   findings on rows without a fault; here fewer is better
    whole    cases with rows, faults and terms right, and no alarm

The README in a folder of cases says what its sheets hold.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from typing import Any

COUNTING = {
    "stated-count", "stitches-left", "past-the-end", "multiple", "balance",
    "missing-target", "size-list", "row-range",
}  # fmt: skip
WORDING = {
    "unknown-word", "undefined-abbreviation", "mixed-terms", "row-labels", "side",
    "two-readings", "one-word-two-stitches",
}  # fmt: skip
OF_THE_WHOLE_PIECE = {
    "wrong multiple", "terms mixed", "undefined abbreviation", "unbalanced increases",
}  # fmt: skip
FIGURES = {"uses": "consumed", "spaces": "spaces"}
"""What may be judged of a row beside its stitches, and where its sheet has the number."""
OF_A_WHOLE_CASE = ("rows", "faults", "terms")

Values = dict[str, Any]
"""A table of a sheet, or an object of the answer."""


@dataclass(slots=True)
class Score:
    """What was judged, how much of it was right, and what was not."""

    right: Counter[str] = field(default_factory=Counter)
    judged: Counter[str] = field(default_factory=Counter)
    notes: list[str] = field(default_factory=list)

    def add(self, what: str, note: str, *, right: bool) -> None:
        """Count one thing that was judged."""
        self.judged[what] += 1
        self.right[what] += right
        if not right:
            self.notes.append(note)

    def take_in(self, other: Score, name: str) -> None:
        """Count in another case."""
        self.right.update(other.right)
        self.judged.update(other.judged)
        self.notes.extend(f"{name}: {note}" for note in other.notes)


def judged(answer: Values, sheet: Values, figures: Sequence[str] = tuple(FIGURES)) -> Score:
    """The score of one case; `figures` says which numbers its folder defines."""
    score = Score()
    rows = _RowsFound(answer["rows"])
    right_rows = [
        (expected, _judge_row(rows, expected, sheet, figures, score))
        for expected in sheet.get("row", [])
        if "stitches" in expected and not expected.get("not_judged")
    ]
    _judge_findings(answer["findings"], sheet, right_rows, score)
    told, wanted = answer["terms"], sheet.get("terms")
    score.add("terms", f"{told} terms, not {wanted}", right=told == wanted)
    all_right = all(score.right[what] == score.judged[what] for what in OF_A_WHOLE_CASE)
    score.judged["whole"] += 1
    score.right["whole"] += all_right and not score.right["alarms"]
    return score


def _judge_row(
    rows: _RowsFound, expected: Values, sheet: Values, figures: Sequence[str], score: Score
) -> bool:
    """Judge one row; returns whether its stitches are right."""
    label, of_a_range = expected["label"], "times" in expected
    found = rows.called(expected)
    if not found:
        score.add("rows", f"row {label} was not read", right=False)
        return False
    # A range may have been listed in pieces: what it ends with is looked for in the last.
    tried = found[:3] if of_a_range else found[:1]
    ends = [*tried, _where_it_ends(found)] if of_a_range else tried
    right = [row for row in ends if _agrees(row, "stitches", expected, "stitches", sheet)]
    row = (right or tried)[0]
    rows.take(row if row in tried else tried[0])
    note = f"row {label} makes {row['stitches']}, not {expected['stitches']}"
    score.add("rows", note, right=bool(right))
    for what, name in FIGURES.items():
        if what in figures and name in expected and not of_a_range:
            agrees = _agrees(row, what, expected, name, sheet)
            score.add(
                what, f"row {label} {what} {row[what]}, not {expected[name]}", right=agrees
            )
    return bool(right)


def _where_it_ends(found: list[Values]) -> Values:
    """What a range makes in the end, which is not on the same row in every size."""
    last = list(found[0]["stitches"] or [])
    for row in found[1:]:
        others = row["stitches"] or []
        if len(others) == len(last):
            last = [b if a is None else a for a, b in zip(last, others, strict=True)]
    return {**found[0], "stitches": last}


class _RowsFound:
    """The rows of an answer in working order, with those already compared."""

    def __init__(self, rows: list[Values]) -> None:
        self.rows = rows
        self.taken: set[int] = set()
        self.next = 0

    def called(self, expected: Values) -> list[Values]:
        """The rows that a label may mean, the likeliest first."""
        label, of_a_range = expected["label"], "times" in expected
        numbers = _numbers(label)
        near = [row for row in self.rows if _same_part(row["part"], expected.get("part"))]
        near = near or self.rows
        named = [row for row in near if _key(row["printed"]) == _key(label)]
        holding = [row for row in near if numbers and _holds(row, numbers[0])]
        if of_a_range and named:
            return named[::-1]
        if len(numbers) == 1:
            found = holding + [row for row in named if row not in holding]
        else:
            found = named + [row for row in holding if row not in named]
        if of_a_range:
            return found[::-1]
        return [row for row in found if self._is_ahead(row)] or found

    def _is_ahead(self, row: Values) -> bool:
        at = self._at(row)
        return at >= self.next and (at not in self.taken or row["times"] != 1)

    def take(self, row: Values) -> None:
        """Go on after this row, or within it where it stands for several."""
        at = self._at(row)
        self.taken.add(at)
        self.next = at if row["times"] != 1 else at + 1

    def _at(self, row: Values) -> int:
        return next(i for i, other in enumerate(self.rows) if other is row)


def _agrees(row: Values, key: str, expected: Values, name: str, sheet: Values) -> bool:
    """Whether a number, or one a size, is one of those accepted."""
    got = _in_sizes(row[key] or [None], expected, sheet)
    more = expected.get(f"{name}_accept", [])
    for wanted in [expected[name], *(more if isinstance(more, list) else [more])]:
        length = max(len(got), len(wanted) if isinstance(wanted, list) else 1)
        if _spread(got, length) == _spread(wanted, length):
            return True
    return False


def _in_sizes(numbers: list[object], expected: Values, sheet: Values) -> list[object]:
    """Only the sizes that work this row, where the sheet names them."""
    names, worked = sheet.get("sizes"), expected.get("sizes")
    if not names or not worked or len(numbers) != len(names):
        return numbers
    return [numbers[names.index(name)] for name in worked if name in names]


def _spread(numbers: object, length: int) -> list[object]:
    """One number for all sizes, once for each."""
    listed = numbers if isinstance(numbers, list) else [numbers]
    return listed * length if len(listed) == 1 else listed


def _numbers(label: str | None) -> list[int]:
    return [int(number) for number in re.findall(r"\d+", label or "")]


_NAMES = ("dec", "inc", "body", "set-up", "foundation", "divide", "border", "edging")
"""What tells rows with the same number apart: "Body Row 1", "Edging Row 1"."""


def _key(label: str | None) -> str:
    """A label without what is only told beside it: its side, its colour, its spelling."""
    text = re.sub(
        r"\([^)]*(?:rs|ws|right|wrong|colou?r)[^)]*\)", " ", (label or "").lower()
    )
    name = next((name for name in _NAMES if name in text), "")
    numbers = re.findall(r"\d+", text)
    return (
        f"{name}#{'-'.join(numbers)}" if numbers else " ".join(re.findall("[a-z]+", text))
    )


def _same_part(ours: str | None, theirs: str | None) -> bool:
    """Whether two names may mean one part; a part without a name may be any."""
    a, b = (
        " ".join(re.findall("[a-z0-9]+", (name or "").lower())) for name in (ours, theirs)
    )
    return a in b or b in a


def _holds(thing: Values, number: int) -> bool:
    """Whether a row or finding stands for a row number, in the first size that has one."""
    first, last = (_first_known(thing[key]) for key in ("first", "last"))
    return first is not None and first <= number <= (last or first)


def _first_known(numbers: Any) -> int | None:  # noqa: ANN401 - a number, or one a size
    listed = numbers if isinstance(numbers, list) else [numbers]
    return next((number for number in listed if number is not None), None)


def _judge_findings(
    findings: list[Values], sheet: Values, rows: list[tuple[Values, bool]], score: Score
) -> None:
    """Judge which faults were told, and whether anything else was."""
    loud = [finding for finding in findings if finding["severity"] != "advice"]
    problems = sheet.get("problem", [])
    telling: list[Values] = []
    of_all_left = (
        True  # one finding without a row may serve for one fault of the whole piece
    )
    for problem in problems:
        told = _told_on_row(loud, problem) or _told_once(loud, problem)
        if not told and of_all_left:
            told = _told_of_all(loud, problem, sheet)
            of_all_left = not told
        telling += told
        note = f"not told: row {problem.get('row')}, {problem.get('kind')}"
        score.add("faults", note, right=bool(told))
    excused = [*problems, *_after_a_fault(problems, rows)]
    for finding in loud:
        if finding in telling or any(_is_on(finding, row) for row in excused):
            continue
        if _is_alarm(finding, sheet):
            score.right["alarms"] += 1
            score.notes.append(f"alarm: {finding['row']}: {finding['message']}")


def _fitting(findings: list[Values], problem: Values) -> Iterator[Values]:
    """The findings by a rule that a fault of this kind may be told by."""
    rules = _rules_for(problem)
    return (finding for finding in findings if finding["rule"] in rules)


def _rules_for(problem: Values) -> set[str]:
    kind, rule = problem.get("kind", ""), problem.get("rule")
    if rule:
        return COUNTING if rule in COUNTING else {rule}
    if "abbreviation" in kind or "typing" in kind:
        return {"undefined-abbreviation", "unknown-word"}
    return {"mixed-terms"} if "mixed" in kind else COUNTING


def _told_on_row(findings: list[Values], problem: Values) -> list[Values]:
    """The fitting findings on the row of a fault, in the size that has it."""
    size = problem.get("size")
    return [
        finding
        for finding in _fitting(findings, problem)
        if _is_on(finding, problem)
        and (not size or not finding["sizes"] or size in finding["sizes"])
    ]


def _told_once(findings: list[Values], problem: Values) -> list[Values]:
    """A finding of a fact that holds for all rows, told of one of them or of none."""
    if problem.get("rule") in {None, *COUNTING}:
        return []
    either = [
        f for f in _fitting(findings, problem) if not (f["row"] and problem.get("row"))
    ]
    return either[:1]


def _told_of_all(findings: list[Values], problem: Values, sheet: Values) -> list[Values]:
    """A finding of the whole piece, for a fault of the whole piece or of its first row."""
    first = (sheet.get("row") or [{}])[0].get("label")
    of_first = str(problem.get("row")) == str(first)
    if not of_first and problem.get("kind") not in OF_THE_WHOLE_PIECE:
        return []
    return [f for f in _fitting(findings, problem) if f["row"] is None][:1]


def _is_on(finding: Values, row: Values) -> bool:
    """Whether a finding is on a row of the sheet, or on the row of a fault."""
    label = str(row.get("label", row.get("row", "")))
    if not _same_part(finding["part"], row.get("part")):
        return False
    numbers = _numbers(label)
    return _key(finding["row"]) == _key(label) or bool(
        numbers and _holds(finding, numbers[0])
    )


def _after_a_fault(
    problems: list[Values], rows: list[tuple[Values, bool]]
) -> Iterator[Values]:
    """The rows from a fault to the next one of its part that comes out right."""
    for problem in problems:
        after = False
        for row, right in rows:
            if not _same_part(row.get("part"), problem.get("part")):
                continue
            if _key(str(row["label"])) == _key(str(problem.get("row", ""))):
                after = True
                yield row
            elif after:
                yield row
                if right:
                    break


def _is_alarm(finding: Values, sheet: Values) -> bool:
    """Whether it is a finding that a right row must not have."""
    severities = {"error"} if sheet.get("ambiguous") else {"error", "warning"}
    return finding["severity"] in severities and finding["rule"] in COUNTING | WORDING
