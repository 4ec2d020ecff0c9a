"""A whole draft as a pattern: its parts, rows, conventions, definitions, sizes and colours.

A draft is read line by line. A label begins a row, at the start of a line or inside a
paragraph; what follows belongs to it until the next label, an unlabelled row, a heading or
a gap. Everything else is searched for conventions, definitions and the foundation.
"""

from __future__ import annotations

import re
from bisect import bisect_left
from collections import Counter
from dataclasses import dataclass, field, replace

from hookwright.finding import Finding, Severity
from hookwright.notation.cursor import Cursor
from hookwright.notation.customs import terms_by_height
from hookwright.notation.definitions import read_definition, words_for
from hookwright.notation.labels import read_label
from hookwright.notation.lexer import MOST_DIGITS, TOO_LARGE, Kind, Token, tokens_of
from hookwright.notation.rows import read_row, work_in
from hookwright.notation.sections import (
    Section,
    heading_name,
    is_heading,
    make_of,
    section_of,
)
from hookwright.notation.statements import statements_in, terms_of
from hookwright.notation.tree import (
    Amount,
    Chain,
    Claim,
    Definition,
    FinishOff,
    InOnePlace,
    Join,
    Label,
    Loops,
    Make,
    Multiple,
    Node,
    PartText,
    Pattern,
    Recall,
    Remark,
    Repeat,
    RowText,
    Skip,
    Statement,
    Tail,
    Topic,
    Turn,
    Unread,
    Yarn,
)
from hookwright.notation.vocabulary import Phrases
from hookwright.source import Source, Span

LONGEST_LINE = 100_000


@dataclass(frozen=True, slots=True)
class Reading:
    """A pattern as read, with what was found wrong in reading it."""

    pattern: Pattern
    findings: tuple[Finding, ...]


@dataclass(slots=True)
class _Line:
    """One line of the draft: its tokens from `first` up to `last`."""

    first: int
    last: int
    text: str
    start: int
    gap: bool


@dataclass(slots=True)
class _Open:
    """A row that is still being collected."""

    label: Label | None
    first: int
    last: int
    start: int


@dataclass(slots=True)
class _Draft:
    """Everything collected on the way through a draft."""

    source: Source
    tokens: list[Token]
    lines: list[_Line]
    sizes: tuple[str, ...] = ()
    own_words: Phrases = field(default_factory=dict)
    yarns: frozenset[str] = frozenset()
    steps: bool = False
    section: Section = Section.INTRODUCTION
    parts: list[PartText] = field(default_factory=list)
    part_name: str = ""
    part_make: int = 1
    part_span: Span = Span(0, 0)  # noqa: RUF009 (a span is a frozen value)
    rows: list[RowText] = field(default_factory=list)
    findings: list[Finding] = field(default_factory=list)
    lead: tuple[int, int] | None = None
    row_sizes: tuple[str, ...] = ()
    stripes: list[tuple[int, str]] = field(default_factory=list)


def read_pattern(source: Source) -> Reading:
    """Reads a draft. Never fails: what is not understood is a finding or a remark."""
    tokens = tokens_of(source.text)
    draft = _Draft(source, tokens, _lines(source, tokens))
    _limits(draft)
    draft.sizes = _sizes(draft)
    draft.steps = _numbered_steps(draft)
    definitions = _definitions(draft)
    draft.own_words = words_for(definitions)
    draft.yarns = _yarn_names(draft)
    _walk(draft)
    return Reading(_pattern(draft, definitions), tuple(draft.findings))


def _lines(source: Source, tokens: list[Token]) -> list[_Line]:
    result: list[_Line] = []
    first = 0
    gap = True
    for i, token in enumerate(tokens):
        if token.kind not in (Kind.LINE, Kind.END):
            continue
        if i > first and _breaks_off(source, tokens, i):
            continue
        if i > first:
            start = tokens[first].start
            text = source.text[start : tokens[i - 1].end]
            head = _heading_before(source, tokens, first, i)
            if head is not None:
                result.append(
                    _Line(
                        first,
                        head,
                        source.slice(Span(start, tokens[head - 1].end)),
                        start,
                        gap,
                    )
                )
                first, start, gap = head, tokens[head].start, False
                text = source.text[start : tokens[i - 1].end]
            result.append(_Line(first, i, text[:LONGEST_LINE], start, gap))
            gap = token.value > 1
        elif token.value > 1:
            gap = True
        first = i + 1
    return result


