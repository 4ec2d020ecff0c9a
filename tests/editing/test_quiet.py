"""The edit is quiet where a pattern is right: nothing louder than advice, and how much of that.

Every clean case of `tests/cases` and every finished example is edited; what is said of them
is printed with `pytest -s`. A case whose rows are not read wholly yet is none of these.
"""

import tomllib
from collections import Counter
from pathlib import Path

from judging import judged

from hookwright.answer import answer
from hookwright.checking import check
from hookwright.finding import Severity
from hookwright.reading import read_draft

TESTS = Path(__file__).parents[1]
EXAMPLES = [
    path
    for path in sorted((TESTS.parent / "examples").glob("*.md"))
    if path.stem != "README" and not path.stem.endswith("-slip")
]
MOST_ADVICE = 1.5
"""Pieces of advice that a clean pattern may have, on the average."""


def clean_drafts() -> list[Path]:
    """The drafts whose sheet tells of nothing wrong, and the finished examples."""
    drafts = []
    for sheet in sorted((TESTS / "cases").glob("*/*.toml")):
        draft = sheet.with_suffix(".txt")
        if draft.exists() and not tomllib.loads(sheet.read_text("utf-8")).get("problem"):
            drafts.append(draft)
    return drafts + EXAMPLES


def is_read(draft: Path) -> bool:
    """Whether all rows of a case come out right; an example has no sheet."""
    sheet = draft.with_suffix(".toml")
    if not sheet.exists():
        return True
    expected = tomllib.loads(sheet.read_text("utf-8"))
    score = judged(answer(check(read_draft(draft))), expected, ())
    return score.right["rows"] == score.judged["rows"]


def test_clean_patterns_have_nothing_louder_than_advice() -> None:
    drafts = clean_drafts()
    said: Counter[tuple[str, str]] = Counter()
    loud = []
    for draft in drafts:
        for finding in check(read_draft(draft)).findings:
            said[str(finding.severity), finding.rule] += 1
            if finding.severity is not Severity.ADVICE:
                loud.append((draft, finding.message))
    for (severity, rule), number in sorted(said.items()):
        print(f"{severity:8} {rule:24} {number:5} in {len(drafts)} clean patterns")  # noqa: T201 - seen with -s
    assert [(draft.stem, words) for draft, words in loud if is_read(draft)] == []
    assert said.total() <= MOST_ADVICE * len(drafts)
