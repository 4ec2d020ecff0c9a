"""What a written pattern says, as a tree of values with a span on every node.

The tree keeps the words of the designer apart from what they come to: a stitch is named
as it is written ("dc" in either terms), a number may be a list with one value a size, and
what could not be read is there as well, at its place.
"""

from __future__ import annotations

from enum import StrEnum

from msgspec import Struct, field

from hookwright.source import Span


class Amount(Struct, frozen=True, cache_hash=True):
    """A number in the text, or a list with one number a size.

    Attributes:
        values: One value, or one a size; None where a size has none (a dash).
        span: The digits or words.
    """

    values: tuple[int | None, ...]
    span: Span

    def at(self, size: int) -> int | None:
        """The number for a size. A list that is too short has none for the last sizes."""
        if len(self.values) == 1:
            return self.values[0]
        return self.values[size] if size < len(self.values) else None

    def __str__(self) -> str:
        first, *others = ("-" if value is None else str(value) for value in self.values)
        return f"{first} ({', '.join(others)})" if others else first


class Which(StrEnum):
    """Which of the places of a kind is meant."""

    NEXT = "next"
    FIRST = "first"
    LAST = "last"
    EACH = "each"
    SAME = "same"
    CENTRE = "centre"
    NTH = "nth"
    SKIPPED = "skipped"
    ANY = "any"
    BEHIND = "behind"


MIDDLE = "middle"
"""The noun of the middle of a row, where no stitch or space is named there."""


class Target(Struct, frozen=True, cache_hash=True):
    """Where a stitch is worked.

    Attributes:
        noun: What is worked into: "st" for any stitch, a stitch's name, "ch", "sp", "gap",
            "tch" (a turning or beginning chain), "base", "ring", "row end", "underside",
            "corner", "here", "made" (the stitch just made), "middle" (where "each" ends).
        which: Which of them.
        amount: How many of them ("next 4 sts"); None for one, or all where `which` is EACH.
        chains: The chains of a space or of a turning chain, if named ("ch-2 sp").
        ordinal: Counted from the hook or within a group ("4th ch from hook", "3rd dc of").
        ordinals: Those of each size, where they differ ("the 6th (7th, 8th) dc").
        from_hook: Whether the ordinal counts chains from the hook.
        loop: The part of the place: "", "front", "back", "third".
        rows_below: How many rows below the working edge; 0 for the edge itself.
        row: The number of the row it belongs to, where that is named ("dc of Rnd 1").
        of: The thing it is part of ("centre dc of next shell").
        also: Other kinds taken as well ("each dc and each ch-1 sp").
        until: Where "each" stops ("to the last st").
        left_out: How many of the last ones "each" leaves ("except the last").
        last: Whether "each" is said of the last so many ("each of the last 3 sts").
        alone: Whether a stitch outside the groups is meant ("the single dc after it").
        begun: Whether the first of them is the place the row has begun in ("in the sp").
        evenly: Whether they are as many as lie flat ("sc evenly around").
    """

    noun: str
    which: Which
    span: Span
    amount: Amount | None = None
    chains: int | None = None
    ordinal: int | None = None
    from_hook: bool = False
    loop: str = ""
    rows_below: int = 0
    row: int = 0
    of: Target | None = None
    also: tuple[Target, ...] = ()
    until: Target | None = None
    left_out: int = 0
    alone: bool = False
    last: bool = False
    begun: bool = False
    evenly: bool = False
    ordinals: Amount | None = None

    def nth(self, size: int) -> int:
        """Which one it is in a size, counted from 1."""
        own = self.ordinals.at(size) if self.ordinals is not None else self.ordinal
        return own or 1


class Make(Struct, frozen=True, cache_hash=True):
    """Stitches of one kind: "3 dc in next st", "sc in next 4 sts", "sc 5", "dc across".

    Attributes:
        stitch: The stitch, as the pattern names it.
        amount: The number before or after the stitch; None where there is none.
        target: Where; None for a bare stitch, worked in the next place.
        loop: The part of the place, where the stitch says it ("scblo"); "layers" where
            work that lies double is worked through.
        legs: How many places are drawn together ("dc3tog"); 1 for a plain stitch.
        post: "front" or "back" for a post stitch.
        if_left: Whether it is worked only where a place is left for it.
    """

    stitch: str
    span: Span
    amount: Amount | None = None
    target: Target | None = None
    loop: str = ""
    legs: int = 1
    post: str = ""
    if_left: bool = False