def _breaks_off(source: Source, tokens: list[Token], at: int) -> bool:
    """Whether a line ends in the middle of a sentence that the next line goes on with."""
    if tokens[at].value != 1 or tokens[at - 1].kind is not Kind.COMMA:
        return False
    following = tokens[min(at + 1, len(tokens) - 1)]
    return source.text[following.start : following.start + 1].islower()


def _heading_before(
    source: Source, tokens: list[Token], first: int, last: int
) -> int | None:
    """Where the words after "Directions:" begin, if a line opens with such a heading."""
    for i in range(first, min(last - 1, first + 4)):
        if tokens[i].kind is Kind.COLON:
            name = source.text[tokens[first].start : tokens[i].start]
            return i + 1 if section_of(name) is Section.ROWS else None
        if tokens[i].kind is not Kind.WORD:
            return None
    return None


def _limits(draft: _Draft) -> None:
    """Numbers nobody can work are findings at their place."""
    for token in draft.tokens:
        if token.value == TOO_LARGE and token.kind in (Kind.NUMBER, Kind.ORDINAL):
            draft.findings.append(
                Finding(
                    "unknown-word", Severity.ERROR, token.span,
                    f"This number has more than {MOST_DIGITS} digits.",
                    "Check the number: it cannot be worked.",
                )
            )  # fmt: skip
            if len(draft.findings) > 20:
                return


_SIZE_LINE = re.compile(
    r"^\W*(?:[\w\-]+ ){0,2}?(?:sizes?|fits|to fit)\b[^\n(\[]{0,30}?[:\s]\s*(?P<first>[\w/½-]+)?\s*"
    r"[(\[](?P<rest>[^)\]\n]+)[)\]]",
    re.IGNORECASE,
)
_SIZE_NAME = re.compile(
    r"(?:\d*X*(?:S|M|L)|\dX|small|medium|large|newborn|preemie|baby|toddler|child|teen|adult|"
    r"extra[ -]?(?:small|large)|youth|women|men|\d+(?:[-–/]\d+)?(?:\s*(?:m|mo|months|cm|in|y|yrs?))?)",
    re.IGNORECASE,
)


def _sizes(draft: _Draft) -> tuple[str, ...]:
    """The names of the sizes, from a line that lists them, or numbered where none does."""
    for line in _joined_lines(draft):
        found = _SIZE_LINE.search(line)
        if found is None:
            continue
        names = [found["first"]] if found["first"] else []
        if names and names[0].lower() in ("size", "sizes", "is", "are", "for", "in"):
            names = []
        rest = re.split(r"\s*[,:;/]\s*|\s*-\s*", found["rest"].strip())
        names += [name.strip() for name in rest if name.strip()]
        if len(names) > 1 and all(_SIZE_NAME.fullmatch(name) for name in names):
            return tuple(names)
    for line in draft.lines:
        found = _BARE_SIZES.fullmatch(line.text.strip())
        if found is not None:
            return (found[1], *(name for name in re.split(r"[\s,:;-]+", found[2]) if name))
    return _sizes_by_lists(draft)


_BARE_SIZES = re.compile(
    r"(X*S|S|M|XXS)\s*[(\[]\s*((?:[\dX]*[SML](?:\s*[,:;-]\s*)?)+)[)\]]\.?"
)


def _joined_lines(draft: _Draft) -> list[str]:
    """Lines, each with the next one behind it: "Size:" may stand above its list."""
    texts = [line.text for line in draft.lines]
    joined = [f"{a} {b}" for a, b in zip(texts, [*texts[1:], ""], strict=True)]
    return [text for text in joined if "size" in text.lower() or "fits" in text.lower()]


_LIST = re.compile(r"(?<![\d.])\d+,?\s*[(\[]\s*\d+(?:\s*[,:\-–]\s*\d+)+\s*[)\]]")


def _sizes_by_lists(draft: _Draft) -> tuple[str, ...]:
    lengths = Counter(
        len(re.findall(r"\d+", found)) for found in _LIST.findall(draft.source.text)
    )
    if not lengths:
        return ()
    length, often = lengths.most_common(1)[0]
    return tuple(str(n + 1) for n in range(length)) if often >= 3 else ()


