"""The rules of the tech edit on small patterns: where each speaks, and where it is quiet.

A file of `tests/editing/cases` is named for its rule. A case is a title, a text, and what
the rule says of it: "--- nothing", or a line a finding with its loudness, the words it
stands under, and some words of its message:

    --- advice "Gauge: 16 sts": does not say
"""

import re
from pathlib import Path
from typing import NamedTuple

import pytest

from hookwright.checking import check
from hookwright.source import Source

CASES = Path(__file__).parent / "cases"
EXPECTED = re.compile(
    r'--- (?P<loud>error|warning|advice) "(?P<words>.*?)"(?:: (?P<said>.*))?$'
)


class Case(NamedTuple):
    """A text and what a rule is expected to say of it: loudness, words, part of message."""

    rule: str
    title: str
    text: str
    expected: tuple[tuple[str, str, str], ...]


def cases() -> list[Case]:
    """All cases of all files."""
    return [
        _case(path.stem, piece)
        for path in sorted(CASES.glob("*.txt"))
        for piece in re.split(r"^=== ", path.read_text("utf-8"), flags=re.MULTILINE)[1:]
    ]


def _case(rule: str, piece: str) -> Case:
    title, _, rest = piece.partition("\n")
    text, mark, said = rest.partition("\n--- ")
    assert mark, f"{rule}: {title}: nothing is said of what is expected"
    lines = [line for line in f"--- {said}".splitlines() if line.strip()]
    if lines == ["--- nothing"]:
        return Case(rule, title, text + "\n", ())
    found = [EXPECTED.match(line) for line in lines]
    assert all(found), f"{rule}: {title}: a line of what is expected cannot be read"
    told = tuple((m["loud"], m["words"], m["said"] or "") for m in found if m)
    return Case(rule, title, text + "\n", told)


@pytest.mark.parametrize("case", cases(), ids=lambda case: f"{case.rule}: {case.title}")
def test_a_rule_speaks_where_it_should(case: Case) -> None:
    found = check(Source(case.text, "pattern.md")).findings
    said = [
        (str(f.severity), " ".join(case.text[f.span.start : f.span.end].split()), f.message)
        for f in found
        if f.rule == case.rule
    ]
    assert [(loud, words) for loud, words, _ in said] == [
        (loud, words) for loud, words, _ in case.expected
    ]
    for (_, _, message), (_, _, part) in zip(said, case.expected, strict=True):
        assert part in message


def test_every_rule_with_cases_has_one_that_is_quiet_and_one_that_is_not() -> None:
    by_rule: dict[str, set[bool]] = {}
    for case in cases():
        by_rule.setdefault(case.rule, set()).add(bool(case.expected))
    assert {rule for rule, kinds in by_rule.items() if kinds != {True, False}} == set()
