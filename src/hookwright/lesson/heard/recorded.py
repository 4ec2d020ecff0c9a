"""From captions of a filmed lesson to its chapters, its slips, and what it never shows."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from hookwright.checking import Checked
from hookwright.lesson.facts import RowMoves
from hookwright.lesson.heard.contradicted import slip_of, slips_in, stretches
from hookwright.lesson.heard.expected import Expectations
from hookwright.lesson.heard.facts import Chapter, Heard, Slip, Stated, Word
from hookwright.lesson.heard.foundation import foundation_stated
from hookwright.lesson.heard.rows_shown import Shown, rows_shown
from hookwright.lesson.heard.stated import stated_in
from hookwright.lesson.heard.terms import Term, terms_of
from hookwright.lesson.heard.transcripts import cues_in, words_of
from hookwright.lesson.moves import moves_of
from hookwright.lesson.speech import row_said

_NO_TIMES = (
    "has no words with times: write them as captions (.vtt, .srt), or in lines that begin "
    "with a time, as 2:05."
)
_COUNT = "At the end count:"


def recorded_lesson(checked: Checked, text: str, name: str) -> Heard:
    """A filmed lesson held against its pattern.

    Where the pattern has sizes, it is held against the one that is named before the first
    row; where none is, or several are, against the one that contradicts least.

    Args:
        checked: The pattern.
        text: Captions or a transcript with times.
        name: The name of that file, for a message.
    """
    words = words_of(cues_in(text))
    if not words:
        return Heard(refused=f"{name} {_NO_TIMES}")
    terms = terms_of(checked)
    stated = stated_in(words, terms)
    heard = (
        _in_size(checked, words, stated, terms, size)
        for size in _sizes_meant(checked, words)
    )
    return min(heard, key=lambda one: (len(one.slips), -len(one.chapters)))


def _sizes_meant(checked: Checked, words: Sequence[Word]) -> Sequence[int]:
    """The size that is named before the first row; all of them if not just one is."""
    every = range(len(checked.worked.sizes))
    if len(every) == 1:
        return every
    chapters = rows_shown(words, moves_of(checked, 0)).chapters
    until = _begin(chapters)
    texts = [word.text for word in words if word.time < until]
    named = [size for size, name in enumerate(checked.sizes) if name.lower() in texts]
    return named if len(named) == 1 else every


def _in_size(
    checked: Checked,
    words: Sequence[Word],
    stated: Sequence[Stated],
    terms: Sequence[Term],
    size: int,
) -> Heard:
    moves = moves_of(checked, size)
    shown = rows_shown(words, moves)
    expected = Expectations(checked, terms, size)
    chain = foundation_stated(words, stated, _begin(shown.chapters))
    if chain is None:
        stated = _without_foundation(expected, stated)
    slips = [
        *_of_foundation(checked, expected, chain),
        *(
            slip
            for stretch in stretches(shown, stated, expected)
            for slip in slips_in(checked, stretch, words, shown, expected)
        ),
    ]
    return Heard(
        shown.chapters,
        tuple(slips),
        tuple(_not_shown(moves, shown.chapters, stated)),
        left_out=tuple(_left_out(checked, moves, shown, expected, size)),
        size=size,
    )


def _begin(chapters: Sequence[Chapter]) -> float:
    return chapters[0].time if chapters else float("inf")


def _of_foundation(
    checked: Checked, expected: Expectations, chain: Stated | None
) -> Iterator[Slip]:
    """The chain that is named before the first row begins."""
    right = expected.foundation
    if chain is not None and right is not None and chain.number != right:
        part = checked.reading.pattern.parts[expected.outcomes[0].step.part].name
        opening = Chapter(0.0, part, "Foundation chain", 0)
        yield slip_of(checked, opening, chain, (str(right),))


def _without_foundation(
    expected: Expectations, stated: Sequence[Stated]
) -> Sequence[Stated]:
    """What is stated, but for a foundation that is told within the first row."""
    first = next((one for one in stated if one.what == "chain"), None)
    is_foundation = first is not None and first.number == expected.foundation
    return [one for one in stated if one is not first] if is_foundation else stated


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


def _left_out(
    checked: Checked,
    moves: Sequence[RowMoves],
    shown: Shown,
    expected: Expectations,
    size: int,
) -> Iterator[str]:
    """Rows between those shown whose words none of them has."""
    covered = {
        at
        for chapter, until in zip(shown.chapters, shown.until, strict=True)
        for at in range(chapter.at, until + 1)
    }
    mentioned = {at for mention in shown.mentioned for at in mention.places}
    told = {_words_of_row(checked, expected, at, size) for at in covered | mentioned}
    for at in range(min(covered, default=0), max(covered, default=0)):
        if at in covered | mentioned or not expected.has_own_words(at):
            continue
        own = _words_of_row(checked, expected, at, size)
        if own not in told:
            told.add(own)
            row = moves[at]
            yield f"{row.part}, {row.name}" if row.part else row.name


def _words_of_row(
    checked: Checked, expected: Expectations, at: int, size: int
) -> tuple[str, ...]:
    said = row_said(checked, expected.outcomes[at], size)
    return tuple(sentence for sentence in said if not sentence.startswith(_COUNT))