def _numbered_steps(draft: _Draft) -> bool:
    """Whether rows are told by bare numbers ("1. ", "2. ") and by nothing better."""
    steps = better = 0
    for line in draft.lines:
        bare = Cursor(draft.tokens, line.first, sizes=max(1, len(draft.sizes)))
        if read_label(bare, draft.source.text, inline=False) is not None:
            better += 1
        elif read_label(bare, draft.source.text, inline=False, steps=True) is not None:
            steps += 1
    return steps >= 2 and steps > better


def _definitions(draft: _Draft) -> list[Definition]:
    """All definitions, wherever they stand: a stitch may be defined after its use."""
    result: list[Definition] = []
    seen: set[str] = set()
    for _ in range(2):  # a definition may use a stitch that is defined after it
        words = words_for(result)
        result, seen = [], set()
        section = Section.INTRODUCTION
        for line in draft.lines:
            section = _section_after(draft, line, section)
            for first, last in _entries(draft, line, section):
                definition = _definition(draft, first, last, words, section)
                if definition is not None and definition.names[0] not in seen:
                    seen.update(definition.names)
                    result.append(definition)
    return result


def _section_after(draft: _Draft, line: _Line, section: Section) -> Section:
    name = line.text.strip()
    found = section_of(name)
    if found is None and ":" in name:
        found = section_of(name.partition(":")[0])
        if found is not Section.WORDS:
            found = None
    return found or section


def _entries(draft: _Draft, line: _Line, section: Section) -> list[tuple[int, int]]:
    """The entries of a line that may define something: split at "/" and ";" in lists."""
    cursor = Cursor(draft.tokens, line.first, sizes=max(1, len(draft.sizes)))
    if read_label(cursor, draft.source.text, inline=False, steps=draft.steps) is not None:
        return []
    first = line.first
    colon = next(
        (i for i in range(line.first, min(line.last, line.first + 8))
         if draft.tokens[i].kind is Kind.COLON),
        None,
    )  # fmt: skip
    if colon is not None and _section_after(draft, line, Section.ROWS) is Section.WORDS:
        first = colon + 1
    slashes = [i for i in range(first, line.last) if _splits(draft.tokens[i], section)]
    commas = _comma_list(draft, first, line.last)
    stops = _sentence_starts(draft, first, line.last)
    cuts = [first - 1, *(slashes or commas or stops), line.last]
    return [(a + 1, b) for a, b in zip(cuts, cuts[1:], strict=False) if b > a + 1]


def _splits(token: Token, section: Section) -> bool:
    return token.text == "/" or (token.kind is Kind.SEMICOLON and section is Section.WORDS)


def _sentence_starts(draft: _Draft, first: int, last: int) -> list[int]:
    """Stops before a further definition: "V = ...; a pair is 2 tr in one place."""
    tokens = draft.tokens
    result = []
    for i in range(first + 1, last - 2):
        if tokens[i].kind not in (Kind.STOP, Kind.SEMICOLON):
            continue
        article = tokens[i + 1].text in ("a", "an") and tokens[i + 3].text in (
            "is",
            "means",
        )
        marked = tokens[i + 2].kind in (Kind.EQUALS, Kind.COLON)
        if article or (marked and tokens[i + 1].kind is Kind.WORD):
            result.append(i)
    return result


def _comma_list(draft: _Draft, first: int, last: int) -> list[int]:
    """ "ch = chain, dc = double crochet, tr = treble": commas part the entries."""
    equals = [i for i in range(first, last) if draft.tokens[i].kind is Kind.EQUALS]
    if len(equals) < 2:
        return []
    commas = [
        i
        for i in range(first, last)
        if draft.tokens[i].kind in (Kind.COMMA, Kind.SEMICOLON)
    ]
    return [i for i in commas if any(i < e <= i + 4 for e in equals)]


def _definition(
    draft: _Draft, first: int, last: int, words: Phrases, section: Section
) -> Definition | None:
    tokens = draft.tokens[first:last]
    listed = section is Section.WORDS
    return read_definition(tokens, draft.source.text, words, listed=listed)


