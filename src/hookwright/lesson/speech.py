"""What is said while a row is worked: its words in full, one movement a sentence.

Only numbers that the row has are said. Before a repeat the listener is told that it comes,
and behind it how often, so that she can stop the film there and work.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from hookwright.checking import Checked
from hookwright.lesson.words_of import said
from hookwright.notation.printing.labels import claim_words
from hookwright.notation.printing.places import counted_noun, noun_phrase
from hookwright.notation.printing.sequence import phrases
from hookwright.notation.printing.wording import Wording
from hookwright.notation.tree import (
    Amount,
    Claim,
    InOnePlace,
    Node,
    Often,
    Recall,
    Remark,
    Repeat,
    Tail,
    Times,
    Unread,
)
from hookwright.regex import regex
from hookwright.wording.expected import row_at_size
from hookwright.working.outcome import Outcome

_MARKS = regex(r"\s*[*\[\]]+\s*")
_BRACKETS = regex(r"[()]")
_PLACES = regex(
    r"\b(in|into|over|around|skip|miss|of|from)"
    r" (next|first|last|second|third|fourth|fifth|same|top|ring|hook|beginning|end|center|"
    r"centre|underside)\b",
    re.IGNORECASE,
)
_ORDINALS = {"2nd": "second", "3rd": "third", "4th": "fourth", "5th": "fifth"}


def row_said(checked: Checked, outcome: Outcome, size: int) -> tuple[str, ...]:
    """What is said of a row, in sentences."""
    row = row_at_size(outcome.step.text, size)
    wording = Wording(checked.terms or "US").for_rounds(in_rounds=outcome.step.is_round)
    speaker = _Speaker(checked, wording)
    return tuple(
        sentence
        for sentence in (*speaker.of(row.body), *_counts(checked, row.claims, wording))
        if sentence
    )


def _counts(checked: Checked, claims: Sequence[Claim], wording: Wording) -> Iterator[str]:
    for claim in claims:
        if not claim.of_rows:
            told = _BRACKETS.sub("", said(checked, claim_words(claim, wording)))
            yield f"At the end count: {told}."


class _Speaker:
    """Says the instructions of one row."""

    def __init__(self, checked: Checked, wording: Wording) -> None:
        self._checked = checked
        self._wording = wording

    def of(self, nodes: Sequence[Node]) -> Iterator[str]:
        """A sentence for each instruction; a repeat is led to, said, and closed."""
        for node in nodes:
            match node:
                case Remark() | Unread():
                    continue
                case Repeat():
                    yield from self._repeat(node)
                case InOnePlace():
                    yield from self._in_one_place(node)
                case Tail():
                    yield "The last time it ends otherwise."
                    yield from self.of(node.body)
                case Recall():
                    yield _sentence(self._plain([node]))
                case _:
                    yield _sentence(self._plain([node]))

    def _repeat(self, repeat: Repeat) -> Iterator[str]:
        yield "Now comes the part that is repeated."
        yield from self.of(repeat.body)
        yield self._how_often(repeat.times)

    def _how_often(self, times: Times) -> str:
        number = _number(times.amount)
        match times.often:
            case Often.MORE if number:
                return f"Stop here, and work that {_times(number)} more."
            case Often.TO_LAST if number:
                noun = "stitch" if number == "1" else "stitches"
                last = "last" if number == "1" else f"last {number}"
                if times.noun != "st":
                    noun = said(self._checked, counted_noun(times.noun, times.amount))
                    noun += "s" if number != "1" and noun.endswith("chain") else ""
                are = "is" if number == "1" else "are"
                return (
                    f"Stop here, and repeat that until only the {last} {noun} {are} left."
                )
            case _ if number:
                return f"That is worked {_times(number)} in all."
            case _:
                end = "around" if self._wording.in_rounds else "to the end of the row"
                return f"Stop here, and repeat that {end}."

    def _in_one_place(self, group: InOnePlace) -> Iterator[str]:
        place = said(self._checked, noun_phrase(group.target, self._wording))
        whole = _with_articles(f"all of this goes in {place}")
        yield _sentence(f"{whole}: {self._plain(group.body)}")

    def _plain(self, nodes: Sequence[Node]) -> str:
        words = _MARKS.sub(" ", said(self._checked, phrases(nodes, self._wording)))
        spelled = " ".join(_ORDINALS.get(word, word) for word in words.split())
        return _with_articles(spelled)


def _with_articles(words: str) -> str:
    return _PLACES.sub(r"\1 the \2", words)


def _number(amount: Amount | None) -> str:
    value = amount.at(0) if amount is not None else None
    return str(value) if value is not None else ""


def _times(number: str) -> str:
    return "one time" if number == "1" else f"{number} times"


def _sentence(words: str) -> str:
    words = words.strip().rstrip(".;,")
    return f"{words[:1].upper()}{words[1:]}." if words else ""
