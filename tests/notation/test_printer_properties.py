"""Any pattern that can be read can be printed, and the print reads back to the same tree.

The trees are drawn here without any text, so the printer has no words to lean on. They are
such as the reader makes of a careful text; what it never makes is left out, and said.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TypeVar

from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st
from hypothesis.strategies import DrawFn, SearchStrategy
from msgspec.structs import replace

from hookwright.notation import parse_text
from hookwright.notation.printing import bare, print_pattern, print_row, translate_row
from hookwright.notation.tree import (
    Amount,
    Chain,
    Claim,
    Definition,
    Figure,
    FinishOff,
    InOnePlace,
    Join,
    Label,
    Loops,
    Make,
    Means,
    Multiple,
    Node,
    Often,
    PartText,
    Pattern,
    Recall,
    Repeat,
    Role,
    RowText,
    Skip,
    Statement,
    Tail,
    Target,
    Times,
    Topic,
    Turn,
    Which,
    Yarn,
)
from hookwright.source import Span

Item = TypeVar("Item")

NOWHERE = Span(0, 0)
ENDS = (Which.FIRST, Which.LAST)
PLAIN = ("sc", "hdc", "dc", "htr", "tr", "dtr", "trtr", "esc", "edc")
NAMED = (
    "ehdc", "etr", "ldc", "ltr", "spike sc", "spike dc", "rsc", "loop st", "hhdc",
    "linked dc", "inc", "cluster", "bobble", "popcorn", "puff", "bean st", "shell", "v-st",
    "picot", "fsc", "fhdc", "fdc", "ftr", "sl st",
)  # fmt: skip
NOUNS = (
    "st",
    "sc",
    "dc",
    "tr",
    "shell",
    "v-st",
    "cluster",
    "dc2tog",
    "fpdc",
    "group",
    "ch",
)
GROUPS = ("shell", "v-st", "group", "cluster")
# Yarns A and MC are left out: "With A" is read as "with a", "with MC" as a magic circle.
YARNS = ("B", "C", "Kelp", "Shingle")
SIZES = ("S", "M", "L")

THOROUGH = settings(max_examples=60, suppress_health_check=[HealthCheck.filter_too_much])


def single(number: int) -> Amount:
    return Amount((number,), NOWHERE)


def amounts(low: int = 1, high: int = 400, sizes: int = 1) -> SearchStrategy[Amount]:
    one = st.integers(low, high).map(single)
    if sizes == 1:
        return one
    listed = st.lists(st.integers(low, high), min_size=sizes, max_size=sizes)
    return one | listed.map(lambda values: Amount(tuple(values), NOWHERE))


def chosen(*values: Item) -> SearchStrategy[Item]:
    return st.sampled_from(values)


def maybe(strategy: SearchStrategy[Item]) -> SearchStrategy[Item | None]:
    return st.none() | strategy


def some(strategy: SearchStrategy[Item], most: int = 4) -> SearchStrategy[tuple[Item, ...]]:
    return st.lists(strategy, min_size=1, max_size=most).map(tuple)


def target(noun: str, which: Which = Which.NEXT) -> Target:
    return Target(noun, which, NOWHERE)


@st.composite
def places_along(draw: DrawFn, sizes: int = 1) -> Target:
    """ "next 4 sts", "first dc", "last 2 shells", "each of next 3 ch"."""
    which = draw(chosen(Which.NEXT, Which.EACH, *ENDS))
    amount = draw(maybe(amounts(2, sizes=sizes)))
    return replace(target(draw(chosen(*NOUNS)), which), amount=amount)


@st.composite
def single_places(draw: DrawFn) -> Target:
    """ "next st", "same dc", "any ch-2 sp"."""
    noun = draw(chosen(*NOUNS, "sp"))
    which = draw(chosen(Which.NEXT, Which.SAME, Which.ANY, Which.SKIPPED, *ENDS))
    chains = draw(maybe(st.integers(1, 9))) if noun == "sp" else None
    return replace(target(noun, which), chains=chains)


@st.composite
def all_places(draw: DrawFn) -> Target:
    """ "each st", "each dc and ch-1 sp to last 2 sts", "each st except last st"."""
    each = target(draw(chosen(*NOUNS)), Which.EACH)
    ending = draw(chosen("", "also", "until", "left out"))
    if ending == "left out":
        return replace(each, left_out=draw(st.integers(1, 9)))
    if ending and draw(st.booleans()):
        space = replace(target("sp", Which.EACH), chains=draw(maybe(st.integers(1, 9))))
        each = replace(each, also=(space,))
    last = replace(target(draw(chosen(*NOUNS)), Which.LAST), amount=draw(maybe(amounts(2))))
    until = draw(chosen(target("tch"), last))
    return replace(each, until=until) if ending == "until" else each


@st.composite
def parts_of_groups(draw: DrawFn) -> Target:
    """ "3rd dc of next shell", "center st of last group", "ch-1 sp of next V-st"."""
    group = target(draw(chosen(*GROUPS)), draw(chosen(Which.NEXT, *ENDS)))
    noun = draw(chosen("st", "dc", "tr", "sp"))
    if noun == "sp":
        chains = draw(maybe(st.integers(1, 9)))
        return replace(target("sp"), chains=chains, of=group)
    which = draw(chosen(Which.CENTRE, Which.NTH, *ENDS))
    nth = draw(st.integers(2, 9)) if which is Which.NTH else None
    return replace(target(noun, which), ordinal=nth, of=group)


@st.composite
def gaps(draw: DrawFn) -> Target:
    """ "between next 2 dc", "gap before first group", "each gap between next dc"."""
    of = target(draw(chosen("dc", "group", "shell")))
    kind = draw(chosen("between", "beside", "each", "plain"))
    if kind == "between":
        which = draw(chosen(Which.NEXT, *ENDS))
        return replace(
            target("gap", which), of=replace(of, which=which, amount=draw(amounts(2, 9)))
        )
    if kind == "beside":
        first, last = ENDS
        which, beside = draw(
            chosen((first, first), (Which.NEXT, first), (first, last), (last, last))
        )
        return replace(target("gap", which), of=replace(of, which=beside))
    if kind == "each":
        return replace(target("gap", Which.EACH), of=of, amount=draw(maybe(amounts(2, 20))))
    return target("gap", draw(chosen(Which.NEXT, Which.EACH, *ENDS)))


@st.composite
def beginnings(draw: DrawFn) -> Target:
    """ "tch", "top of beg ch-3", "3rd ch of beg ch-5", "4th ch from hook", "in ring"."""
    kind = draw(chosen("top", "nth", "hook", "ring", "base"))
    if kind == "top":
        return replace(target("tch"), chains=draw(maybe(st.integers(1, 9))))
    if kind == "nth":
        ordinal, chains = draw(st.integers(1, 6)), draw(maybe(st.integers(2, 9)))
        return replace(target("tch", Which.NTH), ordinal=ordinal, chains=chains)
    if kind == "hook":
        ordinal = draw(st.integers(1, 12))
        return replace(target("ch", Which.NTH), ordinal=ordinal, from_hook=True)
    return target(kind, Which.SAME)


@st.composite
def places_below(draw: DrawFn) -> Target:
    """ "st 2 rows below next dc"; for first and last the reader keeps no noun but st."""
    which = draw(chosen(Which.NEXT, Which.EACH, *ENDS))
    noun = draw(chosen(*NOUNS)) if which not in ENDS else "st"
    return replace(target(noun, which), rows_below=draw(st.integers(1, 4)))


def places(sizes: int = 1) -> SearchStrategy[Target]:
    return st.one_of(
        places_along(sizes), single_places(), all_places(), parts_of_groups(), gaps(),
        beginnings(), places_below(), chosen(target("row end", Which.EACH)),
    )  # fmt: skip


@st.composite
def stitches(draw: DrawFn) -> Make:
    """A bare stitch: of the trade, around a post, several drawn together, in one loop."""
    kind = draw(chosen("plain", "named", "post", "together", "dec"))
    loop = draw(chosen("", "", "back", "front", "third"))
    base = draw(chosen(*PLAIN))
    if kind == "post":
        post = draw(chosen("front", "back"))
        return Make(f"{post[0]}p{base}", NOWHERE, post=post)
    if kind == "together":
        legs = draw(st.integers(2, 9))
        return Make(f"{base}{legs}tog", NOWHERE, loop=loop, legs=legs)
    if kind == "dec":
        return Make("dec", NOWHERE, loop=loop, legs=2)
    return Make(base if kind == "plain" else draw(chosen(*NAMED)), NOWHERE, loop=loop)


@st.composite
def makes(draw: DrawFn, sizes: int = 1) -> Make:
    amount, place = draw(maybe(amounts(1, 60, sizes))), draw(maybe(places(sizes)))
    return replace(draw(stitches()), amount=amount, target=place)


@st.composite
def groups_in_one_place(draw: DrawFn) -> InOnePlace:
    bare_stitches = st.builds(
        lambda make, amount: replace(make, amount=amount), stitches(), maybe(amounts(1, 60))
    )
    body = draw(st.lists(bare_stitches | chains(), min_size=2, max_size=4))
    assume(any(isinstance(node, Make) for node in body))
    place = draw(single_places() | parts_of_groups() | gaps() | beginnings())
    return InOnePlace(tuple(body), place, NOWHERE)


def chains(sizes: int = 1) -> SearchStrategy[Chain]:
    return amounts(1, 200, sizes).map(lambda amount: Chain(amount, NOWHERE))


@st.composite
def beginning_chains(draw: DrawFn) -> Chain:
    chain = Chain(draw(amounts(1, 9)), NOWHERE, draw(st.sampled_from(Role)))
    if chain.role is not Role.COUNTS:
        return chain
    stands, more = draw(chosen("st", "dc", "tr", "hdc")), draw(st.integers(0, 3))
    return replace(chain, stands=stands, stands_chains=more)


@st.composite
def skips(draw: DrawFn) -> Skip:
    return Skip(draw(places_along() | single_places()), NOWHERE)


def work(sizes: int = 1) -> SearchStrategy[Node]:
    return st.one_of(makes(sizes), chains(sizes), skips(), groups_in_one_place())


@st.composite
def times(draw: DrawFn, sizes: int = 1) -> Times:
    often = draw(st.sampled_from(Often))
    if often is Often.ACROSS:
        return Times(often, NOWHERE)
    if often is Often.TO_LAST:
        noun = draw(chosen("st", "sp", "ch", "dc", "shell", "group", "tch"))
        amount = single(1) if noun == "tch" else draw(amounts(1, 30))
        return Times(often, NOWHERE, amount, noun)
    noun = draw(chosen("st", "in all")) if often is Often.TIMES else "st"
    return Times(often, NOWHERE, draw(amounts(1, 30, sizes)), noun)


def is_unclear(often: Times) -> bool:
    return often.often is Often.UNCLEAR


def is_pair_of_stars(node: Node) -> bool:
    """Whether a group stands between two stars: "*A* 3 times"."""
    return (
        isinstance(node, Repeat) and node.mark == "*" and node.split is None
        and node.times.often is Often.TIMES and node.times.noun == "st"
    )  # fmt: skip


@st.composite
def bracketed(draw: DrawFn, sizes: int = 1) -> Repeat:
    often = draw(times(sizes).filter(lambda often: not is_unclear(often)))
    return Repeat(draw(some(work(sizes))), often, NOWHERE, mark="(")


@st.composite
def starred(draw: DrawFn, sizes: int = 1) -> Repeat:
    """A group from its star, perhaps with a bracket in it, or with a group inside it."""
    body: tuple[Node, ...] = draw(some(work(sizes) | bracketed(sizes)))
    outer = Repeat(body, draw(times(sizes)), NOWHERE)
    if is_pair_of_stars(outer) or draw(st.booleans()):
        return outer
    inner = Repeat(draw(some(work(sizes))), draw(times(sizes)), NOWHERE)
    assume(not is_pair_of_stars(inner))
    return replace(outer, body=(*body, inner, *draw(some(work(sizes), 2))))


@st.composite
def stopped_early(draw: DrawFn) -> Repeat:
    """ "*A**, B; rep from * across, ending last rep at **"."""
    first, rest = draw(some(work())), draw(some(work()))
    often = draw(times().filter(lambda often: often.often in (Often.ACROSS, Often.MORE)))
    return Repeat((*first, *rest), often, NOWHERE, split=len(first))


@st.composite
def repeats_with_tail(draw: DrawFn) -> tuple[Node, ...]:
    replaces = draw(chosen(None, True))  # noqa: FBT003 (what a tail may say of itself)
    tail = Tail(draw(some(work(), 3)), NOWHERE, replaces)
    return draw(starred()), tail


def stretches(sizes: int = 1) -> SearchStrategy[tuple[Node, ...]]:
    """Instructions that stand together."""
    alone = st.one_of(work(sizes), starred(sizes), bracketed(sizes), stopped_early())
    return alone.map(lambda node: (node,)) | repeats_with_tail()


@st.composite
def joins(draw: DrawFn) -> Join:
    place = draw(maybe(single_places() | beginnings()))
    return Join(NOWHERE, place, draw(chosen("sl st", "hdc", "dc")))


@st.composite
def bodies(draw: DrawFn, sizes: int = 1) -> tuple[Node, ...]:
    start = draw(st.lists(chosen(*YARNS).map(lambda name: Yarn(name, NOWHERE)), max_size=1))
    loops = chosen("back", "front", "third", "").map(lambda loop: Loops(loop, NOWHERE))
    middle: list[Node] = [*draw(st.lists(loops, max_size=1))]
    middle += draw(st.lists(beginning_chains(), max_size=1))
    middle += [node for stretch in draw(some(stretches(sizes))) for node in stretch]
    last: list[Node] = [Turn(NOWHERE), Turn(NOWHERE, turned=False), FinishOff(NOWHERE)]
    ends = st.sampled_from(last) | joins()
    body: tuple[Node, ...] = (*start, *middle, *draw(st.lists(ends, max_size=1)))
    assume(reads_as_meant(body))
    return body


def reads_as_meant(body: Sequence[Node]) -> bool:
    """Whether no limit of the reader stands in the way.

    A pair of stars is told by an odd star, so it cannot follow one "rep from"; a bracket
    with "first" in it, right behind a chain, reads as what the chain stands for; "5 sc" where
    nothing is left to work into is a count.
    """
    stars = 0
    before: Node | None = None
    for node in body:
        if is_pair_of_stars(node) and stars % 2:
            return False
        if isinstance(before, (Chain, Skip, Make)) and _explains(node):
            return False
        if _uses_the_row(before) and isinstance(node, Make):
            return False
        if isinstance(node, (Repeat, InOnePlace, Tail)) and not reads_as_meant(node.body):
            return False
        stars += stars_of(node)
        before = node
    return True


def _uses_the_row(node: Node | None) -> bool:
    return (
        isinstance(node, Make)
        and node.target is not None
        and node.target.which is Which.EACH
    )


def _explains(node: Node) -> bool:
    return isinstance(node, Repeat) and node.mark == "(" and repr(Which.FIRST) in repr(node)


def stars_of(node: Node) -> int:
    if not isinstance(node, Repeat) or node.mark != "*":
        return 0
    own = 2 if is_pair_of_stars(node) or node.split is not None else 1
    return own + sum(stars_of(inner) for inner in node.body)


def is_counted(nodes: Iterable[Node]) -> bool:
    """Whether there is anything to count: the reader takes no count for a row of chains."""
    return any(
        is_counted(node.body) if isinstance(node, Repeat) and node.mark == "*"
        else isinstance(node, (Make, InOnePlace, Repeat, Tail))
        for node in nodes
    )  # fmt: skip


@st.composite
def claims(draw: DrawFn, sizes: int = 1) -> tuple[Claim, ...]:
    units = chosen("st", "sc", "dc", "shell", "group", "sp")
    figures = st.builds(Figure, amounts(sizes=sizes), units)
    return (Claim(draw(some(figures, 3)), NOWHERE),) if draw(st.booleans()) else ()


@st.composite
def rows(draw: DrawFn, number: int = 1, sizes: int = 1) -> RowText:
    sides, many = draw(chosen("", "RS", "WS")), draw(st.integers(1, 4))
    numbers = tuple(range(number, number + many))
    rounds = draw(st.booleans())
    label = Label("", numbers, NOWHERE, rounds, side=sides, ranged=many > 1)
    body = draw(bodies(sizes))
    return RowText(label, body, draw(claims(sizes)) if is_counted(body) else (), NOWHERE)


@st.composite
def recalls(draw: DrawFn) -> Recall:
    number, many = draw(st.integers(1, 30)), draw(st.integers(1, 5))
    numbers = tuple(range(number, number + many))
    back = tuple(range(-many, 0))
    kind = draw(chosen("times", "then", "length", "forms", "part"))
    recall = Recall(draw(chosen(numbers, back)), NOWHERE)
    if kind == "times":
        often = draw(chosen(Often.TIMES, Often.MORE))
        return replace(recall, times=Times(often, NOWHERE, draw(amounts(1, 40))))
    if kind == "then":
        return replace(recall, then=numbers)
    if kind == "length":
        return replace(recall, open_length="until piece measures 40 cm")
    if kind == "forms":
        return Recall(numbers, NOWHERE, forms_pattern=True)
    return Recall((), NOWHERE, part="first wing")


def as_row(node: Node) -> RowText:
    return RowText(Label("", (1,), NOWHERE), (node,), (), NOWHERE)


def read_back(text: str) -> RowText:
    """The only row of a text."""
    rows_read = [row for part in parse_text(text).pattern.parts for row in part.rows]
    assert len(rows_read) == 1, text
    return rows_read[0]


def assert_reads_back(row: RowText) -> None:
    text = print_row(row)
    assert bare(read_back(text)) == bare(row), text


@given(work() | joins() | recalls())
@settings(THOROUGH, max_examples=250)
def test_one_instruction_reads_back(node: Node) -> None:
    assert_reads_back(as_row(node))


@given(rows())
@THOROUGH
def test_a_row_reads_back(row: RowText) -> None:
    assert_reads_back(row)


@given(st.integers(1, 9), chosen("dc", "tr", "st"), st.integers(0, 3))
@THOROUGH
def test_chains_skipped_at_the_hook_keep_their_meaning(
    stitches_said: int, stands: str, more: int
) -> None:
    hook = replace(target("ch", Which.NTH), ordinal=4, from_hook=True)
    means = Means(NOWHERE, Role.COUNTS, stands, more, stitches_said)
    body = (Make("dc", NOWHERE, target=hook), means)
    assert_reads_back(RowText(Label("", (1,), NOWHERE), body, (), NOWHERE))


@st.composite
def definitions(draw: DrawFn) -> Definition:
    """A stitch of the pattern's own: what is made in one place, or drawn together."""
    name = draw(chosen("gull", "wing", "tall gull", "crest"))
    if draw(st.booleans()):
        passes = draw(st.integers(2, 9))
        words = f"a cluster, {passes} sts worked together"
        return Definition((name,), NOWHERE, passes=passes, stitch="together", words=words)
    simple = st.builds(
        lambda stitch, amount: Make(stitch, NOWHERE, amount), chosen(*PLAIN), amounts(1, 9)
    )
    body = draw(some(simple, 3))
    heads = sum(make.amount.at(0) or 0 for make in body if make.amount)
    return Definition((name,), NOWHERE, body, 1, heads, in_one_place=True)


