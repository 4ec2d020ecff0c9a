"""Do the sides told in the labels agree with the turns between the rows?

A turn brings the other side up. Between two rows it is certain only where the text tells it
once, or says for all rows that they are turned or never are; a stretch of rows is followed
for as long as that holds. Where the yarn is cut, or words beside the rows speak of sides,
anybody may hold the work as they like, and a new stretch begins.
"""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Iterator, Sequence
from itertools import islice

from msgspec import Struct

from hookwright.editing.manuscript import Manuscript
from hookwright.finding import Finding, Related, Severity
from hookwright.notation.nested import nested
from hookwright.notation.tree import (
    Chain,
    Evenly,
    FinishOff,
    InOnePlace,
    Join,
    Make,
    Node,
    Recall,
    Remark,
    Repeat,
    Skip,
    Tail,
    Topic,
    Turn,
    Yarn,
)
from hookwright.regex import regex
from hookwright.source import Source, Span
from hookwright.working.steps import Step

_WORK = (Make, Repeat, InOnePlace, Tail, Evenly, Skip)
_OF_SIDES = regex(
    r"\b(?:RS|WS|sides?|facing|turn\w*|flip\w*|rotat\w*|face|rejoin\w*|fasten|cut)\b",
    re.IGNORECASE,
)
_FACES = regex(r"\b(?:RS|WS|[Rr]ight [Ss]ide|[Ww]rong [Ss]ide|facing|faces?)\b")
_PLAIN = (Recall, Yarn, Turn, Join, Remark)
_OTHER = {"RS": "WS", "WS": "RS"}


class _Stretch(Struct):
    """Rows with a known number of turns between them: those whose side is told.

    Attributes:
        even: Labelled as if the work had been turned an even number of times.
        odd: Labelled as if it had been turned an odd number of times.
        turned: Each of its rows, with how often the work was turned before it.
    """

    even: list[Step]
    odd: list[Step]
    turned: list[tuple[Step, int]]

    def sides(self) -> Iterator[tuple[Step, str]]:
        """The side of each of its rows; none where its labels contradict one another."""
        if bool(self.even) == bool(self.odd):
            return
        for step, turns in self.turned:
            yield step, "WS" if (turns + bool(self.odd)) % 2 else "RS"


def side_findings(manuscript: Manuscript) -> Iterator[Finding]:
    """The first label of each part that the turns contradict."""
    if not manuscript.worked.sizes:
        return
    told: set[int] = set()
    steps = manuscript.worked.sizes[0].plan.steps
    if not any(step.side for step in steps):
        return
    stretches = list(_Follower(manuscript.source, _usual(manuscript)).stretches(steps))
    for stretch in stretches:
        wrong, right = sorted((stretch.odd, stretch.even), key=len)
        if not wrong or not right:
            continue
        if len(wrong) == len(right) and stretch.odd and wrong is stretch.even:
            wrong, right = right, wrong
        step = wrong[0]
        if step.part not in told:
            told.add(step.part)
            yield _finding(manuscript, step, right[0])
    yield from _told_beside(manuscript, stretches)


_OF_ROWS, _OF_ROUNDS = regex(r"\brows?\b"), regex(r"\b(?:rnds?|rounds?)\b")


def _usual(manuscript: Manuscript) -> dict[bool, int | None]:
    """How often rows, and rounds, are turned by a sentence that speaks of all of them."""
    said: dict[bool, set[int]] = {False: set(), True: set()}
    for statement in manuscript.pattern.statements:
        if statement.topic not in (Topic.TURN, Topic.NO_TURN):
            continue
        words = manuscript.source.slice(statement.span).lower()
        for is_round, kind in ((False, _OF_ROWS), (True, _OF_ROUNDS)):
            if kind.search(words):
                said[is_round].add(int(statement.topic is Topic.TURN))
    return {kind: min(turns) if len(turns) == 1 else None for kind, turns in said.items()}


class _Said(Struct, frozen=True):
    """What a row says of turning and of laying the work down.

    Attributes:
        behind: Whether each turn told behind the work is one; None for a turn within it.
        before: The same of those told before the work.
        cut: Whether the yarn is cut.
        joined: Whether a yarn is joined at a place.
        closed: Whether the round is closed.
    """

    behind: tuple[bool, ...] | None
    before: tuple[bool, ...]
    cut: bool
    joined: bool
    closed: bool


