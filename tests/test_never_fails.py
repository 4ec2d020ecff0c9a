"""No text raises or hangs, whatever it holds; every finding lies within the text."""

import random
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from hookwright.checking import check
from hookwright.finding import Severity
from hookwright.source import Source

CASES = sorted(
    path
    for path in (Path(__file__).parent / "cases").glob("*/*")
    if path.suffix in (".txt", ".md")
)

STITCH = st.sampled_from(
    "sc dc hdc tr inc dec dc2tog sc3tog shell bobble FPdc BPtr blo 2dc picot xst V-st pebble".split()
)
NUMBER = st.one_of(
    st.integers(0, 40).map(str),
    st.sampled_from(
        ["900000000", "99999999999999999999", "two", "4 (6, 8)", "2-3", "½", "0"]
    ),
)
PLACE = st.sampled_from([
    "next st", "each st across", "each of next 3 sts", "same st", "first dc", "last st",
    "next ch-2 sp", "ring", "2nd ch from hook", "top of beg ch-3", "each row end",
    "3rd dc of next shell", "next st 2 rows below", "back loop only of next st", "base of ch",
    "each foundation ch", "the gap between shells", "corner", "",
])  # fmt: skip
STEP = st.one_of(
    st.builds("{} in {}".format, STITCH, PLACE),
    st.builds("{} {} in {}".format, NUMBER, STITCH, PLACE),
    st.builds("{} {}".format, STITCH, NUMBER),
    st.builds("ch {}".format, NUMBER),
    st.builds("sk next {} sts".format, NUMBER),
    st.builds("sl st in {}".format, PLACE),
    st.sampled_from(
        ["turn", "join", "Fasten off", "with B", "*", "**", "(", "]", "rep from *"]
    ),
)
BODY = st.recursive(
    st.lists(STEP, min_size=1, max_size=4).map(", ".join),
    lambda inner: st.one_of(
        st.builds("*{}; rep from * {} more times".format, inner, NUMBER),
        st.builds("*{}; rep from * across".format, inner),
        st.builds("*{}; rep from * to last {} sts, {}".format, inner, NUMBER, inner),
        st.builds("({}) {} times".format, inner, NUMBER),
        st.builds("[{}] in next st".format, inner),
        st.builds("{}, ({}) x {}".format, inner, inner, NUMBER),
        st.builds("*{}; rep from * around, ending at **".format, inner),
    ),
    max_leaves=6,
)
COUNT = st.one_of(
    st.just(""), st.builds("({} sts)".format, NUMBER), st.builds("[{}]".format, NUMBER)
)
LABEL = st.one_of(
    st.builds("Row {}: ".format, NUMBER),
    st.builds("Rnd {}: ".format, NUMBER),
    st.builds("Rows {}-{}: ".format, NUMBER, NUMBER),
    st.sampled_from(
        ["", "Row 2 (WS): ", "Next row: ", "Round 3, size M only: ", "Rep Rows 2-5 "]
    ),
)
ROW = st.builds("{}{}. {}\n".format, LABEL, BODY, COUNT)
PATTERN = st.builds("Ch {}.\n\n{}".format, NUMBER, st.lists(ROW, max_size=6).map("\n".join))
WORDS = st.text(alphabet="scdhtrkp*()[]{};:,.-–½×1 2 3 9\n\t#|'\"", max_size=200)


def judge(text: str) -> None:
    checked = check(Source(text, "pattern.txt"))
    for finding in checked.findings:
        assert 0 <= finding.span.start <= finding.span.end <= len(text)
        assert finding.message
        assert finding.severity in Severity


@settings(max_examples=60, suppress_health_check=list(HealthCheck))
@given(PATTERN)
def test_a_text_drawn_from_a_grammar_of_patterns(text: str) -> None:
    judge(text)


@settings(max_examples=60, suppress_health_check=list(HealthCheck))
@given(WORDS)
def test_a_text_of_scraps(text: str) -> None:
    judge(text)


@settings(max_examples=30, suppress_health_check=list(HealthCheck))
@given(st.sampled_from(CASES), st.randoms(use_true_random=False))
def test_a_case_with_its_words_changed(path: Path, chance: random.Random) -> None:
    words = path.read_text(encoding="utf-8").split(" ")
    for _ in range(chance.randint(1, 12)):
        at = chance.randrange(len(words))
        match chance.randint(0, 3):
            case 0:
                del words[at : at + chance.randint(1, 3)]
            case 1:
                words.insert(at, chance.choice(words or [""]))
            case 2:
                words[at:at] = words[at : at + 5]
            case _:
                words[at] = chance.choice(
                    ["*", "(", ")", "900000000", "rep from *", "", "[", "]"]
                )
        words = words or [""]
    judge(" ".join(words))


@pytest.mark.parametrize(
    "text", ["", "\n", "*", "Row", "Row 1", "Row 1:", "Ch", "((((((((((" * 50]
)
def test_a_text_with_hardly_anything_in_it(text: str) -> None:
    judge(text)


def test_brackets_a_thousand_deep() -> None:
    judge("Row 1: " + "(" * 1000 + "sc" + ") twice" * 1000)


@pytest.mark.parametrize(
    "definitions",
    [
        "V: (V, ch 1, V) in one st.",
        "Fan: 2 dc, tuft, 2 dc all in one st.\nTuft: fan, ch 1, fan all in one st.",
    ],
)
def test_a_stitch_that_is_made_of_itself(definitions: str) -> None:
    judge(
        f"Special stitches\n{definitions}\n\nRnd 1: 12 sc in ring. (12)\nRnd 2: V in each sc.\n"
    )


def test_a_great_number_drawn_together_in_one_place_comes_to_an_end() -> None:
    text = (
        "Ch 900000000.\n\nRows 4-26: **two blo in 2nd ch from hook; rep from * to last two sts, "
        "[ch two] in next st; rep from * to last 19 sts, [900000000 sc3tog in next st] in next st."
    )
    assert check(Source(text)).findings
