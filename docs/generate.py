"""Writes the pages that are told by something else. Called by `make docs`.

- docs/constructs.md: which manners of writing the cases hold. The names come from
  `constructs` in the sheets of tests/cases/, gathered under those of constructs.toml.
- docs/findings/README.md: the rules, from their pages.
- docs/worksheet.md: the tables and keys of a worksheet, from their description.
- docs/usual-sizes.md: the sizes that have a name, from their table.
- docs/fabrics.md: the fabrics of the shelf, from their data.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from hookwright.design.worksheet.keys import TABLES, Key, Kind, Table
from hookwright.shelf import FAMILIES, Fabric, fabrics, name_in
from hookwright.sizing.lengths import in_both
from hookwright.sizing.named_sizes import Usual, caution, kinds, usual_sizes

DOCS = Path(__file__).resolve().parent
CASES = DOCS.parent / "tests" / "cases"
WITHOUT_NAMES = ("flat-c", "round-b", "round-c")
"""Folders whose writers had no table to name from."""
PAGE = DOCS / "constructs.md"
FINDINGS = DOCS / "findings"
WORKSHEET = DOCS / "worksheet.md"
USUAL_SIZES = DOCS / "usual-sizes.md"
SHELF = DOCS / "fabrics.md"
DRAFTS = (".txt", ".md", ".html", ".docx", ".pdf")

NONE = "none"
INTRODUCTION = """# Manners of writing

Written by `make docs` from [constructs.toml](constructs.toml) and the sheets in
[tests/cases](../tests/cases); changes belong there.

Every manner of writing a row, with an example, what it is read as, how many cases hold it,
and how many of those have a planted fault. Two cases to look at are named, the second one
with a fault. The fault of a case can lie in another of its manners. That a case holds a
manner does not say that every row of it comes out right yet: `tests/cases/thresholds.toml`
says how many do.
"""


@dataclass(frozen=True, slots=True)
class Case:
    """A draft, and what its sheet says it holds.

    Attributes:
        draft: The pattern.
        names: What is in it, in the words of the sheet.
        faulty: Whether a fault is planted in it.
    """

    draft: Path
    names: frozenset[str]
    faulty: bool

    def link(self) -> str:
        """A link from the page to the draft."""
        path = self.draft.relative_to(DOCS.parent).as_posix()
        return f"[{self.draft.stem}](../{path})"


@dataclass(frozen=True, slots=True)
class Construct:
    """A manner of writing.

    Attributes:
        chapter: Where on the page it stands.
        name: What it is called there.
        example: A few words written so.
        read_as: What they come to.
        called: What the sheets call it.
    """

    chapter: str
    name: str
    example: str
    read_as: str
    called: frozenset[str]

    def cases(self, cases: Sequence[Case]) -> list[Case]:
        """The cases that hold it, those that hold little else first."""
        found = [case for case in cases if case.names & self.called]
        return sorted(found, key=lambda case: (len(case.names), case.draft.stem))


def all_cases() -> list[Case]:
    """Every case that has a sheet."""
    sheets = (s for s in CASES.glob("*/*.toml") if s.parent.name not in WITHOUT_NAMES)
    return [_case(sheet) for sheet in sorted(sheets)]


def _case(sheet: Path) -> Case:
    told = tomllib.loads(sheet.read_text(encoding="utf-8"))
    drafts = sheet.parent.glob(f"{sheet.stem}.*")
    draft = next(path for path in drafts if path.suffix in DRAFTS)
    return Case(draft, frozenset(told.get("constructs", [])), "problem" in told)


def all_constructs() -> list[Construct]:
    """The table of constructs, in the order of the page."""
    told = tomllib.loads((DOCS / "constructs.toml").read_text(encoding="utf-8"))
    return [
        Construct(
            chapter["title"],
            one["name"],
            one["example"],
            one["read_as"],
            frozenset(one["called"]),
        )
        for chapter in told["chapter"]
        for one in chapter["construct"]
    ]


def is_well_held(cases: Sequence[Case]) -> bool:
    """Whether two cases hold a construct, one of them with a fault."""
    return len(cases) >= 2 and any(case.faulty for case in cases)


def page() -> str:
    """The whole page."""
    cases, constructs = all_cases(), all_constructs()
    held = {construct: construct.cases(cases) for construct in constructs}
    lines = [INTRODUCTION]
    for chapter in dict.fromkeys(construct.chapter for construct in constructs):
        lines += [f"## {chapter}\n", "| written | read as | cases | look at |"]
        lines += ["|---|---|--:|---|"]
        lines += [_row(one, held[one]) for one in constructs if one.chapter == chapter]
        lines.append("")
    lines += _wanting(held)
    lines += _further(cases, constructs)
    return "\n".join(lines)


def _row(construct: Construct, cases: Sequence[Case]) -> str:
    faulty = [case for case in cases if case.faulty]
    clean = [case for case in cases if not case.faulty]
    shown = [*clean[:1], *faulty[:1]] if clean else faulty[:2]
    count = f"{len(cases)}, {len(faulty)} with a fault"
    look_at = "<br>".join(case.link() for case in shown)
    example = f"**{construct.name}**<br>{construct.example}".replace("*", "\\*")
    example = example.replace("\\*\\*", "**", 2)
    return f"| {example} | {construct.read_as} | {count} | {look_at} |"


def _wanting(held: dict[Construct, list[Case]]) -> Iterator[str]:
    yield "## Not held by two cases, or by none with a fault\n"
    wanting = [one.name for one, cases in held.items() if not is_well_held(cases)]
    yield from (f"- {name}" for name in wanting or [NONE])
    yield ""


def _further(cases: Sequence[Case], constructs: Sequence[Construct]) -> Iterator[str]:
    """What the sheets name beside the table."""
    known = frozenset[str]().union(*(construct.called for construct in constructs))
    yield "## Named by a sheet alone\n"
    for name in sorted({name for case in cases for name in case.names} - known):
        holding = ", ".join(case.link() for case in cases if name in case.names)
        yield f"- `{name}`: {holding}"
    yield ""


FINDINGS_INTRODUCTION = """# The rules of the check

