from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path

import pytest
from counting import calls
from hypothesis import given
from hypothesis import strategies as st

from hookwright.notation.hook_motions import Motions, Problem, read_motions
from hookwright.source import Span

CASES = Path(__file__).parents[1] / "cases" / "motions.txt"


@dataclass(frozen=True)
class Case:
    title: str
    text: str
    expected: str
    problems: tuple[Problem, ...]


def read_cases() -> list[Case]:
    blocks = CASES.read_text(encoding="utf-8").split("\n=== ")[1:]
    return [read_case(block) for block in blocks]


def read_case(block: str) -> Case:
    title, *lines = block.strip("\n").split("\n")
    text, problems, expected = "", [], ""
    start = 0
    for line in lines:
        if line.startswith("->"):
            expected = line.removeprefix("->").strip()
        elif carets := re.match(r" *(\^+) (.*)", line):
            span = Span(start + carets.start(1), start + carets.end(1))
            problems.append(Problem(span, carets.group(2)))
        else:
            start = len(text)
            text += line + "\n"
    return Case(title, text, expected, tuple(sorted(problems, key=lambda p: p.span)))


def described(motions: Motions | None, keys: str) -> str:
    """What a definition does, in the words of the case file and with the keys it names."""
    if motions is None:
        return "not in hook motions"
    said = [f"passes {motions.passes}", f"heads {motions.heads}"]
    if motions.chains or "chains" in keys:
        said.append(f"chains {motions.chains}")
    said.append(f"height {motions.height}")
    if motions.base != motions.height:
        said.append(f"base {motions.base}")
    if "most" in keys:
        said.append(f"most {motions.most_loops}")
    if "yo " in keys:
        said.append(f"yo {motions.yarn_overs}")
    if not motions.closes:
        said.append("open")
    return ", ".join(sorted(said))


@pytest.mark.parametrize("case", read_cases(), ids=lambda case: case.title)
def test_a_definition_does_what_its_case_says(case: Case) -> None:
    motions = read_motions(case.text)
    expected = ", ".join(sorted(case.expected.split(", ")))
    assert described(motions, case.expected) == expected
    assert (motions.problems if motions else ()) == case.problems


# Heights: the turning-chain tables of handbooks, which give dc 3, tr 4, dtr 5 and trtr 6
# chains. Loops: counted; n yarn overs, one drawn up and the first.
@pytest.mark.parametrize(
    ("yarn_overs", "height"), [(0, "sc"), (1, "dc"), (2, "tr"), (3, "dtr"), (4, "trtr")]
)
def test_a_plain_stitch_takes_one_draw_more_than_its_yarn_overs(
    yarn_overs: int, height: str
) -> None:
    wraps = f"Yo {yarn_overs} times, insert" if yarn_overs else "Insert"
    draws = f"(yo, draw through 2 loops) {yarn_overs + 1} times"
    motions = read_motions(f"{wraps} hook in next st, draw up a loop, {draws}.")
    assert motions == Motions(
        passes=1,
        heads=1,
        chains=0,
        most_loops=yarn_overs + 2,
        yarn_overs=yarn_overs,
        height=height,
        base=height,
        closes=True,
        problems=(),
        loops=2 * yarn_overs + 2,  # wound, drawn up once, drawn off once more than wound
    )


@given(legs=st.integers(2, 40), yarn_overs=st.integers(1, 4), said=st.integers(2, 60))
def test_stitches_drawn_together_leave_one_loop_for_each_leg_and_one(
    legs: int, yarn_overs: int, said: int
) -> None:
    leg = f"yo {yarn_overs} times, draw up a loop in next st"
    draws = f"(yo, draw through 2 loops) {yarn_overs} times"
    text = (
        f"*{leg}, {draws}; rep from * {legs - 1} more times, yo, through all {said} loops."
    )
    motions = read_motions(text)
    assert motions is not None
    assert (motions.passes, motions.heads, motions.closes) == (legs, 1, True)
    assert motions.most_loops == legs + yarn_overs + 1
    assert motions.loops == legs * (2 * yarn_overs + 1) + 1
    assert bool(motions.problems) == (said != legs + 1)


@given(pulls=st.integers(2, 12), chains=st.integers(1, 12))
def test_a_group_n_times_is_a_star_repeated_one_time_less(pulls: int, chains: int) -> None:
    leg = "yo, insert hook in st, pull up a loop"
    end = f"yo, pull through all {2 * pulls + 1} loops, ch {chains}"
    bracket = read_motions(f"({leg}) {pulls} times, {end}")
    assert bracket == read_motions(f"*{leg}; rep from * {pulls - 1} more times; {end}")
    assert bracket is not None
    assert (bracket.chains, bracket.problems) == (chains, ())


WORDS = st.sampled_from(
    """yo yarn over hook insert in next st sts same each of the 2 3 9 twice times more
    loop loops pull draw up through all both last on ( ) [ ] * ** , . ; : rep repeat
    from dc sc hdc tr ch sl-st sp skip skipped drop dropped leaving holding until
    remain as one tog first 2nd work off bar side fabric finger and 99999999999
    complete without to that row below""".split()
)


@given(text=st.lists(WORDS, max_size=40).map(" ".join) | st.text(max_size=200))
def test_no_text_raises_and_every_problem_stands_in_the_text(text: str) -> None:
    motions = read_motions(text, 100)
    for problem in motions.problems if motions else ():
        assert problem.span in Span(100, 100 + len(text))
        assert problem.span.start < problem.span.end


@given(text=st.lists(WORDS, max_size=40).map(" ".join))
def test_where_a_definition_stands_changes_nothing_but_its_spans(text: str) -> None:
    here, there = read_motions(text), read_motions(text, 7)
    assert (here is None) == (there is None)
    if here and there:
        assert (here.passes, here.heads, here.height) == (
            there.passes,
            there.heads,
            there.height,
        )
        moved = [Span(p.span.start + 7, p.span.end + 7) for p in here.problems]
        assert moved == [p.span for p in there.problems]


@pytest.mark.parametrize(
    "piece",
    ["(yo, insert hook in st, pull up a loop) 9 times ", "(" * 9, "dc leaving last loop, ",
     "ch 1 hold last loop ", "yo, through 2 loops twice until 1 loop remains ", "* ",
     "in next st ", "rep from * 9 times ", "insert hook in next ", "dc, ", " ", "in " * 5],
)  # fmt: skip
def test_a_long_text_takes_no_longer_than_its_length(piece: str) -> None:
    def reading(length: int) -> int:
        text = "insert hook in st, yo, draw up a loop, " + piece * (length // len(piece))
        return calls(lambda: read_motions(text))

    reading(1_000)
    assert reading(12_000) < 2.5 * reading(6_000) + 1_000


def test_a_repeat_nobody_could_work_is_a_problem_and_does_not_hang() -> None:
    leg = "yo, insert hook in st, pull up a loop"
    motions = read_motions(f"((({leg}) 999999999 times) 999999999 times) 9 times")
    assert motions is not None
    assert not motions.closes
    assert [p.message for p in motions.problems] == [
        "this is repeated too often to be one stitch"
    ]
