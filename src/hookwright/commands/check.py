"""`hookwright check`: does the pattern add up?"""

from __future__ import annotations

from collections.abc import Sequence
from enum import IntEnum

from msgspec import Struct

from hookwright.checking import Checked
from hookwright.checking import check as check_draft
from hookwright.commands.project import draft_at, worksheet_at
from hookwright.commands.writing import NotWritten
from hookwright.listing import Layout, heading, listing
from hookwright.reading import UnreadableDraft
from hookwright.terminal import ReaderGone, ink, say, say_aside, width


class Status(IntEnum):
    """How the command ends; of several drafts, the worst counts."""

    CLEAN = 0
    TO_MEND = 1
    NOT_READ = 2


class CheckOptions(Struct, frozen=True):
    """What was asked for.

    Attributes:
        terms: "US" or "UK", whatever the text says of itself.
        quiet: Findings and summary only.
        all_rows: A line for every row.
        advice: Advice too.
        fix: Make the changes that are safe.
        report: The file to write a report to; "" for none.
        as_text: The text as read, and nothing else.
        as_json: An object for programs.
    """

    terms: str | None = None
    quiet: bool = False
    all_rows: bool = False
    advice: bool = False
    fix: bool = False
    report: str = ""
    as_text: bool = False
    as_json: bool = False


def check_each(paths: Sequence[str], options: CheckOptions) -> Status:
    """Check each draft; one that cannot be read does not keep the others waiting."""
    with_headings = len(paths) > 1 and not (options.as_json and not options.as_text)
    status = Status.CLEAN
    for number, path in enumerate(paths):
        try:
            found, words = _told(path, options)
            status = max(status, found)
            if with_headings:
                say(("\n" if number else "") + heading(path, ink()))
            say(words)
        except (UnreadableDraft, NotWritten) as refusal:
            say_aside(str(refusal))
            status = Status.NOT_READ
        except ReaderGone:
            break
    return status


def _told(path: str, options: CheckOptions) -> tuple[Status, str]:
    """How a draft fares, and what is to be printed of it."""
    if options.as_text:
        return Status.CLEAN, draft_at(path).source.text.removesuffix("\n")
    checked, before = _checked(path, options)
    status = Status.TO_MEND if checked.has_errors() else Status.CLEAN
    if not checked.has_rows() or not _reported(checked, options.report):
        status = Status.NOT_READ
    if options.as_json:
        import json  # noqa: PLC0415 - for programs only

        from hookwright.answer import answer  # noqa: PLC0415

        return status, json.dumps(answer(checked))
    layout = Layout(
        width(),
        ink(),
        quiet=options.quiet,
        all_rows=options.all_rows,
        advice=options.advice,
    )
    return status, before + listing(checked, layout)


def _reported(checked: Checked, file: str) -> bool:
    """Write a report where one is asked for; one that cannot be written is told."""
    if not file:
        return True
    from hookwright.commands.report import write_report  # noqa: PLC0415 - only if asked for

    try:
        write_report(checked, file)
    except NotWritten as refusal:
        say_aside(str(refusal))
        return False
    return True


def _checked(path: str, options: CheckOptions) -> tuple[Checked, str]:
    """A checked pattern, and what is to be said of the changes made in it before."""
    if not options.fix:
        return check_draft(draft_at(path), options.terms, worksheet_at(path)), ""
    from hookwright.commands.fix import fix  # noqa: PLC0415 - only if asked for

    fixed = fix(path, options.terms, ink())
    if options.as_json:
        say_aside("\n".join(fixed.told))
        return fixed.checked, ""
    said = [part for part in (fixed.difference, "\n".join(fixed.told)) if part]
    return fixed.checked, "".join(f"{part}\n\n" for part in said)