Written by `make docs` from the pages beside it. Each says why its rule is there, shows a
text that it speaks of and one that is better, and whether its change may be made unread.
`hookwright check --explain RULE` prints one.

| rule | what it finds |
|---|---|"""


def findings_index() -> str:
    """The list of rules, each with the first sentence of its page."""
    pages = sorted(path for path in FINDINGS.glob("*.md") if path.stem != "README")
    rows = [f"| [`{path.stem}`]({path.name}) | {_first_sentence(path)} |" for path in pages]
    return "\n".join([FINDINGS_INTRODUCTION, *rows, ""])


def _first_sentence(path: Path) -> str:
    """The first paragraph of a page, up to the end of its first sentence."""
    _, _, behind = path.read_text(encoding="utf-8").partition("\n\n")
    words = " ".join(behind.partition("\n\n")[0].split())
    sentence, stop, _ = words.partition(". ")
    return (sentence + "." if stop else words).replace("|", "\\|")


WORKSHEET_INTRODUCTION = """# The worksheet

Written by `make docs` from `src/hookwright/design/worksheet/keys.py`; changes belong there.

A project folder holds the pattern, `pattern.md`, and beside it `worksheet.toml`: what is
known of the design beside its text. `hookwright bring DRAFT FOLDER` makes both. Every table
and every key may be left out. What the pattern says itself counts before the worksheet.
Where the two say different things that is told, as is a key that is not known here
([`worksheet`](findings/worksheet.md)). Comments and the order of things are hers, and stay
as they are when something is written into it.

Lengths are written with their unit, in quotes: "4 in", "10 cm", "4 1/2 in", "-2 in".
"""


def worksheet_page() -> str:
    """The tables of a worksheet with their keys."""
    return "\n".join([WORKSHEET_INTRODUCTION, *map(_worksheet_table, TABLES)])


def _worksheet_table(table: Table) -> str:
    several = ", once for each" if table.several else ""
    rows = [f"| `{key.name}` | {_takes(key)} | {key.says} |" for key in table.keys]
    heading = f"## `{table.heading}`\n\n{table.says[0].upper()}{table.says[1:]}{several}.\n"
    return "\n".join([heading, "| key | value | what it is |", "|---|---|---|", *rows, ""])


def _takes(key: Key) -> str:
    """What a key takes: its choices, or its kind with the limits of a number."""
    if key.kind is Kind.CHOICE:
        return " or ".join(f'`"{word}"`' for word in key.of)
    if key.kind is Kind.LENGTH or key.least is None:
        return str(key.kind)
    most = "" if key.most is None else f" to {key.most}"
    return f"{key.kind}, {key.least}{most or ' or more'}"


SIZES_INTRODUCTION = """# Usual sizes

