"""`hookwright answer`: a reply to what a maker asks, to be pasted."""

from __future__ import annotations

import json
from collections.abc import Mapping
from types import MappingProxyType

from msgspec import Struct
from msgspec.structs import replace

from hookwright.answers.answering import Question, replies_to
from hookwright.answers.help_sheet import help_sheet
from hookwright.answers.letter import letter, letter_answer
from hookwright.checking import Checked, check
from hookwright.commands.check import Status
from hookwright.commands.project import draft_at, worksheet_at
from hookwright.commands.sheet_writing import write_sheet
from hookwright.commands.writing import NotWritten
from hookwright.listing.columns import wrapped
from hookwright.reading import UnreadableDraft
from hookwright.sheets.markdown import as_markdown
from hookwright.terminal import ReaderGone, say, say_aside, width
from hookwright.wording import Asked, write_pattern

NOTHING_ASKED: Mapping[str, str] = MappingProxyType({})


class AnswerOptions(Struct, frozen=True):
    """What was asked for.

    Attributes:
        asked: What the maker asks, by the names of `Question`.
        sheet: Whether the sheet of help is wanted instead.
        terms: "US" or "UK", whatever the text says of itself.
        write: The file to write the sheet to; "" to print it.
        paper: "a4" or "us-letter".
        as_json: An object for programs.
        her_terms: "US" or "UK", which the maker works in; "" for those of the pattern.
    """

    asked: Mapping[str, str] = NOTHING_ASKED
    sheet: bool = False
    write: str = ""
    paper: str = "a4"
    terms: str | None = None
    as_json: bool = False
    her_terms: str = ""


def answer(path: str, options: AnswerOptions) -> Status:
    """Print the reply, or the sheet of help, for the pattern at a path."""
    try:
        checked = check(draft_at(path), options.terms, worksheet_at(path))
        if not checked.has_rows():
            say_aside("No row is found in the draft.")
            return Status.NOT_READ
        checked = _in_terms(checked, options.her_terms)
        if options.sheet:
            sheet = help_sheet(checked)
            if options.write:
                write_sheet(sheet, options.write, options.paper)
            else:
                told = as_markdown(sheet)
                say(json.dumps({"sheet": told}) if options.as_json else told.rstrip())
            return Status.CLEAN
        replies = replies_to(checked, Question(**options.asked))
        title = checked.design.title or checked.draft.title or ""
        if options.as_json:
            say(json.dumps(letter_answer(replies, title)))
        else:
            say(_in_columns(letter(replies, title)))
    except (UnreadableDraft, NotWritten) as refusal:
        say_aside(str(refusal))
        return Status.NOT_READ
    except ReaderGone:
        return Status.CLEAN
    return Status.CLEAN if all(reply.answered for reply in replies) else Status.TO_MEND


def _in_terms(checked: Checked, terms: str) -> Checked:
    """The pattern in the terms that a maker works in, with what its worksheet says."""
    if not terms or terms == checked.terms:
        return checked
    worded = write_pattern(checked, Asked(terms=terms))
    if worded.differs is not None:
        say_aside(
            f"Not every row reads the same in {terms} terms: told in those of the pattern."
        )
        return checked
    design = replace(worded.checked.design, noted=checked.design.noted)
    return replace(worded.checked, design=design, worksheet=checked.worksheet)


def _in_columns(text: str) -> str:
    lines = [line for one in text.split("\n") for line in wrapped(one, width()) or [""]]
    return "\n".join(lines)
