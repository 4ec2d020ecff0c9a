"""Edits of the example patterns, each with what a maker would notice of it.

Some keep the meaning: another spelling, a word for its abbreviation, another order of
notes, brackets for a star. Some change a count, a foot, a stitch or a colour, the count
kept.
"""

from __future__ import annotations

import random
import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from examples_checked import FOLDER, NAMES

_ROW = re.compile(r"^(?:Rows?|Rnds?|Divide Rnd|Sizes?)\b.*$", re.MULTILINE)


@dataclass(frozen=True, slots=True)
class Edited:
    """An edit.

    Attributes:
        name: The example.
        what: What was done, in a few words.
        text: The text with it.
        changes: Whether the fabric is another.
        row: The label of the row it is in; "" for one that is in no row.
    """

    name: str
    what: str
    text: str
    changes: bool
    row: str


def edits() -> Iterator[Edited]:
    """All edits that can be made, example after example."""
    for name in NAMES:
        text = (FOLDER / f"{name}.md").read_text("utf-8")
        for what, old, new in KEEPING:
            yield from _in_rows(name, text, what, old, new, changes=False)
        for what, old, new in CHANGING:
            yield from _in_rows(name, text, what, old, new, changes=True)
        yield from _beside_rows(name, text)


def sampled(number: int, *, changes: bool, seed: int = 7) -> list[Edited]:
    """So many of them, at random but the same each time, kinds mixed evenly."""
    kinds: dict[str, list[Edited]] = {}
    for edit in edits():
        if edit.changes is changes:
            kinds.setdefault(edit.what, []).append(edit)
    chance = random.Random(seed)  # noqa: S311 - no secret
    for found in kinds.values():
        chance.shuffle(found)
    result: list[Edited] = []
    while len(result) < number and any(kinds.values()):
        for found in kinds.values():
            if found and len(result) < number:
                result.append(found.pop())
    return result


def _in_rows(
    name: str,
    text: str,
    what: str,
    old: str,
    new: str | Callable[[re.Match[str]], str],
    *,
    changes: bool,
) -> Iterator[Edited]:
    """The edit in each row that has the words, once a row."""
    for row in _ROW.finditer(text):
        changed = re.sub(old, new, row[0], count=1)
        if changed != row[0]:
            whole = text[: row.start()] + changed + text[row.end() :]
            yield Edited(name, what, whole, changes, row[0].partition(":")[0])


def _less(match: re.Match[str]) -> str:
    return f"{match[1]}{int(match[2]) - 1}{match[3]}"


def _more(match: re.Match[str]) -> str:
    return f"{match[1]}{int(match[2]) + 1}{match[3]}"


KEEPING: tuple[tuple[str, str, str | Callable[[re.Match[str]], str]], ...] = (
    ("a stitch in full", r"\bdc in\b", "double crochet in"),
    ("a stitch in full, sc", r"\bsc in next st\b", "single crochet in next st"),
    ("a stitch in full, hdc", r"\bhdc in next\b", "half double crochet in next"),
    ("stitches in full", r"\bnext (\d+) sts\b", r"next \1 stitches"),
    ("stitch in full", r"\beach st\b", "each stitch"),
    ("repeat in full", r"\brep from\b", "repeat from"),
    ("repeat in full, rows", r"\bRep Rows?\b", lambda m: m[0].replace("Rep", "Repeat")),
    ("skip in full", r"\bsk\b", "skip"),
    ("chain in full", r"\bCh (\d)\b", r"Chain \1"),
    ("the label in capitals", r"^(Row|Rnd) (\d+)", lambda m: m[0].upper()),
    ("round in full", r"^Rnd ", "Round "),
    ("a number in words", r"\brep from \* 3 more times", "rep from * three more times"),
    ("more times, with a hyphen less", r"; rep from \*", ", rep from *"),
    ("a double space", r", ", ",  "),
    ("a word of cheer behind the row", r"$", " Well done!"),
    ("across said", r"\bin each st across\b", "in each st to end"),
    ("slip stitch in full", r"\bsl st in\b", "slip stitch in"),
    ("next said of one", r"\bdc in next (\d+) sts", r"dc in each of next \1 sts"),
    ("turn in another place", r"\. Turn\.", ", turn."),
    ("the side left out", r" \((?:RS|WS)\):", ":"),
)