_YARN_WORD = re.compile(
    r"(?:\bwith|\busing|\bchange(?:\s+(?:colou?r|yarn))?\s+to|\bjoin|\bswitch\s+to|\bin|"
    r"\byarn|\bcolou?r|\bshade|\battach)\s+"
    r"(?:(?:yarn|colou?r|shade)\s+)?(?P<name>[A-Z][a-z]*(?:\s[A-Z][a-z]+)?|MC|CC\d?)\b"
)
_TABLE_LINE = re.compile(
    r"^[ \t]*(?:(?:rows?|rnds?|rounds?)[ \t]+)?\d+(?:[ \t]*[-–][ \t]*\d+)?[ \t]*[:.]?[ \t]+"
    r"(?P<name>[A-Z][a-z]+(?: [A-Z][a-z]+)?)[ \t]*$",
    re.MULTILINE | re.IGNORECASE,
)


def _yarn_names(draft: _Draft) -> frozenset[str]:
    """Names of yarns and colours, lower case, from where they are put to use or listed."""
    names: set[str] = set()
    tables = [m for m in _TABLE_LINE.finditer(draft.source.text) if m["name"][:1].isupper()]
    for found in (*_YARN_WORD.finditer(draft.source.text), *tables):
        names.update(word.lower() for word in found["name"].split())
    plain = {
        "row",
        "rnd",
        "round",
        "the",
        "ch",
        "sc",
        "dc",
        "rs",
        "ws",
        "pattern",
        "next",
        "each",
        "loop",
        "us",
        "uk",
        "sl",
        "st",
        "i",
    }
    return frozenset(name for name in names if name not in plain)


def _walk(draft: _Draft) -> None:
    """Through the lines, collecting rows and what stands outside them."""
    opened: _Open | None = None
    for number, line in enumerate(draft.lines):
        label, at = _label_at(draft, line)
        if label is not None:
            _close(draft, opened)
            draft.section = Section.ROWS
            opened = _Open(label, at, line.last, label.span.start)
        elif _goes_on(draft, opened, line):
            assert opened is not None
            opened.last = line.last
        else:
            _close(draft, opened)
            opened = _other_line(draft, line, number)
        opened = _inline_labels(draft, opened)
    _close(draft, opened)
    _end_part(draft)


def _label_at(draft: _Draft, line: _Line) -> tuple[Label | None, int]:
    """The label at the start of a line, and where its row begins."""
    cursor = _cursor(draft, line.first)
    while cursor.token.kind in (Kind.STAR, Kind.DASH) or cursor.token.text in (
        "•",
        "#",
        "|",
    ):
        cursor.step()
    own = _size_prefix(draft, cursor)
    label = read_label(cursor, draft.source.text, inline=False, steps=draft.steps)
    if label is None:
        return None, line.first
    if own is not None:
        label = replace(label, sizes=own)
    elif draft.row_sizes:
        label = replace(label, sizes=draft.row_sizes)
    return label, cursor.at


def _size_prefix(draft: _Draft, cursor: Cursor) -> tuple[str, ...] | None:
    """ "Size 3 only:", "Sizes M and L only:", "All sizes:" before a row; () for all of them."""
    start = cursor.at
    cursor.take_word("for")
    if cursor.take_phrase("all sizes") or cursor.take_phrase("every size"):
        named: tuple[str, ...] = ()
    elif cursor.take_word("size", "sizes") or _is_size(draft, cursor):
        named = _names_of_sizes(draft, cursor)
        if not named:
            cursor.at = start
            return None
    else:
        cursor.at = start
        return None
    cursor.take_word("only", "continue", "alone")
    while cursor.take_kind(Kind.COLON, Kind.DASH, Kind.COMMA, Kind.STOP):
        pass
    return named


def _is_size(draft: _Draft, cursor: Cursor) -> bool:
    """Whether a name of a size stands here alone, with "only" after it."""
    own = draft.source.text[cursor.token.start : cursor.token.end]
    return own in draft.sizes and any(cursor.peek(n).text == "only" for n in (1, 2, 3, 4))


def _names_of_sizes(draft: _Draft, cursor: Cursor) -> tuple[str, ...]:
    names = []
    by_lower = {name.lower(): name for name in draft.sizes}
    initials = {"small": "s", "medium": "m", "large": "l"}
    while True:
        word = cursor.token.text
        name = by_lower.get(word) or by_lower.get(initials.get(word, ""))
        if name is None:
            name = next((n for n in draft.sizes if initials.get(n.lower()) == word), None)
        if name is not None:
            names.append(name)
        elif word not in ("and", ",", "only"):
            return tuple(names)
        if word == "only":
            return tuple(names)
        cursor.step()


