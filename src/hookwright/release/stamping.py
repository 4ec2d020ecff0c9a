"""Who puts out which version, and when? The worksheet says so, and never a clock."""

from __future__ import annotations

import datetime as dt

from hookwright.checking import Checked
from hookwright.release.facts import Stamp

_MONTHS = (
    "January February March April May June July August September October November December"
).split()


def stamp_of(checked: Checked, day: str = "") -> Stamp:
    """The stamp of a release.

    Args:
        checked: The pattern, with its worksheet.
        day: The day it is put out, year first; "" for what the worksheet says.
    """
    noted = checked.design.noted
    if noted is None:
        return Stamp(date=_in_words(day), day=day)
    used = day or noted.date
    return Stamp(
        version=noted.version,
        date=_in_words(used),
        day=used,
        designer=noted.designer,
        rights=noted.rights,
        corrections=noted.corrections,
    )


def _in_words(day: str) -> str:
    """A day as it is printed: "25 November 2026"."""
    if not day:
        return ""
    when = dt.date.fromisoformat(day)
    return f"{when.day} {_MONTHS[when.month - 1]} {when.year}"
