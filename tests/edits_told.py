"""Is an edit of an example told as what it is?"""

from __future__ import annotations

import re

from edits_made import Edited
from examples_checked import example

from hookwright.checking import check
from hookwright.reading import read_bytes
from hookwright.versions.comparing import compare
from hookwright.versions.facts import Compared


def compared_with(edit: Edited) -> Compared:
    """The example and the example with the edit, compared."""
    old = example(edit.name)
    return compare(old, check(read_bytes(edit.text.encode(), ".md", "new")), "1.0", "1.1")


def told_rightly(edit: Edited) -> bool:
    """Whether what is told is what was done, and where."""
    compared = compared_with(edit)
    if not edit.changes:
        return not compared.of_fabric
    own = [change for change in compared.of_fabric if not change.follows]
    if not own:
        return False
    if not edit.row:
        return True
    first = min(own, key=lambda change: change.first)
    label = re.search(r"(\d+)", edit.row.partition("only:")[2] or edit.row)
    number = re.search(r"(\d+)", first.rows)
    if label is None or number is None:
        return True
    return label[1] == number[1]