CHANGING: tuple[tuple[str, str, str | Callable[[re.Match[str]], str]], ...] = (
    ("one place fewer", r"(next )(\d)( (?:sts|ch)\b)", _less),
    ("one place more", r"(next )([3-9])( (?:sts|ch)\b)", _more),
    ("one stitch fewer in one place", r"\b()([3-9])( (?:dc|sc|hdc) in next)", _less),
    ("one stitch more in one place", r"\b()([2-9])( (?:dc|sc|hdc) in next)", _more),
    ("a repeat more", r"(rep from \* )(\d)( more times)", _more),
    ("a repeat fewer", r"(\) )(\d)( times)", _less),
    ("back loop", r"\b(hdc|sc|dc) in next st\b", r"\1 in back loop only of next st"),
    ("front loop, each", r"\b(sc|hdc) in each st\b", r"\1 in front loop only of each st"),
    ("back loop for front", r"\bfront loop\b", "back loop"),
    ("another stitch, taller", r"\bsc in next st\b", "hdc in next st"),
    ("another stitch, lower", r"\bhdc in next st\b", "sc in next st"),
    ("another stitch, dc", r"\bdc in next (\d) sts\b", r"hdc in next \1 sts"),
    ("other posts", r"\*FPdc around next st, BPdc", "*BPdc around next st, FPdc"),
    ("another post", r"\bBPdc around\b", "FPdc around"),
    ("another space", r"\bch 2, dc\b", "ch 3, dc"),
    ("another chain", r"\(dc, ch 2, dc\)", "(dc, ch 1, dc)"),
    ("another colour", r"\bJoin B\b", "Join A"),
    ("a decrease over more", r"\bdc3tog over next 3\b", "dc4tog over next 4"),
    ("all in one place", r"\bsc in next (\d) sts\b", r"\1 sc in next st"),
    ("an increase for a stitch", r"\binc in each st\b", "sc in each st"),
    ("the decrease elsewhere", r"\(Sc in next (\d) sts, dec\)", (r"(Dec, sc in next \1 "
        "sts)")),
    ("the increase elsewhere", r"\*hdc in next (\d) sts, 2 hdc in next st;",
     r"*2 hdc in next st, hdc in next \1 sts;"),
    ("fans elsewhere", r"\bsk next 3 sts, fan in next st, sk next 3 sts",
     "sk next 2 sts, fan in next st, sk next 4 sts"),
)  # fmt: skip


def _beside_rows(name: str, text: str) -> Iterator[Edited]:
    """Edits of what stands beside the rows."""
    notes = re.search(r"## Notes\n\n(.*?)\n\n## ", text, re.DOTALL)
    if notes is not None:
        lines = notes[1].split("\n\n")
        turned = "\n\n".join([lines[0], *lines[:0:-1]])
        yield Edited(name, "notes in another order", text.replace(notes[1], turned),
                     changes=False, row="")  # fmt: skip
    listed = re.search(r"## Abbreviations\n\n(.*?)\n\n## ", text, re.DOTALL)
    if listed is not None:
        turned = "\n".join(reversed(listed[1].split("\n")))
        yield Edited(name, "abbreviations in another order",
                     text.replace(listed[1], turned), changes=False, row="")  # fmt: skip
    for what, old, new in (
        ("a note more", "## Abbreviations", "Enjoy every row.\n\n## Abbreviations"),
        ("spelling", "gray", "grey"),
        ("another heading", "## Finishing", "## To finish"),
        ("yarn over in full", "(Yo,", "(Yarn over,"),
        ("the finishing in other words", "Weave in", "Sew in"),
    ):
        if old in text:
            yield Edited(name, what, text.replace(old, new, 1), changes=False, row="")
    for what, old, new in (
        ("another colour to begin", "With A, ch", "With B, ch"),
        ("another sequence", "2 rows A, 2 rows B", "2 rows A, 4 rows B"),
        ("the cluster of more", ") 3 times in the same st", ") 4 times in the same st"),
        ("the fan of more", "(3 dc, ch 1, 3 dc)", "(4 dc, ch 1, 4 dc)"),
        ("another chain to begin", "Ch 36.", "Ch 40."),
        ("another ring", "15 dc in ring", "17 dc in ring"),
    ):
        if old in text:
            yield Edited(name, what, text.replace(old, new, 1), changes=True, row="")
