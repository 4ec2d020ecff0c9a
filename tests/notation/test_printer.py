"""What is read is written again in one careful style, and reads back to the same tree."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from textwrap import dedent
from typing import get_args

import pytest
from msgspec import Struct
from msgspec.structs import fields, replace

from hookwright.checking import Checked, check
from hookwright.notation import parse_text, tree
from hookwright.notation.printing import (
    bare,
    print_pattern,
    print_row,
    translate,
    translate_row,
)
from hookwright.notation.printing.terms import NAMED_IN, plain_words, stitch_names
from hookwright.notation.tree import (
    Amount,
    Chain,
    Definition,
    InOnePlace,
    Label,
    Make,
    Node,
    Pattern,
    Remark,
    RowText,
    Target,
    Unread,
    Which,
)
from hookwright.notation.vocabulary import standard_words
from hookwright.source import Source, Span

CASES = Path(__file__).parents[1] / "cases"
NOWHERE = Span(0, 0)
OTHER = {"US": "UK", "UK": "US"}


@dataclass(frozen=True, slots=True)
class HouseStyle:
    """Rows or a pattern as printed, under the heading of a case file."""

    title: str
    text: str

    @property
    def terms(self) -> str:
        return "UK" if self.title.endswith("(UK)") else "US"


def house_style(name: str) -> list[HouseStyle]:
    sections = re.split(r"^=== ", (CASES / name).read_text("utf-8"), flags=re.MULTILINE)[1:]
    titled = (section.partition("\n") for section in sections)
    return [HouseStyle(title, text.strip()) for title, _, text in titled]


ROWS = house_style("house-style-rows.txt")
PATTERNS = house_style("house-style-patterns.txt")


def rows_of(text: str) -> list[RowText]:
    return [row for part in parse_text(text).pattern.parts for row in part.rows]


@pytest.mark.parametrize("case", ROWS, ids=lambda case: case.title)
def test_a_careful_row_is_printed_as_it_stands(case: HouseStyle) -> None:
    for line in case.text.splitlines():
        assert [print_row(row, terms=case.terms) for row in rows_of(line)] == [line]


@pytest.mark.parametrize("case", PATTERNS, ids=lambda case: case.title)
def test_a_careful_pattern_is_printed_as_it_stands(case: HouseStyle) -> None:
    assert print_pattern(parse_text(case.text).pattern) == case.text + "\n"


def nodes_in(value: object) -> Iterator[object]:
    if isinstance(value, tuple):
        for item in value:
            yield from nodes_in(item)
    elif isinstance(value, Struct):
        yield value
        for field in fields(value):
            yield from nodes_in(getattr(value, field.name))


def test_the_rows_show_every_kind_of_instruction() -> None:
    shown = {type(node) for case in ROWS for node in nodes_in(tuple(rows_of(case.text)))}
    assert set(get_args(Node)) - shown <= {Remark, Unread}


def test_a_loosely_written_row_is_printed_in_the_house_style() -> None:
    loose = (
        "3rd Row (right side) - 3ch, counts as a dc; 1 dc into each of the next 4 sts.\n"
        "*Chain 1, miss 1, dc in next; repeat from * nine more times, dc in last stitch. "
        "Turn. 24 dc."
    )
    assert print_row(rows_of(loose)[0]) == (
        "Row 3 (RS): Ch 3 (counts as dc), 1 dc in each of next 4 sts, *ch 1, sk 1 st, "
        "dc in next st; rep from * 9 more times, dc in last st, turn. (24 dc)"
    )


@cache
def published() -> dict[str, Pattern]:
    """The patterns of the case folders, by name."""
    paths = sorted(CASES.glob("*/*.txt"))
    return {name_of(path): parse_text(path.read_text("utf-8")).pattern for path in paths}


def name_of(path: Path) -> str:
    """A case by its folder and its name: two folders may hold cases of one name."""
    return f"{path.parent.name}/{path.stem}"


def told(pattern: Pattern) -> Pattern:
    """The bare tree; a chain told in passing says nothing where a row makes one first."""
    rows = [row for part in pattern.parts[:1] for row in part.rows]
    first = next((i for i, row in enumerate(rows) if row.label is not None), len(rows))
    begun = nodes_in(tuple(row.body for row in rows[: first + 1]))
    makes_chain = any(isinstance(node, Chain) for node in begun)
    return bare(replace(pattern, foundation_hint=None) if makes_chain else pattern)


def test_nearly_all_patterns_read_back_to_the_same_tree() -> None:
    # The rest are slips of the reader, met by other words of the pattern.
    same = [
        name
        for name, pattern in published().items()
        if told(parse_text(print_pattern(bare(pattern))).pattern) == told(pattern)
    ]
    assert len(same) >= 0.98 * len(published()), set(published()) - set(same)


def is_in_one_set_of_terms(pattern: Pattern) -> bool:
    """Whether no stitch is named that exists in the other terms only."""
    only = {
        stitch.id
        for rows in standard_words().values()
        for _, stitch in rows
        if stitch.terms and stitch.terms != pattern.terms
    }
    named = {node.stitch for node in nodes_in(pattern.parts) if isinstance(node, Make)}
    return not only & named


def test_patterns_come_back_unchanged_from_the_other_terms() -> None:
    pure = {name: p for name, p in published().items() if is_in_one_set_of_terms(p)}
    assert len(pure) >= 0.97 * len(published())
    for name, pattern in pure.items():
        if pattern.terms is not None:
            there = translate(pattern, OTHER[pattern.terms])
            assert translate(there, pattern.terms) == pattern, name


def test_patterns_printed_in_the_other_terms_read_back_in_them() -> None:
    same = [
        name
        for name, pattern in published().items()
        if pattern.terms is not None and reads_in_other_terms(pattern, OTHER[pattern.terms])
    ]
    assert len(same) >= 0.98 * len(published()), set(published()) - set(same)


def reads_in_other_terms(pattern: Pattern, terms: str) -> bool:
    read = parse_text(print_pattern(pattern, terms=terms)).pattern
    meant = replace(translate(pattern, terms), terms_said=True)
    return told(read) == told(meant)


def worked(text: str) -> list[list[tuple[object, ...]]]:
    """What each row comes to, size by size, whichever of them share a line."""
    checked = check(Source(text))
    sizes = range(max(1, len(checked.sizes)))
    return [[row for row in by_row(checked, size) if row[0] is not None] for size in sizes]


def by_row(checked: Checked, size: int) -> Iterator[tuple[object, ...]]:
    for line in checked.lines:
        told = (line.first, line.last, line.stitches, line.uses, line.spaces, line.stated)
        first, last, *counts = (values[min(size, len(values) - 1)] for values in told)
        if not isinstance(first, int) or not isinstance(last, int):
            yield first, *counts
            continue
        for number in range(first, last + 1):
            yield number, *counts


@pytest.mark.parametrize("path", sorted(CASES.glob("*/*.txt"))[::8], ids=name_of)
def test_the_print_works_to_the_same_counts_in_both_terms(path: Path) -> None:
    text = path.read_text("utf-8")
    pattern = parse_text(text).pattern
    assert worked(print_pattern(pattern)) == worked(text)
    if pattern.terms is not None and is_in_one_set_of_terms(pattern):
        assert worked(print_pattern(pattern, terms=OTHER[pattern.terms])) == worked(text)


def test_the_terms_of_two_countries_are_those_of_published_tables() -> None:
    # Source: crochet terms by country (funcrochetdesigns.com, woollykits.com), sc to dtr;
    # extended stitches with both names (doradoes.co.uk, 2023); foundation stitches with
    # both names (thomasinacummings.co.uk, yarnclub.com.au).
    published_pairs = {
        "sc": "dc", "hdc": "htr", "dc": "tr", "tr": "dtr", "dtr": "trtr",
        "esc": "edc", "edc": "etr", "fsc": "fdc",
    }  # fmt: skip
    names = stitch_names("UK")
    assert {us: names[us] for us in published_pairs} == published_pairs


def test_the_terms_agree_with_what_the_vocabulary_says_of_each_stitch() -> None:
    said = {
        stitch.id: stitch.uk_means
        for rows in standard_words().values()
        for _, stitch in rows
        if stitch.uk_means
    }
    assert {uk: stitch_names("US")[uk] for uk in said} == said


@pytest.mark.parametrize("terms", ["US", "UK"])
def test_every_name_of_either_terms_is_read_as_this_stitch(terms: str) -> None:
    for name in stitch_names(terms).values():
        make = Make(name, NOWHERE, Amount((2,), NOWHERE))
        row = RowText(Label("", (1,), NOWHERE), (make,), (), NOWHERE)
        (read,) = rows_of(f"Written in {terms} terms.\n\n{print_row(row, terms=terms)}")
        assert bare(read).body == bare(row).body, name


@pytest.mark.parametrize("terms", ["US", "UK"])
def test_no_two_stitches_become_one_in_the_other_terms(terms: str) -> None:
    names = stitch_names(terms)
    assert len(set(names.values())) == len(names)


def test_every_stitch_of_one_country_has_its_name_in_the_other() -> None:
    only = {
        terms: {
            stitch.id
            for rows in standard_words().values()
            for _, stitch in rows
            if stitch.terms == terms
        }
        for terms in ("US", "UK")
    }
    assert only["US"] <= set(stitch_names("UK"))
    assert only["UK"] <= set(stitch_names("US"))


@pytest.mark.parametrize(
    ("us", "uk"),
    [
        ("Row 1: Dc3tog over next 3 sts.", "Row 1: Tr3tog over next 3 sts."),
        ("Row 1: FPdc around next hdc.", "Row 1: FPtr around next htr."),
        ("Row 1: Sc in BLO of next st.", "Row 1: Dc in BLO of next st."),
        ("Row 1: Sk next dc, sc in last sc.", "Row 1: Miss next tr, dc in last dc."),
        ("Row 1: Ch 3 (counts as dc), tr in ring. (4 tr)",
         "Row 1: Ch 3 (counts as tr), dtr in ring. (4 dtr)"),
        ("Row 1: *Tr in next st; rep from * to last 2 dc.",
         "Row 1: *dtr in next st; rep from * to last 2 tr."),
        ("Row 1: Dc in center sc of next shell.", "Row 1: Tr in centre dc of next shell."),
        ("Rnd 1: Dc in ring, join with hdc in first dc.",
         "Rnd 1: Tr in ring, join with htr in first tr."),
        ("Row 1: (5 dc) in next sp (shell made).",
         "Row 1: (5 tr) in next sp (shell made)."),
        ("Row 1: Join Kelp with a standing sc in any st.",
         "Row 1: Join Kelp with a standing dc in any st."),
    ],
)  # fmt: skip
def test_a_row_is_printed_in_the_other_terms(us: str, uk: str) -> None:
    row = rows_of(us)[0]
    assert print_row(translate_row(row, "UK"), terms="UK") == uk
    assert translate_row(translate_row(row, "UK"), "US") == row


def test_no_kind_of_node_that_names_a_stitch_is_forgotten() -> None:
    names = {"stitch", "noun", "stands", "standing", "unit", "word"}
    naming = {
        kind
        for kind in vars(tree).values()
        if isinstance(kind, type) and issubclass(kind, Struct)
        if names & set(kind.__struct_fields__)
    }
    assert naming - {Definition} == set(NAMED_IN) - {InOnePlace}


def test_the_names_of_own_stitches_follow_the_stitch_in_them() -> None:
    text = "Special Stitches\nTall dc: (dc, ch 1, dc) in one st.\n\nInstructions\nCh 9.\n"
    pattern = parse_text(
        text + "Row 1: Sc in 2nd ch from hook, tall dc in next ch."
    ).pattern
    printed = print_pattern(pattern, terms="UK")
    assert "Tall tr: (tr, ch 1, tr) in one st." in printed
    assert "Row 1: Dc in 2nd ch from hook, tall tr in next ch." in printed


@pytest.mark.parametrize(("terms", "stitch"), [("US", "dc"), ("UK", "tr")])
def test_what_hook_motions_come_to_is_named_in_the_terms_of_the_pattern(
    terms: str, stitch: str
) -> None:
    # Two loops at a time, after one yarn over: a US double, a UK treble. Common practice.
    text = (
        f"{terms} terms.\n\nSpecial Stitches\nTall: yo, insert hook in st, yo, pull up a loop,"
        " (yo, pull through 2 loops) twice.\n\nInstructions\nCh 9.\n"
    )
    (tall,) = parse_text(text).pattern.definitions
    assert tall.stitch == stitch
    there = translate(Pattern((), definitions=(tall,), terms=terms), OTHER[terms])
    (back,) = translate(there, terms).definitions
    assert back == tall != there.definitions[0]


@pytest.mark.parametrize(
    ("us", "uk"),
    [
        ("5 incomplete dc in one st, yo", "5 incomplete tr in one st, yo"),
        ("FPdc around next st, Sc2tog, 2 hdcs", "FPtr around next st, Dc2tog, 2 htrs"),
        ("half double crochet, Double Crochet", "half treble crochet, Treble Crochet"),
        ("sc and DC", "dc and TR"),
    ],
)  # fmt: skip
def test_the_stitches_named_in_the_words_of_a_definition_follow_the_terms(
    us: str, uk: str
) -> None:
    definition = Definition(("gull",), NOWHERE, passes=1, stitch="dc", words=us)
    pattern = Pattern((), definitions=(definition,), terms="US")
    there = translate(pattern, "UK")
    assert there.definitions[0].words == uk
    assert there.definitions[0].stitch == "tr"
    assert translate(there, "US") == pattern


def test_a_stitch_is_printed_with_its_short_name_and_the_places_it_takes() -> None:
    text = (
        "## Special Stitches\n"
        "Cable (cab): skip 2 sts, FPtr around each of next 2 sts, FPtr around each of the 2 "
        "skipped sts.\n"
        "C4F: skip 2 sts, FPdc around each of next 2 sts, dc in each of the 2 skipped sts.\n"
        "\n## Instructions\n\nCh 22.\nRow 1: Cab over next 4 sts, C4F over next 4 sts.\n"
    )
    printed = print_pattern(parse_text(text).pattern)
    assert "Cable (cab) (worked over 4 sts): skip 2 sts, FPtr" in printed
    assert "C4f (worked over 4 sts): skip 2 sts" in printed
    assert bare(parse_text(printed).pattern) == bare(parse_text(text).pattern)


def reads_back(text: str) -> None:
    pattern = parse_text(text).pattern
    printed = print_pattern(pattern)
    assert told(parse_text(printed).pattern) == told(pattern), printed
    assert worked(printed) == worked(text), printed


@pytest.mark.parametrize(
    "text",
    [
        # Rows that a sentence ends.
        """Ch 10.
        Rows 1 and all odd rows: Sc in each st.
        Row 2: Ch 1, sc in each st.
        Row 4 is the last row.""",
        # A row told by its name, worked again to a length.
        """Ch 10.
        Pattern row: Ch 1, turn, sc in each st.

        Rep the pattern row until the cloth is square.
        Next row: Ch 1, sc in each st.""",
        # Rows worked on even, in a stitch that is named or not.
        """Rnd 1: 6 sc in ring.
        Rnd 2: Work even in sc until piece measures 10 cm.""",
        """Rnd 1: 6 sc in ring.
        Rnd 2: Work even for 5 rounds.""",
        # A chain told in a multiple is none that was made.
        """Ch a multiple of 8 + 3.
        Row 1: Dc in 4th ch from hook and in each ch. (42 dc)
        Row 2: Ch 3, dc in each st. (42 dc)""",
        # Rows that are only turned, or cut, are no stripes.
        """Ch 6.
        Row 1: Sc in each ch.
        Rows 2-5: Turn.
        Row 6: Fasten off.""",
        # Several kinds in one "each".
        """Rnd 1: Ch 4, join, ch 1, (dc, ch 1) 6 times in ring, popcorn in ring.
        Rnd 2: Sc in each dc, popcorn and ch-1 sp around. (13 sc)""",
        # Words beside the instructions that tell where the row goes.
        """Ch 6.
        Rnd 1: Sc in 2nd ch from hook, sc 3, 3 sc in last ch, now along the other side of
        the chain: sc 3, inc in last ch. (12)""",
        # The groups of a count, with their size.
        """Ch 8.
        Row 1: Sc in 2nd ch from hook, (sk 2 ch, 5 dc in next ch, sk 2 ch, sc in next ch)
        once. [2 sc, 1 shell of 5 dc]""",
        # Parts headed in bold letters.
        """**Base**

        Ch 7.
        Row 1: Sc in 2nd ch from hook and in each ch. (6)

        **Strap**

        Ch 4.
        Row 1: Sc in 2nd ch from hook and in each ch. (3)""",
        """Rnd 1: 8 sc in ring, join. (8)
        Rnd 2: Ch 1, (sc in next st, ch 3) 8 times, join. (8 sc, 8 ch-3 sps)
        Rnd 3: (Sc, hdc, dc, hdc, sc) in each ch-3 sp around, join. (8 petals)
        Rnd 4: Behind the petals in the sts of Rnd 2: ch 1, *sc in next sc, ch 4; rep from *
        around, join. (8 sc, 8 ch-4 sps)""",
        # A count of one motif among those of the row.
        """Ch 11.
        Row 1: Sc in 2nd ch from hook and in each ch across, turn. (10 sc)
        Row 2: Ch 3 (counts as dc), dc in each st across, turn. (2 dc in each fan)""",
        # A star behind a star, a name of one letter, a yarn joined again.
        """Rnd 1: 6 sc in ring. (6)
        Rnd 2: 1 sc, 1 inc, repeat around 3 times (9)
        Rnd 3: Join yarn, ch 1, sc in each st.""",
        """A: sc2tog
        Rnd 1: 6 sc in magic ring (6)
        Rnd 2: 3A (3)""",
        # Places within a group, a leg, a loop; what is said not to be done.
        """Ch 4, join.
        Rnd 1: Ch 1, (sc in next ch, ch 3) 4 times. Do not fasten off.
        Rnd 2: Sc in the 2nd of the 3 ch of next loop, (dc in next sc, sl st in top of the
        dc just made) twice.""",
        """Ch 4, sc in each st around the first leg, sc in next 4 ch.""",
        # A sentence with a colon that makes nothing is no stitch.
        """No joins and no chains: just go round and round.
        Rnd 1: 6 sc in a magic ring""",
        # So many of any stitch.
        """Inc: two stitches in one
        Rnd 1: 6 sc in a magic ring
        Rnd 2: Inc x6 (12)""",
        # A block named on the way; so many times in all without a star.
        """Row 1: Ch 5, hdc in 3rd ch from hook and in the 2 ch after it. That is one block.
        Row 2: Ch 5, turn, hdc in 3rd ch from hook and in the 2 ch after it (a starting block);
        into the ch-2 sp of the block below: sl st, ch 2, 3 hdc (a block). 2 blocks.
        Row 3: Turn, starting block, then a block into every ch-2 sp along the row. 3 blocks.""",
        """Rnd 1: 6 sc in ring. (6)
        Rnd 2: Sc in next st, inc, repeat 3 times in all. (9)""",
        # A size between two, and a list of such sizes.
        """Sizes: S/M (L).

        Rnd 1: 6 (8) sc in ring. (6 (8) sc)""",
        # Sizes that are persons.
        """Sizes: Child (Woman, Man)

        Rnd 1: 6 (7, 8) sc in ring. (6 (7, 8) sc)""",
    ],
)
def test_what_is_printed_says_the_same(text: str) -> None:
    reads_back(dedent(f"        {text}"))


def test_a_pattern_that_names_no_terms_is_left_as_it_is() -> None:
    pattern = parse_text("Ch 20.").pattern
    assert translate(pattern, "UK") is pattern


def test_a_word_of_the_other_terms_is_left_as_it_is() -> None:
    row = rows_of("Row 1: Htr in next st.")[0]
    assert translate_row(row, "UK") == row


def test_a_translated_pattern_says_its_terms() -> None:
    pattern = parse_text(
        "Ch 20.\nRow 1: Sc in 2nd ch from hook and in each ch across."
    ).pattern
    assert not print_pattern(pattern).startswith("Written in")
    assert print_pattern(pattern, terms="UK").startswith("Written in UK terms.\n")


def test_words_that_stand_in_no_tree_follow_the_terms_too() -> None:
    assert plain_words("UK")["gauge"] == "tension"
    assert plain_words("US")["gauge"] == "gauge"


def made(amount: Amount) -> RowText:
    place = Target("st", Which.NEXT, NOWHERE, amount=amount)
    return RowText(None, (Make("dc", NOWHERE, target=place),), (), NOWHERE)


@pytest.mark.parametrize(
    ("values", "words"),
    [
        ((1,), "Dc in next 1 st."),
        ((4,), "Dc in next 4 sts."),
        ((4, 5, 6), "Dc in next 4 (5, 6) sts."),
        ((4, None, 6), "Dc in next 4 (-, 6) sts."),
        ((None, 5, 6), "Dc in next (-, 5, 6) sts."),
    ],
)
def test_a_number_for_each_size_is_printed_as_a_list(
    values: tuple[int | None, ...], words: str
) -> None:
    assert print_row(made(Amount(values, NOWHERE))) == words


def test_remarks_and_what_was_not_read_are_not_printed() -> None:
    row = rows_of("Row 1: Dc in next st, mind the gap here, dc in last st.")[0]
    assert any(isinstance(node, Remark) for node in row.body)
    assert print_row(row) == "Row 1: Dc in next st, dc in last st."
