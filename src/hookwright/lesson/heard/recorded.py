"""From captions of a filmed lesson to its chapters, its slips, and what it never shows."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from msgspec.structs import replace

from hookwright.checking import Checked
from hookwright.lesson.chapters import clock
from hookwright.lesson.facts import RowMoves
from hookwright.lesson.heard.facts import Chapter, Heard, Slip, Stated, Word
from hookwright.lesson.heard.rows_shown import rows_shown
from hookwright.lesson.heard.stated import stated_in
from hookwright.lesson.heard.terms import Term, terms_of
from hookwright.lesson.heard.transcripts import cues_in, words_of
from hookwright.lesson.moves import moves_of
from hookwright.lesson.speech import row_said
from hookwright.lesson.words_of import said
from hookwright.working.outcome import Outcome
from hookwright.working.sequence import Run

Expected = Mapping[str, frozenset[int | None]]
_NO_TIMES = (
    "has no words with times: write them as captions (.vtt, .srt), or in lines that begin "
    "with a time, as 2:05."
)
_SURE = 84.0
"""A stitch that is not in the row at all has to be heard so surely to be told."""


def recorded_lesson(checked: Checked, text: str, name: str) -> Heard:
    """A filmed lesson held against its pattern.

    Args:
        checked: The pattern.
        text: Captions or a transcript with times.
        name: The name of that file, for a message.
    """
    words = words_of(cues_in(text))
    if not words:
        return Heard(refused=f"{name} {_NO_TIMES}")
    moves = moves_of(checked, 0)
    terms = terms_of(checked)
    chapters = rows_shown(words, moves)
    slips = [
        *_of_foundation(checked, chapters, words, terms),
        *(
            slip
            for chapter, own in _stretches(chapters, words)
            for slip in _slips(checked, chapter, own, terms)
        ),
    ]
    stated = stated_in(words, terms)
    return Heard(chapters, tuple(slips), tuple(_not_shown(moves, chapters, stated)))


def _stretches(
    chapters: Sequence[Chapter], words: Sequence[Word]
) -> Iterator[tuple[Chapter, tuple[Word, ...]]]:
    """What is said of each row that is shown."""
    ends = [*(chapter.time for chapter in chapters[1:]), float("inf")]
    for chapter, end in zip(chapters, ends, strict=False):
        yield chapter, tuple(word for word in words if chapter.time <= word.time < end)


def _of_foundation(
    checked: Checked,
    chapters: Sequence[Chapter],
    words: Sequence[Word],
    terms: Sequence[Term],
) -> Iterator[Slip]:
    """The chain that is named before the first row begins."""
    outcomes = checked.worked.sizes[0].outcomes
    if not outcomes or outcomes[0].foundation is None:
        return
    until = chapters[0].time if chapters else float("inf")
    part = checked.reading.pattern.parts[outcomes[0].step.part].name
    opening = Chapter(0.0, part, "Foundation chain", 0)
    right = outcomes[0].foundation
    for one in stated_in([word for word in words if word.time < until], terms):
        if one.what == "chain" and one.number not in {None, right}:
            yield _slip(checked, opening, one, (str(right),))


def _slips(
    checked: Checked, chapter: Chapter, words: Sequence[Word], terms: Sequence[Term]
) -> Iterator[Slip]:
    outcome = checked.worked.sizes[0].outcomes[chapter.at]
    expected = expected_of(checked, outcome, terms)
    seen: set[tuple[str, int | None]] = set()
    for one in stated_in(words, terms):
        told = _contradicted(one, expected)
        if told and (one.what, one.number) not in seen:
            seen.add((one.what, one.number))
            yield _slip(checked, chapter, one, told)


def expected_of(
    checked: Checked, outcome: Outcome, terms: Sequence[Term]
) -> dict[str, frozenset[int | None]]:
    """What a row says, taken from its own words said aloud: each thing with its numbers."""
    found: dict[str, set[int | None]] = {}
    for one in stated_in(_spoken(checked, outcome), terms):
        found.setdefault(one.what, set()).add(one.number)
    makes = outcome.worked.row.makes if outcome.worked is not None else None
    counts = [makes, outcome.below, outcome.foundation]
    found.setdefault("count", set()).update(n for n in counts if isinstance(n, int))
    for own in list(found):
        found[own].add(None)
        if own.endswith("tog"):
            found.setdefault(own.rstrip("0123456789tog") or own, set()).add(None)
    _with_other_times(found)
    skipped = _skipped_at_the_hook(outcome)
    if skipped:
        found.setdefault("skip", {None}).add(skipped)
    return {what: frozenset(numbers) for what, numbers in found.items()}


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


def _spoken(checked: Checked, outcome: Outcome) -> tuple[Word, ...]:
    """The words of a row, those of the row it repeats, and of stitches defined for it."""
    text = outcome.step.text
    whole = replace(text, body=(*text.body, *outcome.step.nodes))
    sentences = list(
        row_said(checked, replace(outcome, step=replace(outcome.step, text=whole)), 0)
    )
    kinds = outcome.worked.row.kinds() if outcome.worked is not None else {}
    for definition in checked.reading.pattern.definitions:
        told = checked.source.slice(definition.span)
        named = set(definition.names) & set(kinds)
        if named or any(name in " ".join(sentences).lower() for name in definition.names):
            sentences.append(said(checked, told))
    joined = " . ".join(sentences)
    return words_of(cues_in(f"0:00 {' '.join(joined.split())}"))


def _contradicted(one: Stated, expected: Expected) -> tuple[str, ...]:
    """What the row has instead; nothing where what is said is no contradiction."""
    own = expected.get(one.what)
    if own is not None:
        if one.number is None or one.number in own or own == {None}:
            return ()
        return tuple(str(number) for number in sorted(n for n in own if n is not None))
    if one.what in {"times", "more times", "count"} or one.sure < _SURE:
        return ()
    if one.what in {"chain", "skip"}:
        return (f"no {one.what}",)
    return tuple(
        what
        for what in expected
        if what not in {"chain", "skip", "times", "more times", "count"}
    )


def _slip(checked: Checked, chapter: Chapter, one: Stated, told: Sequence[str]) -> Slip:
    named = {
        "times": "times",
        "more times": "more times",
        "count": "stitches",
        "chain": "chain",
        "skip": "skip",
    }
    what = named.get(one.what) or said(checked, one.what)
    numbers = [word for word in told if word.isdigit()]
    text = (
        f"{what} {' or '.join(numbers)}"
        if numbers
        else " or ".join(said(checked, word) for word in told)
    )
    row = f"{chapter.part}, {chapter.row}" if chapter.part else chapter.row
    message = (
        f'At {clock(one.time)}, {row}: "{one.words}" is said, and the text has {text}.'
    )
    return Slip(one.time, row, one.words, text, message)


def _not_shown(
    moves: Sequence[RowMoves], chapters: Sequence[Chapter], stated: Sequence[Stated]
) -> Iterator[str]:
    """Moves that no row shown asks for, and whose stitch is never named."""
    shown = {move.key for chapter in chapters for move in moves[chapter.at].moves}
    named = {f"stitch {one.what}" for one in stated} | {
        f"group {one.what}" for one in stated
    }
    for row in moves:
        for move in row.new:
            if row.at and move.key not in shown | named:
                yield f"{move.words} ({row.name})"
