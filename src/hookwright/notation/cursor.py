"""A place in the tokens of a row, with the small questions every reader asks there."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from functools import cache, cached_property

from msgspec import Struct, field
from msgspec.structs import replace

from hookwright.finding import Finding
from hookwright.notation.lexer import TOO_LARGE, Kind, Token
from hookwright.notation.tree import Amount, Target
from hookwright.notation.vocabulary import (
    Phrases,
    StitchWord,
    base_stitch,
    compound,
    singular,
    standard_words,
)
from hookwright.source import Span

# To look a member up in its enumeration takes as long as a call: these are asked for at
# every token.
_WORD, _NUMBER, _OPEN, _CLOSE, _DASH, _LINE, _END = (
    Kind.WORD,
    Kind.NUMBER,
    Kind.OPEN,
    Kind.CLOSE,
    Kind.DASH,
    Kind.LINE,
    Kind.END,
)


class _Branch(Struct):
    """Words in a row that begin some phrases.

    Attributes:
        number: The first phrase that they are the whole of; `_NONE` for none.
        further: What the phrases go on with, by the next word.
    """

    number: int
    further: dict[str, _Branch]

    def add(self, number: int, words: str) -> None:
        """Keep a phrase that goes on with some words."""
        at = self
        for word in words.split():
            branch = at.further.get(word)
            if branch is None:
                branch = at.further[word] = _Branch(_NONE, {})
            at = branch
        at.number = min(at.number, number)


_NONE = 1 << 30


class Sayings(tuple[str, ...]):  # noqa: SLOT001 - it keeps its phrases by their words
    """Phrases that say one thing; of two that begin alike the first is taken."""

    @cached_property
    def by_first_word(self) -> Mapping[str, list[int]]:
        """The numbers of the phrases by their first word."""
        index: dict[str, list[int]] = {}
        for number, phrase in enumerate(self):
            index.setdefault(phrase.partition(" ")[0], []).append(number)
        return index

    @cached_property
    def _begun(self) -> dict[str, _Branch]:
        """The phrases that begin with a word, for the words met so far."""
        return {}

    def begun_with(self, word: str) -> _Branch:
        """The phrases that begin with a first word; most of them are never looked at."""
        branch = self._begun.get(word)
        if branch is None:
            root = _Branch(_NONE, {})
            for number in self.by_first_word[word]:
                root.add(number, self[number])
            branch = self._begun[word] = root.further[word]
        return branch


_sayings = cache(Sayings)


SIZE_MARKS = (Kind.COMMA, _DASH, Kind.COLON, Kind.SEMICOLON)


_HOW_HELD = frozenset("single double treble".split())
_YARNS = frozenset("yarn yarns thread threads strand strands wool".split())
_TENS = frozenset("twenty thirty forty fifty sixty".split())
_NAMES_OF_ROWS = frozenset("row rows rnd rnds round rounds rd rds r step steps".split())
_STITCHES = frozenset("st sts stitch stitches".split())


class Cursor(Struct):
    """Tokens and a position among them.

    Attributes:
        tokens: Ended by an END token.
        at: The position of the next token.
        own_words: The stitches the pattern itself defines.
        sizes: How many sizes the pattern has; 1 for one.
        findings: What was found wrong so far.
        numbers: Those looked for so far, by where: what is there, and where it ends.
        stitches: The same of stitches.
        held: All words among the tokens; None until they are asked for.
    """

    tokens: Sequence[Token]
    at: int = 0
    own_words: Phrases = field(default_factory=dict)
    sizes: int = 1
    findings: list[Finding] = field(default_factory=list)
    numbers: dict[int, tuple[Amount | None, int]] = field(default_factory=dict)
    stitches: dict[int, tuple[StitchWord | None, int]] = field(default_factory=dict)
    held: frozenset[str] | None = None

    @property
    def token(self) -> Token:
        """The next token."""
        return self.tokens[self.at]

    def peek(self, ahead: int = 1) -> Token:
        """A token further on; the END token where there is none."""
        at = self.at + ahead
        return self.tokens[at] if at < len(self.tokens) else self.tokens[-1]

    def step(self) -> Token:
        """Take the next token."""
        token = self.tokens[self.at]
        if token.kind is not _END:
            self.at += 1
        return token

    def done(self) -> bool:
        """Whether nothing is left."""
        return self.tokens[self.at].kind is _END

    def lacks(self, words: frozenset[str]) -> bool:
        """Whether none of some words stands among the tokens, here or elsewhere."""
        if self.held is None:
            self.held = frozenset([token.text for token in self.tokens])
        return self.held.isdisjoint(words)

    def is_word(self, *words: str) -> bool:
        """Whether the next token is one of some words."""
        token = self.tokens[self.at]
        return token.text in words and (token.kind is _WORD or token.spelled)

    def take_word(self, *words: str) -> bool:
        """Take the next token if it is one of some words."""
        token = self.tokens[self.at]
        if token.text in words and (token.kind is _WORD or token.spelled):
            self.at += 1
            return True
        return False

    def is_phrase(self, phrase: str) -> int:
        """How many tokens some words in a row take up here; 0 if they do not stand here."""
        return self._length_of(tuple(phrase.split()))

    def _length_of(self, words: tuple[str, ...]) -> int:
        at = self.at
        for word in words:
            while self.tokens[at].kind is _LINE:
                at += 1
            if self.tokens[at].text != word:
                return 0
            at += 1
        return at - self.at

    def take_phrase(self, *phrases: str) -> bool:
        """Take the first of a few phrases that stands here."""
        return self.take_any(_sayings(phrases))

    def take_any(self, sayings: Sayings) -> bool:
        """Take the first of many phrases that stands here."""
        tokens = self.tokens
        at = self.at
        while tokens[at].kind is _LINE:
            at += 1
        word = tokens[at].text
        if word not in sayings.by_first_word:
            return False
        branch: _Branch | None = sayings.begun_with(word)
        first = _NONE
        while branch is not None:
            at += 1
            if branch.number < first:
                first = branch.number
                self.at = at
            if not branch.further:
                break
            while tokens[at].kind is _LINE:
                at += 1
            branch = branch.further.get(tokens[at].text)
        return first < _NONE

    def is_any(self, sayings: Sayings) -> bool:
        """Whether one of many phrases stands here."""
        at = self.at
        stands = self.take_any(sayings)
        self.at = at
        return stands

    def is_kind(self, *kinds: Kind) -> bool:
        """Whether the next token is of some kind."""
        return self.tokens[self.at].kind in kinds

    def take_kind(self, *kinds: Kind) -> bool:
        """Take the next token if it is of some kind."""
        if self.tokens[self.at].kind in kinds:
            self.step()
            return True
        return False

    def skip_lines(self) -> None:
        """Pass soft line ends: a new line does not end a row."""
        while self.tokens[self.at].kind is _LINE:
            self.step()

    def span_from(self, start: int) -> Span:
        """From the token at a position to the last one taken."""
        first, last = self.tokens[start], self.tokens[self.at - 1]
        return Span(first.start, last.end if self.at > start else first.end)

    def attempt(self, read: Callable[[Cursor], object]) -> bool:
        """Whether a reader finds something here; the position stays where it was."""
        at = self.at
        found = read(self) is not None
        self.at = at
        return found

    def number(self) -> Amount | None:
        """A number, or a list with one number a size; None where none stands here."""
        start = self.at
        known = self.numbers.get(start)
        if known is None:  # each reader of a phrase looks for it
            known = self.numbers[start] = (self._number(), self.at)
        amount, self.at = known
        return amount

    def _number(self) -> Amount | None:
        token = self.tokens[self.at]
        if token.kind is not _NUMBER:
            return self._list_without_first(token.kind)
        if token.value == TOO_LARGE:
            return None
        start = self.at
        self.step()
        if token.spelled and token.text in _TENS:
            return self._compound_number(token.value, start)
        if self.sizes == 1:
            return Amount((token.value,), token.span)
        listed = self._size_list(token.value)
        if listed is not None:
            return Amount(listed.values, self.span_from(start))
        dashed = self._dashed_list(token.value)
        if dashed is not None:
            return Amount(dashed, self.span_from(start))
        return Amount((token.value,), token.span)

    def _list_without_first(self, kind: Kind) -> Amount | None:
        """A list with one number a size that begins with a mark: "(52, 58, 64)"."""
        if self.sizes == 1:
            return None
        if kind is _OPEN:
            return self._size_list(None)
        return self._without_first() if kind is _DASH else None

    def _without_first(self) -> Amount | None:
        """ "- (60, 66)": the first size has no number."""
        start = self.at
        values = None
        if self.peek().kind is _OPEN:
            self.step()
            values = self._bracketed_values()
        if values is None or len(values) != self.sizes - 1 or not any(values):
            self.at = start
            return None
        return Amount((None, *values), self.span_from(start))

    def _dashed_list(self, first: int) -> tuple[int, ...] | None:
        """ "96-108-120", "56 / 64 / 72": one a size; a range has two numbers only.

        Between bars there may be two: "70 | 84".
        """
        if self.sizes <= 2 and self.token.text != "|" and not self._parts_by_colon():
            return None
        start, values = self.at, [first]
        mark = self.token.text
        while (
            (
                self.token.kind is _DASH
                or self.token.text in ("/", "|")
                or self._parts_by_colon()
            )
            and self.token.text == mark
            and self.peek().kind is _NUMBER
        ):
            self.step()
            values.append(self.step().value)
        whole = len(values) == self.sizes or self._is_short_list(start - 1, len(values))
        if whole and TOO_LARGE not in values:
            return tuple(values)
        self.at = start
        return None

    def _parts_by_colon(self) -> bool:
        """Whether "44:48:52" goes on: a colon with a number close to it on both sides."""
        return self.token.kind is Kind.COLON and self.token.glued and self.peek().glued

    def _is_short_list(self, start: int, length: int) -> bool:
        """Whether "next 38-44 sts" lacks a number: of stitches there is no range."""
        before = self.tokens[start - 1] if start else self.tokens[-1]
        if not 1 < length < self.sizes or before.kind in (_LINE, _END):
            return False
        if before.text in _NAMES_OF_ROWS:
            return False
        return self.token.text in _STITCHES or self.stitch_at() is not None

    def _compound_number(self, tens: int, start: int) -> Amount:
        ahead = self.peek() if self.token.kind is _DASH else self.token
        if ahead.kind is _NUMBER and ahead.spelled and 0 < ahead.value < 10:
            while self.token is not ahead:
                self.step()
            self.step()
            return Amount((tens + ahead.value,), self.span_from(start))
        return Amount((tens,), self.tokens[start].span)

    def _size_list(self, first: int | None) -> Amount | None:
        """The rest of `58 (64, 70)`, or `(52, 58, 64)`; None where no list stands here."""
        start = self.at
        if first is not None and self.token.kind is Kind.COMMA:
            self.step()
        values = self._bracketed_values()
        if values is not None and self._one_more(first, values):
            values.append(self.step().value)  # "32 (36) 40"
        if values is None or not self._is_list(first, values, start):
            self.at = start
            return None
        listed = values if first is None else [first, *values]
        return Amount(tuple(listed), self.span_from(start))

    def _one_more(self, first: int | None, values: list[int | None]) -> bool:
        """Whether the largest size stands behind the brackets."""
        missing = self.sizes - len(values) - (first is not None)
        return missing == 1 and self.sizes > 2 and self.token.kind is _NUMBER

    def _is_list(self, first: int | None, values: list[int | None], start: int) -> bool:
        """Whether the numbers are enough, or too few for what is counted: "38 (44) sts"."""
        short = first is not None and self._is_short_list(start - 1, len(values) + 1)
        rows = first is not None and self._is_short_of_rows(start - 1, len(values) + 1)
        return short or rows or len(values) >= self._fewest_values(first)

    def _is_short_of_rows(self, start: int, length: int) -> bool:
        """Whether "next 9 (10) rnds" or "8 (10) more times" lacks a number.

        "Row 9 (2 rows)" has no list.
        """
        before = self.tokens[start - 1] if start else self.tokens[-1]
        told = self.token.text in _NAMES_OF_ROWS or self._is_times()
        return 1 < length < self.sizes and before.text not in _NAMES_OF_ROWS and told

    def _is_times(self) -> bool:
        """Whether a number before this word says how often something is repeated."""
        words = (self.token.text, self.peek().text)
        return words[words[0] == "more"] in ("times", "time")

    def _fewest_values(self, first: int | None) -> int:
        return 2 if first is None or self.sizes > 2 else 1

    def _bracketed_values(self) -> list[int | None] | None:
        """Numbers and dashes inside brackets of any shape, nested or one after another."""
        values: list[int | None] = []
        opened = 0
        while True:
            token = self.token
            if values and not opened and not self._opens_value():
                return values  # "Row 21 (23, 27) (RS)"
            if token.kind is _OPEN:
                opened += 1
            elif not opened:
                return values or None
            elif token.kind is _CLOSE:
                opened -= 1
            elif token.kind is _NUMBER and token.value != TOO_LARGE:
                values.append(token.value)
            elif self._is_no_value():
                values.append(None)
            elif token.kind not in SIZE_MARKS:
                return None
            self.step()

    def _opens_value(self) -> bool:
        """Whether a bracket opens with a number, or with the dash of a size without one."""
        inside = self.peek().kind in (_NUMBER, _DASH, _OPEN)
        return inside or self.token.kind is not _OPEN

    def _is_no_value(self) -> bool:
        before = self.tokens[self.at - 1].kind
        after = self.peek().kind
        ends = after in (Kind.COMMA, _CLOSE) or before is after is _OPEN
        alone = before in (_OPEN, Kind.COMMA) and ends  # "[- (60, 66)]" too
        return self.token.kind is _DASH and alone

    def stitch(self) -> StitchWord | None:
        """A stitch by any of its names; None where none stands here."""
        start = self.at
        token = self.tokens[start]
        named = token.kind is Kind.ORDINAL and token.text in self.own_words
        if token.kind is not _WORD and not named:  # "first cluster", defined so
            return None
        known = self.stitches.get(start)
        if known is None:
            known = self.stitches[start] = (self._stitch(), self.at)
        found, self.at = known
        return found

    def _stitch(self) -> StitchWord | None:
        token = self.tokens[self.at]
        if token.text in _HOW_HELD and self.peek().text in _YARNS:
            return None  # "with double yarn"
        for index in (self.own_words, standard_words()):
            found = self._longest(index) if index else None
            if found is not None:
                return found
        if token.text == "slip" and self.peek().text in _SLIPPED:
            self.step()
            return base_stitch("ss")
        post = self._post_stitch() if token.text in _POST_WORDS else None
        if post is not None:
            return post
        made = compound(token.text)
        if made is None:
            return None
        self.step()
        return self._with_legs(made)

    def stitch_at(self) -> StitchWord | None:
        """The stitch here, without taking it."""
        at = self.at
        found = self.stitch()
        self.at = at
        return found

    def _post_stitch(self) -> StitchWord | None:
        """ "front post dc", "bp double crochet", "raised dc"; a bare "fp" is a dc."""
        start = self.at
        post = ""
        if self.take_word("fp") or self.take_phrase(
            "front post", "front raised", "raised front"
        ):
            post = "front"
        elif self.take_word("bp") or self.take_phrase(
            "back post", "back raised", "raised back"
        ):
            post = "back"
        elif self.take_word("raised"):
            post = "front"
        if not post:
            return None
        self.take_kind(_DASH)
        base = self.stitch() if self.token.kind is _WORD else None
        if base is None and self.tokens[start].text in ("fp", "bp"):
            base = compound("dc")
        if base is None or base.family not in ("plain", "together"):
            self.at = start
            return None
        if self.tokens[start].text == "raised":  # "raised treble back"
            post = "back" if self.take_word("back") else post
            self.take_word("front")
        prefix = "fp" if post == "front" else "bp"
        return replace(base, id=prefix + base.id, post=post)

    def _longest(self, index: Phrases) -> StitchWord | None:
        for first in singular(self.token.text):
            for words, stitch in index.get(first, ()):
                taken = self._matches(words)
                if taken:
                    self.at += taken
                    return self._with_legs(stitch)
        return None

    def _matches(self, words: tuple[str, ...]) -> int:
        """How many tokens a spelling takes up here, hyphens and line ends included."""
        at = self.at
        for number, word in enumerate(words):
            if number:
                while self.tokens[at].kind in (_DASH, _LINE):
                    at += 1
            token = self.tokens[at]
            if token.kind is _NUMBER and word.isdigit() and token.value == int(word):
                at += 1
                continue
            if token.kind is _END or word not in singular(token.text):
                return 0
            at += 1
        return at - self.at

    def _with_legs(self, stitch: StitchWord) -> StitchWord:
        """Reads "dc 2 tog", "2tog", "dec" and loop words glued on behind a plain stitch."""
        if stitch.family != "plain":
            return stitch
        at = self.at
        if self.token.kind is _DASH and self.peek().kind is _NUMBER:
            self.step()
        legs = self.token.value if self.token.kind is _NUMBER else 0
        if 1 < legs < 100 and self.peek().text in ("tog", "together"):
            self.step()
            self.step()
            return together(stitch, legs)
        self.at = at
        if self.is_word("dec", "decrease", "decs", "decreases", "tog"):
            self.step()
            return together(stitch, 2)
        if self.is_word("inc", "increase", "incs", "increases"):
            self.step()
            return StitchWord("inc", "increase", 1, 2, height=stitch.height)
        if self.is_word(*_OF_SEVERAL) and self.at:
            return StitchWord(_OF_SEVERAL[self.step().text], "cluster")
        return stitch


_OF_SEVERAL = {"cluster": "cluster", "cl": "cluster", "clus": "cluster"} | {
    name: name for name in ("bobble", "popcorn", "puff")
}
"""What stitches worked as one are called, "3-dc cl", by their spellings."""
_POST_WORDS = frozenset("fp bp front back raised".split())
"""What a stitch round a post begins with."""
_SLIPPED = ("over", "into", "in", "to", "along", "across", "up")
"""What stands behind "slip" where it is the stitch: "slip over 2 dc and into the sp"."""


def together(stitch: StitchWord, legs: int) -> StitchWord:
    """So many of a plain stitch drawn together: "dc3tog"."""
    return StitchWord(
        f"{stitch.id}{legs}tog",
        "together",
        legs,
        1,
        stitch.terms,
        stitch.height,
        stitch.uk_height,
        "",
        stitch.loop,
        stitch.post,
        legs,
    )


ReadPlace = Callable[[Cursor], Target | None]
"""Reads a place; what it is told by is often a place again: "the gap after next dc"."""
