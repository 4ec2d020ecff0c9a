"""What stands now at every place, in a few words: said on every keystroke."""

from __future__ import annotations

from hookwright.checking import Checked
from hookwright.finding import Severity
from hookwright.listing.summary import counted
from hookwright.sizing.placed import is_an_edging

_NAMES = 3


def of_pattern(checked: Checked) -> str:
    """Whether all rows close."""
    errors = [f for f in checked.findings if f.severity is not Severity.ADVICE]
    rows = {(f.part, f.row) for f in errors if f.row is not None}
    if rows:
        return f"{counted(len(rows), 'row')} to mend"
    if errors:
        return f"{counted(len(errors), 'thing')} to mend"
    return "all rows close" if checked.has_rows() else "no rows yet"


def of_swatch(checked: Checked) -> str:
    """How often something was measured."""
    sheet = checked.worksheet
    noted = sheet.noted.swatches if sheet is not None else ()
    measured = sum(bool(gauge.stitches or gauge.rows) for gauge in noted)
    if measured:
        return f"{measured} measured"
    return "told in the text" if checked.design.gauges else "none yet"


def of_sizes(checked: Checked) -> str:
    """The names of the sizes."""
    sheet = checked.worksheet
    noted = sheet.noted.sizes if sheet is not None else ()
    names = checked.sizes or tuple(size.name for size in noted)
    more = ", ..." if len(names) > _NAMES else ""
    return ", ".join(names[:_NAMES]) + more or "one size"


def of_colours(checked: Checked) -> str:
    """How many colours there are."""
    sheet = checked.worksheet
    noted = sheet.noted.yarns if sheet is not None else ()
    number = sum(len(yarn.colours) for yarn in noted) or len(checked.design.colours)
    if not number:
        return "none yet"
    stripes = checked.reading.pattern.stripes
    return f"{number}, in stripes" if stripes else counted(number, "yarn")


def of_edging(checked: Checked) -> str:
    """Which parts of the text are edgings."""
    found = [part.name for part in checked.reading.pattern.parts if is_an_edging(part.name)]
    if not found:
        return "none"
    return found[0] if len(found) == 1 else f"{len(found)} in the text"


def of_yarn(checked: Checked) -> str:
    """How many balls the text asks for, in its first size."""
    told = [colour.balls[0] for colour in checked.design.colours if colour.balls]
    balls = sum(number for number in told if number is not None)
    return f"{float(balls):g} balls told" if balls else "not told yet"


def of_release(checked: Checked) -> str:
    """Whether anything stands in its way."""
    return "to mend first" if checked.has_errors() else "ready to make"