class Role(StrEnum):
    """What a chain stands for."""

    UNSAID = "unsaid"
    COUNTS = "counts"
    COUNTS_NOT = "counts not"


class Chain(Struct, frozen=True, cache_hash=True):
    """Chains made.

    Attributes:
        amount: How many.
        role: Whether the text says at this place that they count as a stitch.
        stands: The stitch they are said to stand for.
        stands_chains: The chains beyond that stitch: "counts as dc and ch 1" has 1.
    """

    amount: Amount
    span: Span
    role: Role = Role.UNSAID
    stands: str = ""
    stands_chains: int = 0


class Means(Struct, frozen=True, cache_hash=True):
    """What the chains skipped at the hook, or a chain before it, are said to stand for.

    Attributes:
        role: Whether they count.
        stands: The stitch they stand for.
        stands_chains: The chains beyond that stitch.
        stitches: How many stitches they are said to count as.
    """

    span: Span
    role: Role
    stands: str = ""
    stands_chains: int = 0
    stitches: int = 1


class Skip(Struct, frozen=True, cache_hash=True):
    """Places passed over by word.

    Attributes:
        target: Which places.
        left: Whether they are left for later ("leaving 12 sts unworked").
    """

    target: Target
    span: Span
    left: bool = False


class InOnePlace(Struct, frozen=True, cache_hash=True):
    """A list worked in one place: "(2 dc, ch 2, 2 dc) in next sp"."""

    body: tuple[Node, ...]
    target: Target
    span: Span
    name: str = ""


class Often(StrEnum):
    """How the end of a repeat is told."""

    TIMES = "times"
    MORE = "more times"
    UNCLEAR = "times, in all or more"
    ACROSS = "across"
    TO_LAST = "to last"


class Times(Struct, frozen=True, cache_hash=True):
    """How often a group is worked.

    Attributes:
        often: How its end is told.
        span: The words that tell it.
        amount: The number, for TIMES, MORE, UNCLEAR and TO_LAST.
        noun: What TO_LAST counts: "st", "ch", "sp" or a stitch; "corner" where ACROSS ends
            at the next corner.
        until: The place where ACROSS ends, which it does not take: "to next ch-2 sp".
    """

    often: Often
    span: Span
    amount: Amount | None = None
    noun: str = "st"
    until: Target | None = None


class Repeat(Struct, frozen=True, cache_hash=True):
    """A group worked over and over.

    Attributes:
        body: The group.
        times: How often.
        split: Where the last working stops, as an index into the body ("ending at **").
        mark: The mark it is known by: "*", "**", "(" or "[".
    """

    body: tuple[Node, ...]
    times: Times
    span: Span
    split: int | None = None
    mark: str = "*"


class Tail(Struct, frozen=True, cache_hash=True):
    """What "ending ..." says of the last working of the repeat before it.

    Attributes:
        body: The words after "ending".
        replaces: True where the text says it takes the place of the repeat's own end, False
            where it follows it, None where only the count can tell.
        dropped: How many of the repeat's last instructions it says are left out.
    """

    body: tuple[Node, ...]
    span: Span
    replaces: bool | None = None
    dropped: int = 0


class Turn(Struct, frozen=True, cache_hash=True):
    """The work is turned, or expressly not."""

    span: Span
    turned: bool = True


class Join(Struct, frozen=True, cache_hash=True):
    """The end is joined, with a slip stitch or another stitch, to a place.

    Attributes:
        target: Where; None where it is not said.
        stitch: What joins: "sl st", or a stitch that makes the last half of a loop.
        to_ring: Whether a chain is closed into a ring.
    """

    span: Span
    target: Target | None = None
    stitch: str = "sl st"
    to_ring: bool = False


class Yarn(Struct, frozen=True, cache_hash=True):
    """The yarn in use from here on.

    Attributes:
        name: Its name or letter; "" where a yarn is only cut.
        target: Where it is joined, if said.
        standing: The stitch it begins with, if said.
    """

    name: str
    span: Span
    target: Target | None = None
    standing: str = ""


