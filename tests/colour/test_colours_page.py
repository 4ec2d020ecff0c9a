"""What docs/colours.md shows is what is read and what there is."""

from __future__ import annotations

import re
from pathlib import Path

from hookwright.colour.wishes import SIMILAR
from hookwright.colour.working_up import Worked, line_of
from hookwright.design.stripes import stripe_plans
from hookwright.design.worksheet.keys import STRIPES
from hookwright.notation.tree import Pattern
from hookwright.source import Source

PAGE = (Path(__file__).parents[2] / "docs" / "colours.md").read_text(encoding="utf-8")


def test_its_line_is_read_and_written_so() -> None:
    found = re.search(r'\("(2 rows A,[^"]*)"\)', PAGE)
    assert found
    line = " ".join(found[1].split())
    (plan,) = stripe_plans(Source(line), Pattern(()))
    worked = Worked(plan.stripes, plan.times[0], plan.after)
    assert plan.claimed == worked.rows
    assert line_of(worked) == line


def test_it_has_every_key_of_the_wishes() -> None:
    named = set(re.findall(r"`(\w+)`", PAGE))
    assert {key.name for key in STRIPES.keys} <= named


def test_its_number_for_colours_that_look_alike_is_the_one_used() -> None:
    assert f"differ by less than {SIMILAR // 100}" in PAGE