def _cursor(draft: _Draft, at: int) -> Cursor:
    return Cursor(
        draft.tokens, at, draft.own_words, max(1, len(draft.sizes)), draft.findings
    )


def _goes_on(draft: _Draft, opened: _Open | None, line: _Line) -> bool:
    """Whether an unlabelled line belongs to the row before it."""
    if opened is None:
        return False
    body = draft.tokens[opened.first : opened.last]
    empty = not any(token.kind in (Kind.WORD, Kind.NUMBER) for token in body)
    if empty:
        return (
            not is_heading(draft.tokens[line.first : line.last], line.text, marked=False)
            or not line.gap
        )
    if line.gap or _is_section(line):
        return False
    first = draft.tokens[line.first]
    own = draft.source.text[first.start : first.end]
    if _recalls(draft, line) or _is_note(line):
        return False
    if own[:1].islower() or first.kind in (Kind.STAR, Kind.NUMBER, Kind.CLOSE, Kind.DASH):
        return not (first.kind is Kind.NUMBER and _table_row(line))
    if first.kind is Kind.OPEN and not _complete(draft, opened):
        return True
    if body[-1].kind in (Kind.COMMA, Kind.SEMICOLON) or _unfinished(body):
        return True
    if _complete(draft, opened):
        return False
    return (
        _is_instruction(draft, line) or own.lower() == "total" or _closes_round(draft, line)
    )


def _closes_round(draft: _Draft, line: _Line) -> bool:
    """ "Pull the ring closed; ss in top of 4 ch": the end of a round told among other words."""
    nodes, _ = _parsed(draft, line.first, line.last)
    return any(
        isinstance(node, Join)
        or (isinstance(node, Make) and node.stitch == "sl st" and node.target)
        for node in nodes
    )


_TABLE = re.compile(r"^\s*\d+\s*(?:[-–]\s*\d+)?\s+[A-Z][a-z]+")


def _table_row(line: _Line) -> bool:
    return bool(_TABLE.match(line.text)) and len(line.text) < 60


def _unfinished(body: list[Token]) -> bool:
    """Whether a line breaks off in the middle of a phrase."""
    last = body[-1]
    opens = sum((t.kind is Kind.OPEN) - (t.kind is Kind.CLOSE) for t in body)
    return opens > 0 or last.text in (
        "in",
        "and",
        "next",
        "each",
        "the",
        "of",
        "to",
        "from",
        "st",
    )


def _is_section(line: _Line) -> bool:
    return section_of(line.text) is not None


_NOTE = re.compile(
    r"^\s*(?:note|tip|hint|nb|n\.b\.|remember|stuff|eyes|pop|optional|important)\b",
    re.IGNORECASE,
)


def _is_note(line: _Line) -> bool:
    return bool(_NOTE.match(line.text))


def _recalls(draft: _Draft, line: _Line) -> bool:
    """Whether a line of its own repeats earlier rows."""
    nodes, _ = _parsed(draft, line.first, line.last)
    return (
        bool(nodes)
        and isinstance(nodes[0], Recall)
        and not any(isinstance(node, (Make, Repeat, InOnePlace)) for node in nodes)
    )


def _complete(draft: _Draft, opened: _Open) -> bool:
    """Whether a row has come to its end: a count, the yarn cut, or a turn behind its work."""
    nodes, claims = _parsed(draft, opened.first, opened.last)
    worked = [node for node in nodes if not isinstance(node, Remark)]
    if not work_in(worked):
        return False
    return bool(claims) or isinstance(worked[-1], (FinishOff, Turn, Recall))


def _parsed(
    draft: _Draft, first: int, last: int
) -> tuple[tuple[Node, ...], tuple[Claim, ...]]:
    end = draft.tokens[last - 1].end if last > first else draft.tokens[first].start
    tokens = [*draft.tokens[first:last], Token(Kind.END, "", 0, end, end, False)]
    cursor = Cursor(tokens, 0, draft.own_words, max(1, len(draft.sizes)))
    return read_row(cursor, draft.source.text, draft.yarns)