class FinishOff(Struct, frozen=True, cache_hash=True):
    """The yarn is cut."""

    span: Span


class Loops(Struct, frozen=True, cache_hash=True):
    """Stitches from here on go under one loop only.

    Attributes:
        loop: "front", "back" or "third"; "" for both again.
        row: The row whose loops they are, where that is not the last one.
    """

    loop: str
    span: Span
    row: int = 0


class Recall(Struct, frozen=True, cache_hash=True):
    """Other rows worked again: "Rep Row 2", "as Row 3, in B".

    Attributes:
        rows: The numbers recalled, in order; negative ones count back from here (-1 is the
            row before). Empty where a row is recalled by a name without a number.
        label: The name of a row recalled by name: "hem row", of "Hem Row 2".
        times: How often the whole set is worked; None for once through, or as many rows as
            the label stands for.
        then: Rows worked once after that ("then row 2 once").
        open_length: The words of a length or wish: "until piece measures 40 in".
        forms_pattern: Whether the text only says that the rows form the pattern.
        up_to: The number of the last row that they are worked as; None where none is told.
        part: The name of the part they belong to, where that is another.
        ends: The last of them in each size, where sizes differ.
        more: For how many rows they are worked, in turn from where they stand.
        pattern: Whether they are the rows that "form the pattern", and not named.
        reached: How many stitches there are behind the last: "until you have 61 dc".
        onward: Whether the numbers of the last rows go on: "continue like this".
        of_kind: Whether so many rows of a name are worked: "work 3 plain rnds".
    """

    rows: tuple[int, ...]
    span: Span
    label: str = ""
    times: Times | None = None
    then: tuple[int, ...] = ()
    open_length: str = ""
    forms_pattern: bool = False
    up_to: Amount | None = None
    part: str = ""
    ends: Amount | None = None
    more: Amount | None = None
    pattern: bool = False
    reached: Figure | None = None
    onward: bool = False
    of_kind: bool = False


class Instead(Struct, frozen=True, cache_hash=True):
    """What a row that is another row again does otherwise: "with 2 repeats in place of 3".

    Attributes:
        times: How often its repeat is worked; None where that stays.
        was: How often it is worked in the other row, if said.
        body: What is worked in place of the like instruction.
        of: The instructions it takes the place of, if they are said.
        more: By how many the longest run grows, or shrinks if below 0; of the stitch that
            the body names, or of any.
        length: How long that run is now, where this is told; 0 where it is not.
        each: Whether it grows so again in every row that recalls the other one.
        begins: Whether it is what the row starts with.
    """

    span: Span
    times: Amount | None = None
    was: Amount | None = None
    body: tuple[Node, ...] = ()
    of: tuple[Node, ...] = ()
    more: int = 0
    each: bool = False
    begins: bool = False
    length: int = 0


class Remark(Struct, frozen=True, cache_hash=True):
    """Words that are not an instruction: a comment, a hint, where the eyes go.

    Attributes:
        words: What they are.
        unread: Whether nobody knew what they say: that they are none is only taken so.
    """

    span: Span
    words: str = ""
    unread: bool = False


DEEPEST = 60
"""So deep brackets and repeats may stand in one another."""
TOO_DEEP = "fewer brackets and repeats in one another"
"""What is meant by words that stand deeper in one another than anybody writes."""

TOO_LONG = "a number of nine digits or fewer"
"""What is meant by a number too long to be one: it is told where it stands."""


class Unread(Struct, frozen=True, cache_hash=True):
    """Words that should be an instruction but were not understood."""

    span: Span
    likely: str = ""


class Change(StrEnum):
    """What stitches spread evenly over a row do to its number."""

    MORE = "more"
    FEWER = "fewer"
    TOTAL = "in all"


