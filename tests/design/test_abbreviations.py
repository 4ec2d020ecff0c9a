"""The list of abbreviations of a draft, in the ways designers write it."""

import pytest

from hookwright.checking import check
from hookwright.design.abbreviations import abbreviations_of
from hookwright.notation.tree import Pattern
from hookwright.source import Source

ROW = "\n\nRow 1: Sc in 2nd ch from hook and in each ch across.\n"
PAIRS = [("ch", "chain"), ("sc", "single crochet"), ("sl st", "slip stitch")]
LISTS = {
    "signs of equality": "Abbreviations\nch = chain\nsc = single crochet\nsl st = slip stitch",
    "dashes": "ABBREVIATIONS\nch - chain\nsc – single crochet\nsl st — slip stitch",
    "colons": "Abbreviations:\n\nch: chain\n\nsc: single crochet\n\nsl st: slip stitch",
    "one line": "Abbreviations: ch = chain, sc = single crochet, sl st = slip stitch.",
    "semicolons": "Abbreviations (US terms): ch, chain; sc, single crochet; sl st, slip stitch",
    "no sign": "US abbreviations: ch chain, sc single crochet, sl st slip stitch.",
    "bars": "Abbreviations\nch chain | sc single crochet | sl st slip stitch",
    "strokes": "Abbreviations\nch: chain / sc: single crochet / sl st: slip stitch",
    "a table": "## Abbreviations (US)\n\n| ch | chain |\n| --- | --- |\n| sc | single crochet |\n| sl st | slip stitch |",
    "a table with a head": "| Abbreviation | Meaning |\n|---|---|\n| ch | chain |\n| sc | single crochet |\n| sl st | slip stitch |",
    "tabs": "Abbreviations\nch\tchain\nsc\tsingle crochet\nsl st\tslip stitch",
    "two columns": "Abbreviations\nch\tchain\tsc\tsingle crochet\nsl st\tslip stitch",
    "spaces": "Stitches used\nch      chain\nsc      single crochet\nsl st   slip stitch",
    "leaders": "Stitches used:\nch ..... chain\nsc ..... single crochet\nsl st ... slip stitch",
    "brackets": "Abbreviations: ch (chain), sc (single crochet), sl st (slip stitch)",
    "meanings first": "Stitches used (US terms):\nchain (ch)\nsingle crochet (sc)\nslip stitch (sl st)",
    "meanings and signs": "Stitches used: chain = ch; single crochet = sc; slip stitch = sl st.",
    "a list with bold": "**Abbreviations:**\n\n- **ch**: chain\n- **sc**: single crochet\n- **sl st**: slip stitch",
    "stops": "ABBREVIATIONS.—ch., chain; sc., single crochet; sl st., slip stitch.",
    "a line that goes on": "Abbreviations: ch = chain; sc = single\ncrochet; sl st = slip stitch",
}


def entries(text: str) -> list[tuple[str, str]]:
    found = check(Source(text + ROW)).design.abbreviations
    return [(entry.word, entry.meaning.rstrip(".")) for entry in found]


@pytest.mark.parametrize("text", LISTS.values(), ids=LISTS.keys())
def test_a_list_is_read(text: str) -> None:
    assert entries(text) == PAIRS


def test_an_entry_may_have_two_spellings_and_plurals() -> None:
    text = "Abbreviations\nsl st / ss = slip stitch\nst(s) = stitch(es)\nRS/WS - right/wrong side"
    assert entries(text) == [
        ("sl st", "slip stitch"),
        ("ss", "slip stitch"),
        ("st(s)", "stitch(es)"),
        ("RS", "right/wrong side"),
        ("WS", "right/wrong side"),
    ]


def test_a_meaning_may_hold_commas_and_marks() -> None:
    text = (
        "Abbreviations: inc = increase (2 sc in one st), dec = invisible decrease, in front "
        "loops, sc = single crochet"
    )
    assert entries(text)[1] == ("dec", "invisible decrease, in front loops")
    assert len(entries(text)) == 3


def test_a_bare_list_has_words_without_meanings() -> None:
    words = ("ch", "sc", "hdc", "dc")
    assert entries("Stitches used: ch, sc, hdc, dc") == [(word, "") for word in words]


@pytest.mark.parametrize(
    "text",
    [
        "I use the usual abbreviations, and you will find them on my page: have a look.",
        "Abbreviations\nPlease see the list on my page.\n\nGauge: 16 sts = 10 cm",
        "A pattern with no abbreviations at all, so here it is in words.",
        "Special stitches\nShell: 5 dc in the same st.\nV-st: (dc, ch 1, dc) in the same st.",
        "Stitches: 24 across",
    ],
)
def test_other_words_are_no_list(text: str) -> None:
    assert entries(text) == []


def test_a_list_ends_where_the_notes_and_the_rows_begin() -> None:
    text = (
        "Abbreviations\nch = chain\nsc = single crochet\n\nGauge: 16 sts = 10 cm\n\n"
        "Notes\nThe chain: it never counts.\n\nBody\nCh 12."
    )
    assert entries(text) == PAIRS[:2]


def test_the_spans_are_of_the_word_and_of_the_entry() -> None:
    text = "Abbreviations: ch = chain, sc = single crochet."
    second = check(Source(text + ROW)).design.abbreviations[1]
    assert text[second.word_span.start : second.word_span.end] == "sc"
    assert text[second.span.start : second.span.end] == "sc = single crochet"


@pytest.mark.parametrize(
    "text",
    [
        "Abbreviations: " + "ch = chain, " * 20_000,
        "Abbreviations\n" + "." * 200_000,
        "Abbreviations\n" + "a (" * 50_000,
        "Abbreviations\n" * 20_000,
        "stitches used " * 40_000,
        "x" * 300_000 + " abbreviations: ch = chain",
        "Abbreviations\nch" + " " * 200_000 + "chain",
    ],
    ids=lambda text: text[:20].strip(),
)
def test_no_text_takes_long(text: str) -> None:
    abbreviations_of(Source(text), Pattern(()), ())