def _is_instruction(draft: _Draft, line: _Line) -> bool:
    """Whether a line is work to be done rather than words about it."""
    nodes, claims = _parsed(draft, line.first, line.last)
    return _score(nodes) > 0


def _score(nodes: tuple[Node, ...]) -> int:
    """Instructions against remarks, in rough numbers: above 0 it is an instruction."""
    good = sum(
        2
        if isinstance(node, (Repeat, InOnePlace))
        or (isinstance(node, Make) and node.target)
        else 1
        for node in nodes
        if isinstance(node, (Make, Chain, Repeat, InOnePlace, Skip, Join, Recall, Tail))
    )
    poor = sum(isinstance(node, (Remark, Unread)) for node in nodes)
    return good - poor if good else 0


def _inline_labels(draft: _Draft, opened: _Open | None) -> _Open | None:
    """Splits a row at the labels inside its lines."""
    while opened is not None:
        cut = _next_inline(draft, opened)
        if cut is None:
            return opened
        at, label, after = cut
        _close(draft, _Open(opened.label, opened.first, at, opened.start))
        draft.section = Section.ROWS
        opened = _Open(label, after, opened.last, label.span.start)
    return opened


def _next_inline(draft: _Draft, opened: _Open) -> tuple[int, Label, int] | None:
    tokens = draft.tokens
    for i in range(opened.first + 1, opened.last):
        before = tokens[i - 1]
        starts = before.kind in (Kind.STOP, Kind.CLOSE, Kind.LINE) or (
            before.kind is Kind.COLON and False
        )
        if not starts or tokens[i].kind not in (Kind.WORD, Kind.ORDINAL):
            continue
        cursor = _cursor(draft, i)
        label = read_label(cursor, draft.source.text, inline=True)
        if label is not None:
            return i, label, cursor.at
    return None


def _close(draft: _Draft, opened: _Open | None) -> None:
    """Ends the row being collected and keeps it."""
    if opened is None:
        return
    nodes, claims = _parsed(draft, opened.first, opened.last)
    last = draft.tokens[max(opened.first, opened.last) - 1]
    span = Span(opened.start, max(opened.start, last.end))
    if opened.label is not None and _stripe_line(draft, opened, nodes):
        return
    if draft.lead is not None:
        lead, _ = _parsed(draft, *draft.lead)
        nodes = (*lead, *nodes)
        draft.lead = None
    draft.rows.append(RowText(opened.label, nodes, claims, span))


def _stripe_line(draft: _Draft, opened: _Open, nodes: tuple[Node, ...]) -> bool:
    """ "Rows 3-4: Slate" tells the colour of rows; it is not a row."""
    label = opened.label
    if label is None or work_in(nodes):
        return False
    words = [t for t in draft.tokens[opened.first : opened.last] if t.kind is not Kind.LINE]
    if not words or len(words) > 3 or not all(t.text in draft.yarns for t in words):
        return False
    name = draft.source.text[words[0].start : words[-1].end]
    draft.stripes.extend((number, name) for number in label.numbers)
    return True


_OPTIONAL = re.compile(
    r"\b(?:if you (?:like|want|wish|prefer)|optional|would be nice|is nice|not needed|"
    r"feel free|you (?:can|could|may) (?:also|add))\b",
    re.IGNORECASE,
)


def _is_lead(draft: _Draft, line: _Line) -> bool:
    """ "Miss 8 htr and join yarn in the next": where the next row begins, told before it."""
    nodes, _ = _parsed(draft, line.first, line.last)
    joins = any(
        (isinstance(node, Yarn) and node.target is not None)
        or (isinstance(node, Join) and node.target is not None)
        or (isinstance(node, Make) and node.stitch == "sl st" and node.target is not None)
        for node in nodes
    ) and not any(isinstance(node, FinishOff) for node in nodes)  # fmt: skip
    other = any(isinstance(n, (Repeat, InOnePlace, Chain)) or _is_stitch(n) for n in nodes)
    return joins and not other


def _is_stitch(node: Node) -> bool:
    return isinstance(node, Make) and node.stitch != "sl st"