class Evenly(Struct, frozen=True, cache_hash=True):
    """Stitches spread over a whole row: "increasing 9 sts evenly", "60 sc evenly around".

    Attributes:
        amount: How many more or fewer stitches, or how many in all.
        change: Which of these.
        stitch: The stitch to work; "" for the one that the row is in anyway.
        along: What they are spread along where it is no row: "side" for the ends of the
            rows, "opening" for a slit or hole.
        over: Over how many of the next places, where it is not all of them.
        leaving: How many places it leaves at the end: "evenly to last 3 sts".
        at_ends: Whether they are at both ends of the row, half of them at each.
    """

    amount: Amount
    change: Change
    span: Span
    stitch: str = ""
    along: str = ""
    over: Amount | None = None
    leaving: Amount | None = None
    at_ends: bool = False


class Unworked(Struct, frozen=True, cache_hash=True):
    """What exists in the trade but is read only: "at the same time", "evenly"."""

    span: Span
    what: str


Node = (
    Make
    | Chain
    | Means
    | Skip
    | InOnePlace
    | Repeat
    | Tail
    | Turn
    | Join
    | Yarn
    | FinishOff
    | Loops
    | Recall
    | Instead
    | Remark
    | Unread
    | Unworked
    | Evenly
)


class Figure(Struct, frozen=True, cache_hash=True):
    """One number of a printed count with what it counts: "22 dc", "9 ch-1 sps", "24".

    Attributes:
        amount: The number, one a size.
        unit: What is counted.
        chains: The length of the spaces that are counted.
        row: The row it is told of, where the words say one: "22 dc after Row 3".
    """

    amount: Amount
    unit: str
    chains: int | None = None
    row: int = 0


class Claim(Struct, frozen=True, cache_hash=True):
    """A printed count.

    Attributes:
        figures: Its numbers; more than one where it counts by kind.
        span: The whole count, brackets and all.
        of_rows: True where the number is no count that the row is held to: one of rows ("22
            rows in all"), of a motif, or of a working that stops where the writer's did.
        in_all: Whether it says "in all", as of the row or of all rows up to it.
    """

    figures: tuple[Figure, ...]
    span: Span
    of_rows: bool = False
    words_span: Span | None = None
    in_all: bool = False


class Label(Struct, frozen=True):
    """What a row is called.

    Attributes:
        text: As printed, without the mark after it.
        numbers: The row numbers it stands for, in printed order; empty for a named row. In
            a pattern of several sizes these are the numbers of the first size.
        span: Where it stands.
        is_round: Whether it says round.
        name: The words of a named row ("Foundation Row"), lower case; "" otherwise.
        side: "RS", "WS" or "".
        yarn: A colour named in the label.
        ranged: Whether it was printed as a range or list.
        by_size: Numbers for each size where they differ.
        sizes: Names of the only sizes the row is worked in.
        every: "odd" or "even" where it also stands for those rows further on, "next" for a
            row that is only called the next one.
        until: The last row it stands for so; 0 where it does not say.
        next_rows: How many rows a label like "Next 4 rows" stands for.
    """

    text: str
    numbers: tuple[int, ...]
    span: Span
    is_round: bool = False
    name: str = ""
    side: str = ""
    yarn: str = ""
    ranged: bool = False
    by_size: tuple[tuple[int, ...], ...] = ()
    sizes: tuple[str, ...] = ()
    every: str = ""
    until: int = 0
    next_rows: Amount | None = None


class RowText(Struct, frozen=True):
    """One labelled row, or a line of instructions without a label.

    Attributes:
        label: Its label; None for an unlabelled row.
        body: Its instructions in order, with spans counted from `at`: rows written alike
            hold the very same instructions.
        claims: The counts printed with it, with spans counted from `at`.
        span: The whole of it.
        at: Where the words behind its label begin in the text.
    """

    label: Label | None
    body: tuple[Node, ...]
    claims: tuple[Claim, ...]
    span: Span
    at: int = 0

    def place(self, span: Span) -> Span:
        """Where in the text a span of an instruction or count of this row lies."""
        return Span(self.at + span.start, self.at + span.end)

    @property
    def nodes_worked(self) -> tuple[Node, ...]:
        """Its instructions, without remarks."""
        return tuple(node for node in self.body if not isinstance(node, Remark))