Written by `make docs` from `src/hookwright/sizing/data/sizes.toml`, where every row has its
source; changes belong there.

`hookwright size PATH --size NAME` takes a name of this page, with its kind or alone ("hat
child", "child hat", "throw"), and the name of a kind stands for all of its sizes ("hats").
None of them is a standard: makers' pages lie apart. A size of the worksheet goes before one
of this page. Inches are as published.
"""


def sizes_page() -> str:
    """The usual sizes, kind by kind."""
    cautions = [f"{caution(name)}\n" for name in ("sleep", "openings")]
    return "\n".join([SIZES_INTRODUCTION, *cautions, *map(_sizes_of_kind, kinds())])


def _sizes_of_kind(kind: str) -> str:
    rows = [_usual_size(size) for size in usual_sizes() if size.kind == kind]
    head = ["| name | also | size | remark |", "|---|---|---|---|"]
    return "\n".join([f"## {kind[0].upper()}{kind[1:]}\n", *head, *rows, ""])


def _usual_size(size: Usual) -> str:
    told = [
        f"{in_both(mm)} {way}"
        for mm, way in (
            (size.width, "wide"), (size.length, "long"), (size.around, "around"),
            (size.height, "high"),
        )
        if mm is not None
    ]  # fmt: skip
    for pair, of in ((size.fits, "to fit"), (size.chest, "chest"), (size.mattress, "on")):
        if pair is not None:
            between = "x" if of == "on" else "to"
            told.append(f"{of} {in_both(pair[0])} {between} {in_both(pair[1])}")
    return f"| {size.name} | {', '.join(size.also)} | {', '.join(told)} | {size.remark} |"


FABRICS_INTRODUCTION = """# The fabrics on the shelf

Written by `make docs` from the files in `src/hookwright/shelf/data/`; changes belong there.

`hookwright new FOLDER --fabric NAME` makes a project folder with the sample of one, in US
or, with `--terms uk`, in UK terms. Every row of every sample is worked and proven, at
several widths. *Chains* is the multiple of the foundation chain and *stitches* that of the
stitches that the fabric is worked over, for a piece that is there already: "16 + 2" is any
number of times 16, and 2 more. *Rows* is how many make the pattern once. That a fabric
exists and over which multiple it is worked is common knowledge of the trade; the sentences
and the samples are our own.
"""


def fabrics_page() -> str:
    """The fabrics, family by family."""
    return "\n".join(
        [FABRICS_INTRODUCTION, *(_family(name, says) for name, says in FAMILIES.items())]
    )


def _family(name: str, says: str) -> str:
    rows = [_fabric(fabric) for fabric in fabrics() if fabric.family == name]
    heads = ["| fabric | name | chains | stitches | rows | looks like |"]
    return "\n".join([f"## {says}\n", *heads, "|---|---|---|---|--:|---|", *rows, ""])


def _fabric(fabric: Fabric) -> str:
    us, uk = (name_in(fabric, terms) for terms in ("US", "UK"))
    name = f"`{us}`" if us == uk else f"`{us}` (UK `{uk}`)"
    over, chains = fabric.over, fabric.chains
    cells = (
        fabric.title,
        name,
        "" if chains is None else str(chains) if chains.each > 1 else _any(chains.extra),
        "" if over is None else str(over) if over.each > 1 else _any(over.extra),
        str(fabric.set_of or ""),
        fabric.looks,
    )
    return f"| {' | '.join(cells)} |"


def _any(extra: int) -> str:
    return f"any + {extra}" if extra else "any"


def main() -> None:
    """Write the pages."""
    PAGE.write_text(page(), encoding="utf-8")
    (FINDINGS / "README.md").write_text(findings_index(), encoding="utf-8")
    WORKSHEET.write_text(worksheet_page(), encoding="utf-8")
    USUAL_SIZES.write_text(sizes_page(), encoding="utf-8")
    SHELF.write_text(fabrics_page(), encoding="utf-8")


if __name__ == "__main__":
    main()