def _other_line(draft: _Draft, line: _Line, number: int) -> _Open | None:
    """A line that belongs to no row: a heading, a note, or instructions without a label."""
    tokens = draft.tokens[line.first : line.last]
    alone = _size_prefix(draft, _cursor(draft, line.first)) if draft.sizes else None
    if alone is not None and len(tokens) <= 8:
        draft.row_sizes = alone
        return None
    section = section_of(line.text)
    if section is not None:
        draft.section = section
        return None
    marked = draft.source.text[max(0, line.start - 2) : line.start].strip().startswith(
        "#"
    ) or (line.text.startswith("#"))
    if is_heading(tokens, line.text, marked=marked):
        if _heads_part(draft, number):
            _begin_part(draft, line)
        return None
    if (draft.rows or draft.parts) and _is_lead(draft, line):
        draft.lead = (line.first, line.last)
        return None
    if not _OPTIONAL.search(line.text) and _unlabelled_row(draft, line):
        return _Open(None, line.first, line.last, line.start)
    return None


def _heads_part(draft: _Draft, number: int) -> bool:
    """Whether a heading is followed by rows or a foundation within a few lines."""
    for line in draft.lines[number + 1 : number + 4]:
        if section_of(line.text) is not None:
            return False
        label, _ = _label_at(draft, line)
        if label is not None:
            return True
        nodes, _ = _parsed(draft, line.first, line.last)
        if any(isinstance(node, Chain) for node in nodes[:3]):
            return True
        if is_heading(draft.tokens[line.first : line.last], line.text, marked=False):
            return False
    return False


def _begin_part(draft: _Draft, line: _Line) -> None:
    _end_part(draft)
    draft.part_name = heading_name(line.text)
    draft.part_make = make_of(line.text)
    draft.part_span = Span(line.start, line.start + len(line.text))
    draft.section = Section.ROWS


def _end_part(draft: _Draft) -> None:
    if draft.rows:
        span = draft.part_span if draft.part_name else draft.rows[0].span
        draft.parts.append(
            PartText(draft.part_name, span, tuple(draft.rows), draft.part_make)
        )
    draft.rows = []
    draft.part_name, draft.part_make = "", 1


def _unlabelled_row(draft: _Draft, line: _Line) -> bool:
    """Whether a line outside the rows holds a foundation, a row, or rows to repeat."""
    if draft.section in (Section.WORDS, Section.NOTES, Section.MATERIALS):
        if not _begins_with_chain(draft, line):
            return False
    nodes, _ = _parsed(draft, line.first, line.last)
    if any(isinstance(node, Recall) for node in nodes) and draft.rows:
        return True
    if _begins_with_chain(draft, line) or _begins_with_ring(draft, line):
        return True
    if draft.section is not Section.ROWS or not draft.rows:
        return False
    work = [node for node in nodes if isinstance(node, (Make, Repeat, InOnePlace))]
    return bool(work) and _score(nodes) > 0 and not _is_prose(draft, line, nodes)


def _is_prose(draft: _Draft, line: _Line, nodes: tuple[Node, ...]) -> bool:
    """ "A row of sc along the other three sides is nice but not needed."""
    poor = sum(isinstance(node, (Remark, Unread)) for node in nodes)
    good = sum(
        isinstance(node, (Repeat, InOnePlace, Chain))
        or (isinstance(node, Make) and node.target is not None)
        for node in nodes
    )
    chained = any(isinstance(node, Chain) for node in nodes) and good > 1
    return poor >= good and not chained


def _begins_with_ring(draft: _Draft, line: _Line) -> bool:
    nodes, _ = _parsed(draft, line.first, line.last)
    work = [node for node in nodes if not isinstance(node, (Remark, Yarn, Loops))]
    first = work[0] if work else None
    return (
        isinstance(first, Make) and first.target is not None and first.target.noun == "ring"
    )


def _begins_with_chain(draft: _Draft, line: _Line) -> bool:
    """Whether a line begins a piece with a chain, rather than saying what a chain counts as."""
    nodes, _ = _parsed(draft, line.first, line.last)
    work = [node for node in nodes if not isinstance(node, (Remark, Yarn, Loops))]
    if not work or not isinstance(work[0], Chain) or not (work[0].amount.at(0) or 0):
        return False
    if any(isinstance(node, (Repeat, InOnePlace)) or _is_placed(node) for node in work):
        return True
    told = statements_in(draft.tokens[line.first : line.last])
    return not any(statement.topic is Topic.TURNING_CHAIN for statement in told)


def _is_placed(node: Node) -> bool:
    return isinstance(node, Make) and node.target is not None


