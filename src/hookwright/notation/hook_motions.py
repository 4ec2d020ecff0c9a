"""What does a definition in hook motions do, run as loops on the hook?

"Yo, insert hook in next st, yo and pull up a loop, (yo and pull through 2 loops) twice"
begins with one loop on the hook and must end with one. What is used of the edge, what
stands on it afterwards and how tall it is follow from the run.

"Rep from * 4 times" is tried as four more and as four in all; the one under which the loops
agree with the words is taken, else four more. Stitch words are read as US names.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from msgspec import Struct
from msgspec.structs import replace

from hookwright.notation.motions.height import HEIGHTS
from hookwright.notation.motions.hook import Problem
from hookwright.notation.motions.phrases import read_steps
from hookwright.notation.motions.run import Run
from hookwright.notation.motions.steps import Repeat, Step
from hookwright.notation.motions.words import LONGEST_NUMBER, Word, read_words
from hookwright.regex import regex
from hookwright.source import Span

__all__ = ["Motions", "Problem", "read_motions"]

_NAME = regex(r"[^,.;:=]{1,60}?(?:[:=]|\s[-\u2013\u2014]\s)")
_WORK = regex(r"\b(?:in|into|yo|insert|(?P<frame>over|across))\b", re.IGNORECASE)
_TOO_LONG = regex(rf"\d{{{LONGEST_NUMBER + 1},}}")


class Motions(Struct, frozen=True):
    """What a definition in hook motions does, run as loops on the hook from 1 back to 1.

    Attributes:
        passes: Places of the working edge used up.
        heads: Stitch tops left; a chain that closes the stitch is none.
        chains: Chains made that are not closed into a stitch.
        most_loops: The most loops on the hook at any time, the yarn overs before the hook
            goes in among them.
        yarn_overs: Yarn overs before the hook first goes in.
        height: The plain US stitch that stands as tall: "sl st", "sc", "hdc", "dc", "tr",
            "dtr", "trtr" (or taller). Of several stitches the tallest counts.
        base: The plain US stitch it is built of: an extended sc stands as tall as an hdc.
        closes: Whether one loop is left at the end.
        problems: Where words and loops disagree, in reading order.
        loops: How often the yarn is pulled through or wound: loops that stay in it.
    """

    passes: int
    heads: int
    chains: int
    most_loops: int
    yarn_overs: int
    height: str
    base: str
    closes: bool
    problems: tuple[Problem, ...]
    loops: int = 0


def read_motions(text: str, offset: int = 0, terms: str = "US") -> Motions | None:
    """Run a definition; None if the text is not one.

    A list of whole stitches ("dc in same st, ch 1, dc in same st") is run as well, if every
    word of it is understood.

    Args:
        text: The definition, with or without the stitch's name and a colon before it.
        offset: Where it begins in the pattern; the spans of problems count from there.
        terms: Which terms its stitches are named in, "US" or "UK".
    """
    words = _words_after_name(text, offset)
    if terms == "UK":
        words = [replace(word, text=_FROM_UK.get(word.text, word.text)) for word in words]
    steps = read_steps(words)
    if not _is_definition(steps, words):
        return None
    runs = [Run(steps, more=more) for more in (True, False)]
    for run in runs:
        run.work()
    run = min(runs, key=lambda run: len(run.hook.problems))
    return _motions(run, _long_numbers(text, offset))


_FROM_UK = {"dc": "sc", "tr": "dc", "dtr": "tr", "trtr": "dtr"}
"""Stitches that have the name of another one in US terms."""


def _words_after_name(text: str, offset: int) -> list[Word]:
    """The words after the stitch's name: "5-dc bobble (bob): yo, ..."."""
    skipped = _end_of_name(text)
    return list(read_words(text[skipped:], offset + skipped))


def _end_of_name(text: str) -> int:
    """Where the work begins; of "Cl over 3 sts: ..." the place is kept."""
    name = _NAME.match(text)
    if name is None:
        return 0
    said = name.group().lower().rfind("work the following")
    if said >= 0:  # "Work the following 3 times: yo, ..." is no name
        return said
    work = _WORK.search(name.group())
    if work is None:
        return name.end()
    return work.start() if work["frame"] else 0


def _is_definition(steps: Sequence[Step | Repeat], words: Sequence[Word]) -> bool:
    motions = [step for step in steps if isinstance(step, Step)]
    does = {step.does for step in motions}
    if does & {"insert", "up"} or any(step.held for step in motions):
        return bool(does & {"up", "through", "finish", "gather"})
    return "stitch" in does and not any(word.kind in {"other", "remark"} for word in words)


def _long_numbers(text: str, offset: int) -> list[Problem]:
    return [
        Problem(
            Span(offset + match.start(), offset + match.end()),
            "this number is too long to be meant",
        )
        for match in _TOO_LONG.finditer(text)
    ]


def _motions(run: Run, long_numbers: Sequence[Problem]) -> Motions:
    hook = run.hook
    height, base = hook.tallest
    problems = sorted((*hook.problems, *long_numbers), key=lambda problem: problem.span)
    return Motions(
        passes=hook.edge.used,
        heads=hook.edge.heads,
        chains=hook.chains,
        most_loops=hook.most,
        yarn_overs=hook.first_yarn or 0,
        height=HEIGHTS[height],
        base=HEIGHTS[base],
        closes=hook.loops == 1 and not hook.dropped and not run.gave_up,
        problems=tuple(problems),
        loops=hook.pulls,
    )