class _Follower:
    """Follows the turns from row to row; what like rows say is looked up once."""

    def __init__(self, source: Source, usual: dict[bool, int | None]) -> None:
        self._source = source
        self._usual = usual
        self._never = "turn" not in source.text.lower()
        self._said: dict[int, _Said] = {}
        self._of_sides: dict[int, bool] = {}

    def stretches(self, steps: Sequence[Step]) -> Iterator[_Stretch]:
        """Stretches of rows, each with the labels that agree with one another."""
        stretch, turns, before = _Stretch([], [], []), 0, None
        for step in steps:
            if before is not None:
                between = self._turns(before, step)
                if between is None:
                    yield stretch
                    stretch, turns = _Stretch([], [], []), 0
                else:
                    turns += between
            stretch.turned.append((step, turns))
            side = _side_of(step)
            if side:
                flips = (turns + (side == "WS")) % 2
                (stretch.odd if flips else stretch.even).append(step)
            before = step
        yield stretch

    def _turns(self, before: Step, after: Step) -> int | None:
        """How often the work is turned between two rows; None where it is not certain."""
        if before.part != after.part or before.number is None:
            return None
        gap = 0 if after.number is None else after.number - before.number - 1
        if after.number is None or gap < 0 or self._is_laid_down(before, after):
            return None
        turns = self._turns_to_next(before, after)
        if not gap:
            return turns
        return turns and turns * (gap + 1) if self._is_mistyped(before, after) else None

    def _is_mistyped(self, before: Step, after: Step) -> bool:
        """Whether a range begins beyond its number: "Row 3", "Rows 5-20".

        Its end, and the rows behind it, are counted right nevertheless.
        """
        labels = before.text.label, after.text.label
        return labels[0] is not labels[1] and labels[1] is not None and labels[1].ranged

    def _turns_to_next(self, before: Step, after: Step) -> int | None:
        """How often the work is turned between a row and the one worked behind it."""
        one, other = self._says(before), self._says(after)
        if one.behind is None or other.behind is None:
            return None
        turns = (*one.behind, *other.before)
        if len(turns) > 1:
            return None
        if turns:
            return int(turns[0])
        usual = self._usual[after.is_round]
        if usual is None and after.is_round and one.closed and self._never:
            return 0
        return usual

    def _says(self, step: Step) -> _Said:
        key = id(step.nodes)
        if key not in self._said:
            self._said[key] = _said(step.nodes)
        return self._said[key]

    def _is_laid_down(self, before: Step, after: Step) -> bool:
        """Whether the work may have been laid down and taken up between two rows."""
        one, other = self._says(before), self._says(after)
        if one.cut or one.joined or other.joined:
            return True
        for step in (before, after):
            if self._speaks_of_sides(step):
                return True
            plainly = all(isinstance(node, _PLAIN) for node in step.text.body)
            if step.recalled is not None and not plainly:
                return True
        between = self._source.text[before.text.span.end : after.text.span.start]
        return _OF_SIDES.search(between) is not None

    def _speaks_of_sides(self, step: Step) -> bool:
        """Whether the words of a row speak of sides, or a remark in it of turning."""
        key = id(step.text)
        if key not in self._of_sides:
            row = step.text
            remarks = (node for node in nested(row.body) if isinstance(node, Remark))
            words = (self._source.slice(row.place(node.span)) for node in remarks)
            faces = _FACES.search(self._source.text, row.at, row.span.end)
            self._of_sides[key] = faces is not None or any(map(_OF_SIDES.search, words))
        return self._of_sides[key]


def _side_of(step: Step) -> str:
    """The side that a label tells of one row; of a range it may be that of the first."""
    label = step.text.label
    return step.side if label is not None and step.label and not label.ranged else ""


def _said(nodes: Sequence[Node]) -> _Said:
    return _Said(
        _told_behind(nodes),
        _told_before(nodes),
        cut=any(isinstance(node, FinishOff) for node in nodes),
        joined=any(isinstance(node, Yarn) and node.target is not None for node in nodes),
        closed=any(isinstance(node, Join) for node in nodes),
    )


def _told_behind(nodes: Sequence[Node]) -> tuple[bool, ...] | None:
    """What is said of turning behind the last work of a row; None for a turn within it."""
    work = [at for at, node in enumerate(nodes) if isinstance(node, _WORK)]
    first, last = (work[0], work[-1]) if work else (0, -1)
    if any(isinstance(node, Turn) for node in nodes[first : max(last, 0)]):
        return None
    groups = (node for node in nodes if isinstance(node, (Repeat, InOnePlace, Tail)))
    if any(isinstance(node, Turn) for group in groups for node in nested(group.body)):
        return None
    return tuple(node.turned for node in nodes[last + 1 :] if isinstance(node, Turn))


def _told_before(nodes: Sequence[Node]) -> tuple[bool, ...]:
    """What is said of turning before the first work of a row."""
    result: list[bool] = []
    for node in nodes:
        if isinstance(node, Turn):
            result.append(node.turned)
        elif not isinstance(node, (Chain, Yarn, Remark, Skip, Recall)):
            break
    return tuple(result)