_MULTIPLE = re.compile(
    r"(?:multiples?\s+of|factor\s+of|count)\s+(?P<each>\d+)[^+\n.\d]{0,24}?"
    r"(?:\+|plus)\s*(?P<extra>\d+)(?P<unit>\s*(?:sts?|stitches))?",
    re.IGNORECASE,
)


def _multiples(source: Source) -> tuple[Multiple, ...]:
    return tuple(
        Multiple(
            int(m["each"][:9]),
            int(m["extra"][:9]),
            Span(m.start(), m.end()),
            bool(m["unit"]),
        )
        for m in _MULTIPLE.finditer(source.text)
    )


def _pattern(draft: _Draft, definitions: list[Definition]) -> Pattern:
    terms, said, _ = terms_of(draft.tokens)
    if not said and terms == "US" and not _has_us_words(draft):
        terms = (
            terms_by_height(row.body for part in draft.parts for row in part.rows) or terms
        )
    return Pattern(
        tuple(draft.parts), tuple(_statements(draft)), tuple(definitions), terms, said,
        draft.sizes, _multiples(draft.source), tuple(draft.stripes), foundation_hint=_foundation_hint(draft),
    )  # fmt: skip


def _has_us_words(draft: _Draft) -> bool:
    words = {token.text for token in draft.tokens}
    return bool(words & {"sc", "hdc", "esc", "scblo", "sc2tog", "fpsc"})


def _statements(draft: _Draft) -> list[Statement]:
    """Conventions told outside the rows, and in brackets inside them."""
    rows = sorted(
        (row.span.start, row.span.end)
        for part in draft.parts for row in part.rows if row.label is not None or row.claims
    )  # fmt: skip
    result: list[Statement] = []
    outside: list[Token] = []
    bracket: list[Token] = []
    depth = 0
    for token in draft.tokens:
        if not _inside_row(rows, token.span):
            outside.append(token)
            continue
        if outside and outside[-1].kind is not Kind.STOP:
            outside.append(Token(Kind.STOP, ".", 0, token.start, token.start, False))
        if token.kind is Kind.OPEN:
            depth += 1
        elif token.kind is Kind.CLOSE and depth:
            depth -= 1
            if not depth:
                result.extend(s for s in statements_in(bracket) if _lasts(s, bracket))
                bracket = []
        elif depth:
            bracket.append(token)
    result.extend(statements_in(outside))
    return sorted(result, key=lambda statement: statement.span)


_LASTING = frozenset(
    "throughout always never all here later every each rows through now whole".split()
)


def _lasts(statement: Statement, tokens: list[Token]) -> bool:
    """Whether a remark in a row speaks of more than this row."""
    return bool({token.text for token in tokens} & _LASTING) or statement.topic in (
        Topic.STITCH_BEHIND,
        Topic.SPIRAL,
    )


_HINT = re.compile(
    r"\b(?:chain(?:ed)?|ch)\s+(?P<a>\d{1,5})\b(?!\s*(?:sp|loop|from))|\b(?P<b>\d{1,5})\s*(?:ch|chains?)\b"
    r"(?!\s*(?:sp|loop|from))|=\s*(?P<c>\d{1,5})\b",
    re.IGNORECASE,
)


# "Ch a multiple of 3 plus 2; the sample used 38."
_USED = re.compile(
    r"multiple[^\n]*?\b(?:used|is|has|for|takes|with)\s+(\d{2,5})\b", re.IGNORECASE
)


def _foundation_hint(draft: _Draft) -> Amount | None:
    """The last chain told before the first row, for a text that gives only a multiple."""
    first = next((row for part in draft.parts for row in part.rows if row.label), None)
    before = draft.source.text[: first.span.start] if first else ""
    found = None
    for found in _HINT.finditer(before):
        pass
    if found is None:
        found = next(iter(_USED.finditer(before)), None)
        if found is None:
            return None
    digits = next(group for group in found.groups() if group)
    return Amount((int(digits),), Span(found.start(), found.end()))


def _inside_row(rows: list[tuple[int, int]], span: Span) -> bool:
    """Whether a sentence lies inside a row, where its words were read already."""
    i = bisect_left(rows, (span.start, span.end))
    return i > 0 and rows[i - 1][1] >= span.end and rows[i - 1][0] <= span.start