class PartText(Struct, frozen=True):
    """A part of the pattern with its rows in printed order.

    Attributes:
        name: Its heading.
        make: How many of it are made.
        rows: Labelled rows, and unlabelled lines that hold instructions.
        last_row: The row that a sentence calls the last one; 0 where none does.
        on_several: Whether pieces have been put together before it, so that it may go
            round all of them.
    """

    name: str
    span: Span
    rows: tuple[RowText, ...]
    make: int = 1
    last_row: int = 0
    on_several: bool = False


class Topic(StrEnum):
    """What a sentence outside the rows settles."""

    TURNING_CHAIN = "turning chain"
    SPACES = "chain spaces"
    SLIPS = "slip stitches"
    TERMS = "terms"
    LOOPS = "loops"
    NO_TURN = "no turn"
    TURN = "turn"
    SPIRAL = "spiral"
    STITCH_BEHIND = "stitch behind"
    EDGE_LOOPS = "edge loops"
    COUNT_STAYS = "the count stays"
    BEGUN_TOGETHER = "a decrease at the beginning"


class Statement(Struct, frozen=True):
    """A convention that the pattern states in a sentence.

    Attributes:
        topic: What it settles.
        holds: Which way.
        chains: The chain it speaks of, where it names a number.
        word: The stitch or terms it names.
        stands_chains: Chains of the space that the chain stands for beside the stitch.
        stands_stitches: How many stitches a space of so many chains counts as.
    """

    topic: Topic
    holds: bool
    span: Span
    chains: int | None = None
    word: str = ""
    stands_chains: int = 0
    stands_stitches: int = 0


class Definition(Struct, frozen=True):
    """A special stitch the pattern defines.

    Attributes:
        name: What it is called, lower case, and its other names.
        body: What it is made of, where it is written as instructions.
        passes: Places of the working edge it uses; None where the words do not tell.
        heads: Tops it leaves.
        in_one_place: Whether it is a list worked in one place.
        stitch: The stitch of the trade it is another name for, or goes back to.
        place: The space or corner it is always worked in, if it says so.
        words: What it is in its own words, where the tree keeps only what they come to.
        in_motions: Whether its words are motions of the hook.
    """

    names: tuple[str, ...]
    span: Span
    body: tuple[Node, ...] = ()
    passes: int | None = None
    heads: int = 1
    in_one_place: bool = False
    stitch: str = ""
    place: Target | None = None
    words: str = ""
    in_motions: bool = False

    @property
    def is_alias(self) -> bool:
        """Whether it only gives a stitch of the trade another name."""
        return bool(self.stitch) and not self.body and self.passes is None


class Multiple(Struct, frozen=True):
    """A stated multiple: "multiple of 8 + 3".

    Attributes:
        each: What a repeat takes.
        extra: What stands beside the repeats.
        of_stitches: Whether it says that it counts stitches.
        of_chains: Whether it says that it counts chains.
        turning: Chains it says are added to turn on: "plus 1 for turning".
    """

    each: int
    extra: int
    span: Span
    of_stitches: bool = False
    of_chains: bool = False
    turning: int = 0


class Given(Struct, frozen=True):
    """A piece that is there before the first row and is only described.

    Attributes:
        stitches: Stitches of its last row, or around it.
        stitch: Their name.
        rows: Its rows, where it has sides to work along; None for a round piece.
    """

    stitches: Amount
    stitch: str
    span: Span
    rows: Amount | None = None


class Pattern(Struct, frozen=True):
    """A whole pattern as read.

    Attributes:
        parts: Its parts in printed order.
        statements: Conventions stated in sentences.
        definitions: Special stitches.
        terms: "US", "UK" or None where nothing tells.
        terms_said: Whether the text says so itself.
        sizes: The names of its sizes; empty for one size.
        multiples: Multiples it states.
        stripes: Rows and their yarns, from a stripe line or table.
        foundation_hint: The chain told in passing ("I chained 106"), if no row makes one.
        given: The piece that the first row is worked on, where it is only described.
    """

    parts: tuple[PartText, ...]
    statements: tuple[Statement, ...] = ()
    definitions: tuple[Definition, ...] = ()
    terms: str | None = None
    terms_said: bool = False
    sizes: tuple[str, ...] = ()
    multiples: tuple[Multiple, ...] = ()
    stripes: tuple[tuple[int, str], ...] = field(default=())
    foundation_hint: Amount | None = None
    given: Given | None = None