@st.composite
def statements(draw: DrawFn) -> Statement:
    topic = draw(chosen(Topic.TURNING_CHAIN, Topic.SPACES, Topic.NO_TURN, Topic.SPIRAL))
    if topic is Topic.TURNING_CHAIN:
        holds, chain = draw(st.booleans()), draw(maybe(st.integers(2, 6)))
        word = draw(chosen("dc", "tr", "st")) if holds else ""
        return Statement(topic, holds, NOWHERE, chain, word)
    return Statement(topic, draw(st.booleans()) if topic is Topic.SPACES else True, NOWHERE)


@st.composite
def patterns(draw: DrawFn) -> Pattern:
    """A pattern in one size or in three, with parts that begin with a chain."""
    names = draw(chosen((), SIZES))
    sizes = max(1, len(names))
    parts = [
        PartText(name, NOWHERE, draw(part_rows(sizes)), draw(chosen(1, 1, 2)))
        for name in draw(chosen(("Body",), ("Left wing", "Right wing", "Tail")))
    ]
    multiple = Multiple(draw(st.integers(2, 30)), draw(st.integers(1, 9)), NOWHERE)
    return Pattern(
        tuple(parts),
        tuple(draw(st.lists(statements(), max_size=2, unique=True))),
        tuple(draw(st.lists(definitions(), max_size=2, unique_by=lambda d: d.names))),
        draw(chosen("US", "UK")),
        terms_said=True,
        sizes=names,
        multiples=draw(chosen((), (multiple,))),
    )


@st.composite
def part_rows(draw: DrawFn, sizes: int) -> tuple[RowText, ...]:
    foundation = RowText(None, (draw(chains(sizes)),), (), NOWHERE)
    first, then = draw(rows(1, sizes)), draw(rows(11, sizes))
    recall = as_row(draw(recalls()))
    return (foundation, first, then, replace(recall, label=Label("", (21,), NOWHERE)))


@given(patterns())
@settings(THOROUGH, max_examples=15)
def test_a_whole_pattern_reads_back(pattern: Pattern) -> None:
    text = print_pattern(pattern)
    read = parse_text(text).pattern
    assert bare(replace(read, foundation_hint=None)) == bare(pattern), text


@given(rows())
@settings(THOROUGH, max_examples=100)
def test_there_and_back_in_the_other_terms_is_the_same_row(row: RowText) -> None:
    # A word foreign to the terms has no translation, so the row is first made a US one.
    us = translate_row(row, "US")
    assert translate_row(translate_row(us, "UK"), "US") == us
