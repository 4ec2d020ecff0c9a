"""A pattern in a .md file: plain text with very little Markdown in it.

Headings with "#", images, and a bold label at the start of a line are Markdown. Every other
star, bracket, dash or underscore belongs to the pattern. The marks are blanked out, not
removed, so that every offset of the text is also one of the file; where nothing else parts
a bold label from the words behind it, a colon stands in their place.
"""

from __future__ import annotations

import re

from msgspec.structs import replace

from hookwright.reading.draft import Draft, Heading
from hookwright.reading.labels import begins_a_row
from hookwright.reading.plain import decoded, plain_draft, with_plain_line_ends
from hookwright.regex import regex
from hookwright.source import Span

_HEADING = regex(r"^ {0,3}(?P<mark>#{1,6})(?:[ \t]+(?P<words>.*)|$)")
_CLOSING_MARK = regex(r"(?:^|[ \t])#+[ \t]*$")
_IMAGE = regex(r"!\[[^\[\]\n]*\]\([^()\n]*\)")
_BOLD_LABEL = regex(
    r"^[ \t]*(?P<item>[-+*] +|\d{1,3}[.)] +)?\*\*(?P<label>[^*\s][^*\n]*)\*\*(?P<after>.?)"
)
_LABEL_ENDS = (":", ".", ")", "-", "\u2013", "\u2014")
_LIKE_A_HEADING = regex(r"^( {0,3})(?=#{1,6}(?:[ \t]|$))")
_ESCAPE = regex(r"\\(?=[*_\[\]().#+-])")


def read_markdown(data: bytes, name: str) -> Draft:
    """Read a .md file."""
    return markdown_draft(with_plain_line_ends(decoded(data).text), name)


def markdown_draft(text: str, name: str) -> Draft:
    """The draft whose text is this one with its Markdown marks blanked out."""
    lines: list[str] = []
    headings: list[Heading] = []
    at = 0
    for line in text.split("\n"):
        plain, level = _without_marks(line)
        if level:
            headings.append(Heading(_span_of_words(plain, at), level))
        lines.append(plain)
        at += len(line) + 1
    only_words = _IMAGE.search(text) is None and "<img" not in text
    draft = plain_draft("\n".join(lines), name)
    return replace(draft, headings=tuple(headings), only_words=only_words)


def as_markdown(draft: Draft) -> str:
    """The text of a draft written so that reading it as Markdown gives its words again.

    Its headings get their marks. Where its own words would be taken for a mark, a backslash
    stands before them, which reads as a space.
    """
    levels = {
        draft.source.line_of(heading.span.start): heading.level
        for heading in draft.headings
    }
    lines = draft.source.text.split("\n")
    return "\n".join(
        _marked(line, levels.get(number, 0)) for number, line in enumerate(lines, start=1)
    )


def _marked(line: str, level: int) -> str:
    words = _escaped(line)
    if not level or not words.strip():
        return words
    return f"{'#' * level} {_CLOSING_MARK.sub(_with_backslash, words.strip())}"


def _with_backslash(mark: re.Match[str]) -> str:
    return mark[0].replace("#", "\\#", 1)


def _escaped(line: str) -> str:
    """A line whose words are all taken as words."""
    line = _ESCAPE.sub(r"\\\\", line)
    line = _LIKE_A_HEADING.sub(r"\1\\", line)
    line = _IMAGE.sub(lambda image: image[0].replace("![", "!\\[", 1), line)
    bold = _BOLD_LABEL.match(line)
    if bold:
        start = bold.start("label") - 2
        line = f"{line[:start]}\\{line[start:]}"
    return line


def _without_marks(line: str) -> tuple[str, int]:
    """The line, as long as before, and the level of a heading or 0."""
    heading = _HEADING.match(line)
    if heading:
        line = _blanked(line, heading.start("mark"), heading.end("mark"))
        closing = _CLOSING_MARK.search(line)
        if closing:
            line = _blanked(line, closing.start(), closing.end())
    line = _IMAGE.sub(lambda image: " " * len(image[0]), line)
    line = _without_bold_label(line, in_heading=heading is not None)
    line = _ESCAPE.sub(" ", line)
    level = len(heading["mark"]) if heading and line.strip() else 0
    return line, level


def _without_bold_label(line: str, *, in_heading: bool) -> str:
    bold = _BOLD_LABEL.match(line)
    if not bold or not (in_heading or _is_label(bold, line)):
        return line
    start, end = bold.span("label")
    unmarked = not in_heading and _needs_mark(bold, line)
    line = _blanked(_blanked(line, start - 2, start), end, end + 2)
    if unmarked:
        line = f"{line[:end]}:{line[end + 1 :]}"
    if bold["item"] and bold["item"].startswith("*"):
        # "* **Row 1:**": a star before a label is a list's mark, never a repeat's.
        line = _blanked(line, bold.start("item"), bold.end("item"))
    return line


def _needs_mark(bold: re.Match[str], line: str) -> bool:
    """Whether only the bold type parts a label from its words: "**Dec Rnd** Ch 2, ..."."""
    behind = line[bold.end("label") + 2 :].strip()
    ended = bold["label"].rstrip().endswith(_LABEL_ENDS) and bold["label"][-1:] != ")"
    return behind[:1].isalnum() and not behind[:1].islower() and not ended


def _is_label(bold: re.Match[str], line: str) -> bool:
    """Whether bold words name the line, and are not a repeat between double stars."""
    label = bold["label"].rstrip()
    if begins_a_row(label) or label.endswith(":") or bold["after"] == ":":
        return True
    if "," in label or ";" in label:
        return False
    whole_line = not line[bold.end("label") + 2 :].strip()
    return whole_line or label.endswith(_LABEL_ENDS)


def _blanked(line: str, start: int, end: int) -> str:
    return line[:start] + " " * (end - start) + line[end:]


def _span_of_words(line: str, at: int) -> Span:
    return Span(at + len(line) - len(line.lstrip()), at + len(line.rstrip()))
