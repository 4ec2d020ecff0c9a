"""What stands now at every place, in a few words: said on every keystroke."""

from __future__ import annotations

from hookwright.commands.writing import NotWritten
from hookwright.desk.asked import Asked
from hookwright.desk.beside import trials_file, versions_kept
from hookwright.desk.folder import NotHere
from hookwright.finding import Severity
from hookwright.listing.summary import counted
from hookwright.sizing.placed import is_an_edging

_NAMES = 3
_MOST_BYTES = 200_000


def of_pattern(asked: Asked) -> str:
    """Whether all rows close."""
    checked = asked.checked
    errors = [f for f in checked.findings if f.severity is not Severity.ADVICE]
    rows = {(f.part, f.row) for f in errors if f.row is not None}
    if rows:
        return f"{counted(len(rows), 'row')} to mend"
    if errors:
        return f"{counted(len(errors), 'thing')} to mend"
    return "all rows close" if checked.has_rows() else "no rows yet"


def of_swatch(asked: Asked) -> str:
    """How often something was measured."""
    checked = asked.checked
    sheet = checked.worksheet
    noted = sheet.noted.swatches if sheet is not None else ()
    measured = sum(bool(gauge.stitches or gauge.rows) for gauge in noted)
    if measured:
        return f"{measured} measured"
    return "told in the text" if checked.design.gauges else "none yet"


def of_sizes(asked: Asked) -> str:
    """The names of the sizes."""
    checked = asked.checked
    sheet = checked.worksheet
    noted = sheet.noted.sizes if sheet is not None else ()
    names = checked.sizes or tuple(size.name for size in noted)
    more = ", ..." if len(names) > _NAMES else ""
    return ", ".join(names[:_NAMES]) + more or "one size"


def of_colours(asked: Asked) -> str:
    """How many colours there are."""
    checked = asked.checked
    sheet = checked.worksheet
    noted = sheet.noted.yarns if sheet is not None else ()
    number = sum(len(yarn.colours) for yarn in noted) or len(checked.design.colours)
    if not number:
        return "none yet"
    stripes = checked.reading.pattern.stripes
    return f"{number}, in stripes" if stripes else counted(number, "yarn")


def of_edging(asked: Asked) -> str:
    """Which parts of the text are edgings."""
    found = [
        part.name for part in asked.checked.reading.pattern.parts if is_an_edging(part.name)
    ]
    if not found:
        return "none"
    return found[0] if len(found) == 1 else f"{len(found)} in the text"


def of_yarn(asked: Asked) -> str:
    """How many balls the text asks for, in its first size."""
    told = [colour.balls[0] for colour in asked.checked.design.colours if colour.balls]
    balls = sum(number for number in told if number is not None)
    return f"{float(balls):g} balls told" if balls else "not told yet"


def of_release(asked: Asked) -> str:
    """Whether anything stands in its way."""
    return "to mend first" if asked.checked.has_errors() else "ready"


def of_lesson(asked: Asked) -> str:
    """By whose pace its minutes are."""
    noted = asked.checked.design.noted
    lesson = noted.lesson if noted is not None else None
    if lesson is None or not (lesson.pace or lesson.timed):
        return "usual pace"
    return "as you timed it" if lesson.timed else "at your pace"


def of_testers(asked: Asked) -> str:
    """How many lines of reports there are."""
    try:
        with trials_file(asked.folder).open("rb") as file:
            lines = sum(bool(line.strip()) for line in file.read(_MOST_BYTES).splitlines())
    except (OSError, NotHere):
        return "none yet"
    return counted(lines - 1, "report") if lines > 1 else "none yet"


def of_answers(asked: Asked) -> str:
    """Whom they are for; nothing is decided there."""
    return "for makers" if asked.checked.has_rows() else "no rows yet"


def of_corrections(asked: Asked) -> str:
    """The version that was kept last."""
    try:
        kept = versions_kept(asked.folder)
    except (NotWritten, NotHere):
        return "not to be read"
    return f"since {kept[-1].version}" if kept else "none kept yet"


def of_costs(asked: Asked) -> str:
    """The hours that are noted."""
    noted = asked.checked.design.noted
    told = noted.costs if noted is not None else None
    hours = sum(float(hours) for _, hours in told.work) if told is not None else 0
    return f"{hours:g} h so far" if hours else "none yet"