def _finding(manuscript: Manuscript, step: Step, right: Step) -> Finding:
    label = step.text.label
    assert label is not None
    at = manuscript.source.slice(label.span).upper().rfind(step.side)
    span = label.span if at < 0 else Span(label.span.start + at, label.span.start + at + 2)
    side = _OTHER[step.side]
    turned = f"{right.label} is {right.side}"
    message = (
        f"{label.text} is marked {step.side}, but by the turns it is {side}: {turned}."
    )
    return Finding(
        "side",
        Severity.WARNING,
        span,
        message,
        f"Mark it {side}, or look at the turns before it.",
        related=(Related(right.span, f"this row is {right.side}"),),
        row=label.text,
        part=manuscript.pattern.parts[step.part].name or None,
        numbers=(label.numbers[0], label.numbers[-1]) if label.numbers else None,
    )


_TOLD = regex(
    r"\b(?:Row|Rnd|Round)\s(?P<row>\d{1,4})(?P<rest>\s?[(\[][\d\s,:;–-]{1,60}[)\]])?"
    r"(?:,|\s\(|\s[–—-]|\sis|,? which is)\s(?:which is\s|also\s)?(?:an?\s|the\s)?\(?"
    r"(?P<side>RS|WS|right[ -]side|wrong[ -]side)\)?\s(?:row|rnd|round)\b|"
    r"\b(?P<first>RS|WS|right[ -]side|wrong[ -]side)\s(?:row|rnd|round)"
    r"(?:,|\s\(|:)\s?(?:Row|Rnd|Round)\s(?P<number>\d{1,4})\b(?!\s?[(\[:]|\d)",
    re.IGNORECASE,
)
""" "to the end of Row 36, a RS row", "ending with a WS row (Row 24)"."""
_OF_PART = regex(
    r"\b(?:as (?:given |told |set |written )?(?:for|on)|of) (?:the )?(?P<name>[A-Z][a-z]+)"
    r"[^.;\n]*$"
)


def _told_beside(
    manuscript: Manuscript, stretches: Sequence[_Stretch]
) -> Iterator[Finding]:
    """Words that call a row by its number and give it the other side."""
    text = manuscript.source.text
    if not any(word in text for word in _SPEAKS):
        return
    sides: dict[tuple[int, int], set[str]] = {}
    labelled: dict[int, Step] = {}
    for stretch in stretches:
        for step, side in stretch.sides():
            if step.number is not None:
                sides.setdefault((step.part, step.number), set()).add(side)
        for step in (*stretch.even, *stretch.odd):
            labelled.setdefault(step.part, step)
    told: set[int] = set()
    for found in islice(_TOLD.finditer(text), _MOST_TOLD):
        part = _part_meant(manuscript, found.start())
        rows = re.findall(
            r"\d+", f"{found['row'] or found['number']} {found['rest'] or ''}"
        )
        known = {side for row in rows for side in sides.get((part, int(row)), ())}
        parities = {int(row) % 2 for row in rows}
        group = "side" if found["side"] else "first"
        said = "RS" if found[group][:1].upper() == "R" else "WS"
        if known == {_OTHER[said]} and len(parities) == 1 and part not in told:
            told.add(part)
            yield _of_words(manuscript, Span(*found.span(group)), rows[0], labelled[part])


_MOST_TOLD = 500
_SPEAKS = ("RS ", "WS ", "ight side ", "rong side ", "ight-side ", "rong-side ")


def _part_meant(manuscript: Manuscript, at: int) -> int:
    """The part that words at a place speak of: the one they name, or that they stand in."""
    text = manuscript.source.text
    named = _OF_PART.search(text[max(0, at - 60) : at])
    parts = manuscript.pattern.parts
    if named is not None:
        stem = named["name"].lower().rstrip("s")
        called = [n for n, part in enumerate(parts) if stem in part.name.lower()]
        if called:
            return called[0] if len(called) == 1 else -1
    return bisect_right(parts, at, key=lambda part: part.span.start) - 1


def _of_words(manuscript: Manuscript, span: Span, row: str, known: Step) -> Finding:
    side = "WS" if manuscript.source.text[span.start].upper() == "R" else "RS"
    kind = "Round" if known.is_round else "Row"
    return Finding(
        "side",
        Severity.WARNING,
        span,
        f"{kind} {row} is called a {_OTHER[side]} row here, but by the turns it is "
        f"a {side} row: {known.label} is {known.side}.",
        f"Call it a {side} row, or name the row that is meant.",
        related=(Related(known.span, f"this row is {known.side}"),),
    )
