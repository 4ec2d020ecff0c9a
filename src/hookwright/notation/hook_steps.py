"""In what order does a definition move the hook?

The words of a definition become steps: a yarn over, an insertion with its place, a loop
drawn up, a draw through so many loops, a whole stitch, a repeat. Each kind of phrase is a
head word and the stretch of words it may take along; words that move nothing fall through.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum

from hookwright.notation.hook_words import Word
from hookwright.source import Span


class Where(StrEnum):
    """What kind of place the hook goes into."""

    NEXT = "so many fresh places of the working edge"
    HERE = "the place in use, or the first one if none is"
    NTH = "a place counted from the first one of the definition"
    USED = "a place used before: a skipped stitch, the same st as the last leg"
    OWN = "a stitch or chain of the definition's own making"
    LINK = "the bar or side of a stitch beside it"
    CLOTH = "the fabric, away from any edge"


@dataclass(frozen=True, slots=True)
class Place:
    """Where the hook goes in.

    Attributes:
        where: What kind of place.
        count: How many places, or which one for NTH.
        legs: How many times the hook goes in, if the words give a list ("1st and 2nd st").
        each: Whether the words say "each".
        chain: Whether it is a chain.
        from_hook: Whether it is counted from the hook.
    """

    where: Where = Where.HERE
    count: int = 1
    legs: int = 1
    each: bool = False
    chain: bool = False
    from_hook: bool = False


@dataclass(frozen=True, slots=True)
class Step:
    """One motion, or one stitch named whole.

    Attributes:
        does: "yo", "insert", "up", "through", "stitch", "chain", "skip", "drop", "gather",
            "count", "finish", "tall", "go" (a place named before the work), "all in" (a place
            named after it), "open" (a bracket or star).
        span: The words.
        count: How many; 0 for a draw that says no number.
        place: Where the hook goes in, if the words say it.
        name: The stitch; for a draw "stitch" (through the stitch as well), "top" (the new
            loop through the first loop) or "but" (all but so many); for a draw up "same" (the
            loop that is there already).
        whole: Whether a draw says it takes all the loops.
        held: Whether a stitch keeps its last loop on the hook.
    """

    does: str
    span: Span
    count: int = 1
    place: Place | None = None
    name: str = ""
    whole: bool = False
    held: bool = False


@dataclass(frozen=True, slots=True)
class Repeat:
    """Work earlier steps again.

    Attributes:
        span: The words.
        start: The first step to repeat.
        end: The step after the last one.
        count: How many more times.
        unsure: Whether the count may mean so many in all ("rep from * 4 times").
        until: Repeat until so many loops are on the hook, if the words say it.
        place: Where the repeats are worked.
    """

    span: Span
    start: int
    end: int
    count: int = 1
    unsure: bool = False
    until: int | None = None
    place: Place | None = None


_EDGE = frozenset(
    {"noun", "stitch", "chain", "loop", "own", "link", "cloth", "post", "named"}
)
_TARGET = _EDGE | {"next", "same", "dropped"}
_PLACE = _TARGET | {
    "where", "through", "article", "each", "whole", "last", "number", "ordinal", "face",
    "skipped", "made", "row", "way", "hook", "as", "strand", "size",
}  # fmt: skip
_LONGEST_PLACE = 20  # words
_OBJECT = frozenset(
    {"article", "number", "up", "yarn", "loop", "same", "strand", "whole", "dropped", "hook",
     "size", "more", "face"}
)  # fmt: skip
_DRAW = frozenset(
    {"article", "whole", "but", "last", "next", "number", "ordinal", "loop", "hook"}
)
_HELD = frozenset(
    {"article", "number", "loop", "last", "each", "whole", "stitch", "noun", "face", "hook",
     "named", "link", "same"}
)  # fmt: skip
_LAST_STEP = frozenset({"yo", "yarn", "step", "pull", "through", "loop", "up"})
_SKIPPED = frozenset(
    {"article", "next", "number", "each", "noun", "stitch", "chain", "ordinal"}
)
_ON_HOOK = (
    "on",
    "from",
    "left",
    "remaining",
    "remain",
    "remains",
    "now",
    "still",
    "are",
    "is",
)
_ACTION = frozenset(
    {"yo", "insert", "pull", "stitch", "number", "open", "chain", "unfinished"}
)


def read_steps(words: Sequence[Word]) -> tuple[Step | Repeat, ...]:
    """The steps of a definition, in the order of its words."""
    reader = _Reader(words)
    while reader.at < len(words):
        reader.read_phrase()
    return tuple(reader.steps)


class _Reader:
    """Reads phrases from left to right; never looks further than a phrase."""

    def __init__(self, words: Sequence[Word]) -> None:
        self.words = words
        self.at = 0
        self.steps: list[Step | Repeat] = []
        self.opens: list[
            tuple[int, bool]
        ] = []  # where each bracket starts; whether it holds work
        self.star: int | None = None
        self.starred: tuple[int, int] | None = None  # what stood between two stars
        self.group = (0, -1)  # a closed group; words after it may repeat it
        self.sentence = 0  # the first step of the sentence
        self.wants: int | None = None  # the step that a place may still belong to
        self.placed = False  # the last step has its place: one more place works it again
        self.counting = False  # the last step is a repeat without its number yet
        self.holding = False
        self.searched = 0  # no stitch before this step is looked at again to hold its loop
        self.strands = 1
        self.phrases: dict[str, Callable[[Word], None]] = {
            "yo": self._yo, "yarn": self._yarn, "wrap": self._yarn, "insert": self._insert, "hook": self._hook,
            "pull": self._pull, "through": self._through, "number": self._number,
            "stitch": self._stitch, "chain": self._chain, "skip": self._skip,
            "drop": self._drop, "hold": self._hold, "omit": self._omit,
            "unfinished": self._unfinished, "until": self._until, "finish": self._finish,
            "together": self._together, "as": self._as, "height": self._height,
            "repeat": self._repeat, "often": self._times, "times": self._times,
            "more": self._times, "where": self._where, "next": self._where, "and": self._and,
            "remark": self._remark, "open": self._open, "close": self._close,
            "star": self._star, "stop": self._stop, "article": self._article,
            "loop": self._loop,
        }  # fmt: skip

    def read_phrase(self) -> None:
        word = self.words[self.at]
        self.at += 1
        if word.kind in self.phrases:
            self.phrases[word.kind](word)

    # Looking at the words

    def kind(self, ahead: int = 0) -> str:
        at = self.at + ahead
        return self.words[at].kind if 0 <= at < len(self.words) else ""

    def text(self, ahead: int = 0) -> str:
        at = self.at + ahead
        return self.words[at].text if 0 <= at < len(self.words) else ""

    def stretch(self, kinds: frozenset[str], texts: Sequence[str] = ()) -> list[Word]:
        """Take the words that may go along; a number that counts something else may not."""
        start = self.at
        while self.kind() in kinds or self.text() in texts:
            if self.kind() == "number" and self._counts(kinds):
                break
            self.at += 1
        return list(self.words[start : self.at])

    def _counts(self, kinds: frozenset[str]) -> bool:
        """Whether the number here counts times, or stitches that do not go along."""
        after = self.kind(1)
        if after == "more":
            after = self.kind(2)
        if after == "stitch" and self.kind(-1) in {"hook", "noun", "stitch", "loop"}:
            return True
        return after in {"times", "stitch", "chain", "yo"} - kinds

    def _finger_ahead(self) -> bool:
        """Pass over what the fingers do: "wrap yarn over index finger" is no yarn over."""
        for ahead in range(10):
            if self.kind(ahead) in {"", "comma", "stop", "open", "close", "up"}:
                return False
            if self.kind(ahead) == "finger":
                self.at += ahead + 1
                return True
        return False

    def _last_step_ahead(self) -> bool:
        """Whether "last yo", "the last step", "the point of the last pull" stands here."""
        for ahead in range(5):
            if self.kind(ahead) == "last":
                return self.kind(ahead + 1) in _LAST_STEP
            if self.kind(ahead) not in {"article", "other"}:
                return False
        return False

    def _draw_ahead(self) -> bool:
        """Whether what follows "through" is loops on the hook, not a place."""
        seen = set()
        for ahead in range(9):
            kind = self.kind(ahead)
            if kind not in _DRAW and self.text(ahead) not in _ON_HOOK:
                return bool(seen & {"loop", "whole", "number"}) and kind not in _EDGE
            seen.add(kind)
        return True

    # Writing steps

    def add(self, step: Step | Repeat) -> int:
        self.steps.append(step)
        self.wants, self.placed, self.counting = None, False, False
        return len(self.steps) - 1

    def since(self, first: Word) -> Span:
        return first.span.to(self.words[self.at - 1].span)

    def act(self, step: Step, place: Place | None) -> None:
        """Write a step that goes into a place, said here or still to come."""
        index = self.add(replace(step, place=place))
        self.placed = place is not None
        self.wants = None if self.placed else index

    # Motions

    def _yo(self, word: Word, count: int = 1) -> None:
        self.add(Step("yo", word.span, count))

    def _yarn(self, word: Word, count: int = 1) -> None:
        if self._finger_ahead():
            return
        start = self.at
        taken = {w.kind for w in self.stretch(_OBJECT)} if word.kind == "wrap" else set()
        yarn = word.kind == "yarn" or "yarn" in taken
        if "strand" in taken:
            self.strands = 2
        often = self.stretch(frozenset({"often"}))
        over = self.text() in {"over", "around", "round", "overs"}
        if not yarn or (word.kind == "yarn" and not over):
            self.at = start
            return
        if over:
            self.at += 1
            self.stretch(frozenset({"article", "hook"}))
        self._yo(Word("yo", "yo", self.since(word)), often[0].number if often else count)

    def _insert(self, word: Word) -> None:
        taken = self.stretch(
            frozenset({"article", "hook", "more"}), ("down", "up", "forward")
        )
        place = self.place()
        if place or any(w.kind == "hook" for w in taken):
            self.act(Step("insert", self.since(word)), place)

    def _hook(self, word: Word) -> None:
        """ "Hook into next st": the word is a verb unless it stands at the end of a phrase."""
        if self.kind(-2) not in {"where", "article"}:
            place = self.place()
            if place:
                self.act(Step("insert", self.since(word)), place)

    def _pull(self, word: Word) -> None:
        taken = self.stretch(_OBJECT)
        kinds = {w.kind for w in taken}
        if "hook" in kinds and any(w.text == "out" for w in taken):
            self.add(Step("drop", self.since(word)))
        elif self.kind() == "through":
            self.at += 1
            self._through(self.words[self.at - 1], word, gathers="dropped" in kinds)
        elif "dropped" in kinds or self.text() in {"tight", "snug"}:
            return
        elif "strand" in kinds and "up" not in kinds:
            self.strands = 2
        elif "up" in kinds and ("loop" in kinds or self.text() != "to"):
            self._up(word, taken)
        elif "loop" in kinds and self.kind() in {"where", "next", "height"}:
            self._up(word, taken)

    def _up(self, word: Word, taken: Sequence[Word]) -> None:
        count = max([w.number for w in taken] + [self.strands])
        self.strands = 1
        place = None if self.kind() == "through" else self.place()
        known = any(w.kind == "same" or w.text == "the" for w in taken)
        name = "same" if known and place is None else ""
        self.act(Step("up", self.since(word), max(count, 1), name=name), place)

    def _through(
        self, word: Word, first: Word | None = None, *, gathers: bool = False
    ) -> None:
        first = first or word
        if word.text == "off" and self._hook_ahead():
            self.add(Step("drop", self.since(first)))
        elif word.text == "off" and self.kind() == "as":
            return
        elif self._draw_ahead():
            self._draw(first, self.stretch(_DRAW, _ON_HOOK))
        elif gathers:
            self.act(Step("gather", self.since(first)), self.place())
        else:
            self._through_place(word, first)

    def _hook_ahead(self) -> bool:
        return self.kind() == "hook" or (
            self.kind() == "article" and self.kind(1) == "hook"
        )

    def _through_place(self, word: Word, first: Word) -> None:
        """Draw through a stitch: a loop drawn up, unless loops follow ("st and loop")."""
        self.at -= 1
        place = self.place()
        if place is None:
            self.at += 1
            if word.text != "off" or first is not word or self.kind(-2) == "and":
                self._draw(first, [])
            return
        start = self.at
        joined = [
            w.kind for w in self.stretch(frozenset({"comma", "and", "through", "pull"}))
        ]
        if "and" in joined and self._draw_ahead():
            self._draw(first, self.stretch(_DRAW, _ON_HOOK), name="stitch")
            return
        self.at = start
        self.act(Step("up", self.since(first)), place)

    def _draw(self, first: Word, taken: Sequence[Word], name: str = "") -> None:
        kinds = {w.kind for w in taken}
        texts = {w.text for w in taken}
        count = max((w.number for w in taken if w.kind == "number"), default=0)
        if not count and "both" in texts:
            count = 2
        if not count and texts & {"loop", "lp"} and not kinds & {"whole", "last"}:
            count, name = 1, name or "top"
        if "but" in kinds:
            count, name = max(count, 1), "but"
        self.holding = False
        whole = bool(kinds & {"whole", "last"}) and "both" not in texts
        self.add(Step("through", self.since(first), count, name=name, whole=whole))
        self._pairs(first)

    def _pairs(self, first: Word) -> None:
        """Work loops off "two at a time": draw through two until one is left."""
        if (self.text(), self.text(1), self.text(2)) != ("at", "a", "time"):
            return
        self.at += 3
        last = len(self.steps) - 1
        self.steps[last] = replace(self.steps[last], whole=False)
        self.add(Repeat(self.since(first), last, last + 1, until=1))

    def _drop(self, word: Word) -> None:
        if self._finger_ahead():
            return
        texts = ("off", "from", "working", "out")
        taken = self.stretch(frozenset({"article", "last", "loop", "hook", "same"}), texts)
        if any(w.kind in {"loop", "hook"} for w in taken):
            self.add(Step("drop", self.since(word)))

    def _chain(self, word: Word, count: int = 0) -> None:
        if self.kind() == "number" and not count:
            count = self.words[self.at].number
            self.at += 1
        if self.kind() not in {"made", "noun"} or self.text() in {"st", "stitch"}:
            self.add(Step("chain", self.since(word), max(count, 1)))

    def _skip(self, word: Word) -> None:
        taken = self.stretch(_SKIPPED)
        count = max([w.number for w in taken if w.kind == "number"] + [1])
        if self.text() == "behind":  # it is the place of the stitch in front of it
            self.place()
        elif taken:
            self.add(Step("skip", self.since(word), count))

    def _finish(self, word: Word) -> None:
        taken = self.stretch(
            frozenset({"article", "same", "as", "stitch", "noun", "whole"}),
            ("for", "off", "in", "with", "usual", "normal", "your"),
        )
        name = next((w.text for w in taken if w.kind == "stitch"), "")
        self.add(Step("finish", self.since(word), name=name))

    def _height(self, word: Word) -> None:
        taken = self.stretch(
            frozenset({"article", "stitch", "row", "noun", "same", "last"})
        )
        name = next((w.text for w in taken if w.kind == "stitch"), "")
        if name:
            self.add(Step("tall", self.since(word), name=name))

    # Stitches named whole

    def _number(self, word: Word) -> None:
        ahead = 0
        while self.kind(ahead) in {"more", "unfinished", "finish", "size"}:
            ahead += 1
        kind, span = self.kind(ahead), word.span
        if kind in {"yo", "stitch", "yarn"} or (kind == "chain" and not ahead):
            self.holding |= any(self.kind(k) == "unfinished" for k in range(ahead))
            self.at += ahead + 1
            one = replace(
                self.words[self.at - 1], span=span.to(self.words[self.at - 1].span)
            )
            {
                "yo": self._yo,
                "yarn": self._yarn,
                "stitch": self._stitch,
                "chain": self._chain,
            }[kind](one, word.number)
        elif kind in {"times", "more"} or "times" in {self.kind(), self.kind(1)}:
            self._times(word)
        elif kind == "loop":
            self._count(word)

    def _stitch(self, word: Word, count: int = 1) -> None:
        if self.kind() in {"made", "named"}:
            return
        if self.kind() == "number" and self.kind(1) == "together":
            count = self.words[self.at].number
            self.at += 2
            self.act(Step("stitch", self.since(word), count, name=word.text), self.place())
            self._join(word)
            return
        place = self.place()
        step = Step("stitch", self.since(word), count, name=word.text, held=self.holding)
        self.act(step, place)
        self._share(len(self.steps) - 1)

    def _join(self, word: Word) -> None:
        """Draw the stitches just named together: all but their last loops are worked."""
        stitch = self._hold_back()
        if stitch is None:
            return
        placed, wants = self.placed, self.wants
        step = self.steps[stitch]
        if isinstance(step, Step) and step.place is None:
            self._set_place(stitch, Place(Where.NEXT, step.count))
        self.holding = False
        self.add(Step("through", self.since(word), 0, whole=True))
        self.placed, self.wants = placed, wants if wants is not None else stitch

    def _share(self, index: int) -> None:
        """Give a list of stitches one place: "2 dc, ch 1, 2 dc in next st" uses one."""
        step = self.steps[index]
        if not isinstance(step, Step) or step.place is None or step.does != "stitch":
            return
        if step.place.where is not Where.NEXT or step.place.count > 1:
            return
        first = index
        while first and self._is_bare_stitch(first - 1):
            first -= 1
        if first < index and first >= self.sentence:
            self._set_place(index, Place())
            self._set_place(first, step.place)

    def _is_bare_stitch(self, index: int) -> bool:
        step = self.steps[index]
        bare = isinstance(step, Step) and step.place is None
        return bare and isinstance(step, Step) and step.does in {"stitch", "chain"}

    def _set_place(self, index: int, place: Place) -> None:
        step = self.steps[index]
        if isinstance(step, Step) and step.does != "chain":
            self.steps[index] = replace(step, place=place)

    def _hold_back(self) -> int | None:
        """Keep the last loops of the stitches just named; the last one's index, if any."""
        name, found = "", None
        first, self.searched = self.searched, len(self.steps)
        for index in range(len(self.steps) - 1, first - 1, -1):
            step = self.steps[index]
            if (
                isinstance(step, Repeat)
                or step.does in {"through", "yo", "up"}
                or step.held
            ):
                break
            if step.does == "stitch" and step.name not in {"", name} and name:
                break
            if found is not None and index < self.sentence:
                break
            if step.does == "stitch":
                name, found = step.name, index if found is None else found
                self.steps[index] = replace(step, held=True)
        return found

    def _hold(self, word: Word) -> None:
        taken = self.stretch(_HELD, ("on", "from", "for", "back", "unworked"))
        kinds = {w.kind for w in taken}
        number = next((w for w in taken if w.kind == "number"), None)
        if "loop" in kinds and kinds & {"last", "each", "stitch"}:
            self._begin_holding()
        elif number and "loop" in kinds:
            if self._after_stitch():
                self._hold_back()
            self.add(Step("count", self.since(number), number.number))

    def _after_stitch(self) -> bool:
        last = self.steps[-1] if self.steps else None
        return isinstance(last, Step) and last.does == "stitch"

    def _begin_holding(self) -> None:
        self._hold_back()
        self.holding = True

    def _omit(self, word: Word) -> None:
        kinds = _LAST_STEP | {
            "article",
            "last",
            "finish",
            "where",
            "stitch",
            "noun",
            "each",
        }
        taken = {w.kind for w in self.stretch(kinds)}
        if taken & {"last", "finish"} and not (word.text == "not" and "insert" in taken):
            self._begin_holding()

    def _unfinished(self, _word: Word) -> None:
        self.holding = True

    def _until(self, word: Word) -> None:
        if self._last_step_ahead():
            self.stretch(_LAST_STEP | {"article", "last", "each", "stitch", "other"})
            self._begin_holding()
            return
        kinds = frozenset({"article", "number", "loop", "each", "stitch", "hook", "close"})
        taken = self.stretch(
            kinds, (*_ON_HOOK, "you", "there", "just", "only", "has", "have")
        )
        number = next((w for w in taken if w.kind == "number"), None)
        if number is None or not any(w.kind == "loop" for w in taken):
            return
        if self._after_stitch():
            self._hold_back()
            if not any(w.kind == "each" for w in taken):
                self.add(Step("count", self.since(number), number.number))
        else:
            self._repeat_until(word, number.number)

    def _together(self, word: Word) -> None:
        if self._after_stitch():
            self._join(word)

    def _as(self, word: Word) -> None:
        if self.kind() == "number" and self.words[self.at].number == 1:
            self.stretch(frozenset({"number", "noun"}))
            self._together(word)
        else:
            self.stretch(frozenset({"article", "number", "stitch"}), ("for",))

    # Loops on the hook, said by the text

    def _count(self, number: Word) -> None:
        alone = self.kind(-2) == "open"
        self.stretch(frozenset({"loop"}))
        taken = self.stretch(frozenset({"hook", "article", "close"}) - {"close"}, _ON_HOOK)
        if taken or (alone and self.kind() == "close"):
            self.add(Step("count", self.since(number), number.number))

    # Places

    def place(self) -> Place | None:
        """Take the words of a place, if they stand here."""
        start = self.at
        if self.kind() not in {"where", "next", "through"} and not self._article_next():
            return None
        if self.text() == "to" and self._last_step_after_to():
            return None
        words = self._place_words()
        if not any(w.kind in _TARGET for w in words):
            self.at = start
            return None
        return _place_of(words)

    def _article_next(self) -> bool:
        return self.kind() == "article" and self.kind(1) == "next"

    def _last_step_after_to(self) -> bool:
        self.at += 1
        ahead = self._last_step_ahead()
        self.at -= 1
        return ahead

    def _place_words(self) -> list[Word]:
        words: list[Word] = []
        while self.kind() in _PLACE and not self._place_ends(words):
            words.append(self.words[self.at])
            self.at += 1
            if words[-1].kind == "ordinal":
                self._pass_list()
        return words

    def _place_ends(self, words: Sequence[Word]) -> bool:
        """Whether the next word begins something else: "in next st | 2 dc"."""
        if not words:
            return False
        if self.text() == "to" and self._last_step_after_to():
            return True
        kind, last = self.kind(), words[-1].kind
        if kind == "number" and self._counts(_PLACE):
            return True
        if not _names_place(words) or kind not in {"number", "stitch", "chain", "through"}:
            return len(words) > _LONGEST_PLACE
        return not (kind == "number" and (last == "chain" or self.kind(1) == "row"))

    def _pass_list(self) -> None:
        """Pass the marks inside "2nd, 3rd and 4th ch"."""
        ahead = 0
        while self.kind(ahead) in {"comma", "and"} and ahead < 2:
            ahead += 1
        if ahead and self.kind(ahead) == "ordinal":
            self.at += ahead

    def _where(self, word: Word) -> None:
        start = self.at - 1
        self.at = start
        if self.text() == "to" and self._last_step_after_to():
            self.at += 1
            self.stretch(_LAST_STEP | {"article", "last", "other"})
            self._begin_holding()
            return
        aside = self.text() == "behind" or (self.text(1), self.text(2)) == ("front", "of")
        place = self.place()
        if place is None:
            self.at = start + 1
        elif not aside:
            self._settle(place, word, self.words[start - 1].kind if start else "stop")

    def _settle(self, place: Place, word: Word, before: str) -> None:
        """Give a place that stands by itself to the steps it belongs to."""
        step = self.steps[self.wants] if self.wants is not None else None
        loose = before in {"comma", "stop"}
        if self.counting or (self.steps and isinstance(self.steps[-1], Repeat)):
            self._place_repeat(place)
        elif isinstance(step, Step) and self.wants is not None and not loose:
            self._set_place(self.wants, place)
            self._share(self.wants)
            self.wants, self.placed = None, True
        elif self.group[1] == len(self.steps) and not loose:
            self._place_group(place, word)
        elif self._work_ahead() or len(self.steps) == self.sentence:
            self.add(Step("go", self.since(word), place=place))
        elif self.placed and self.steps:
            self.steps.append(replace(self.steps[-1], place=place))
        else:
            self.add(Step("all in", self.since(word), place=place))

    def _work_ahead(self) -> bool:
        """Whether work follows at once: "in next st dc, ch 1", not "in next st (3 loops)"."""
        counts = self.kind() == "open" and (self.kind(1), self.kind(2)) == (
            "number",
            "loop",
        )
        return self.kind() in _ACTION and not counts

    def _place_group(self, place: Place, word: Word) -> None:
        start, end = self.group
        self._set_place(start, replace(place, count=1))
        if place.where is Where.NEXT and place.count > 1:
            self.add(Repeat(self.since(word), start, end, place.count - 1, place=place))

    def _place_repeat(self, place: Place) -> None:
        """Say where repeats are worked; "rep in each of next 2 sts" also says how often."""
        repeat = self.steps[-1]
        if not isinstance(repeat, Repeat):
            return
        if self.counting:
            count = place.count if place.where is Where.NEXT else repeat.count
            self.steps[-1] = replace(repeat, place=place, count=count)
        elif place.where is Where.NEXT and place.count == 1:
            self._set_place(repeat.start, place)
            self.steps[-1] = replace(repeat, place=Place())
        else:
            self.steps[-1] = replace(repeat, place=place)
        self.counting = False

    def _and(self, word: Word) -> None:
        if self.placed and (self.kind() == "next" or self._article_next()):
            place = self.place()
            if place:
                self._settle(place, word, "and")

    # Repeats

    def _open(self, word: Word) -> None:
        if self._only_times():
            self.opens.append((self._enclosing(), False))
            return
        self.opens.append((self.add(Step("open", word.span)), True))
        self.sentence = len(self.steps)

    def _enclosing(self) -> int:
        return self.opens[-1][0] if self.opens else 0

    def _only_times(self) -> bool:
        """Whether a bracket holds nothing but "twice" or "4 times"."""
        ahead = 0
        while self.kind(ahead) in {"number", "often", "times", "more"} and ahead < 4:
            ahead += 1
        often = {self.kind(k) for k in range(ahead)} & {"often", "times"}
        return bool(often) and self.kind(ahead) == "close"

    def _close(self, _word: Word) -> None:
        start, works = self.opens.pop() if self.opens else (0, False)
        if not works:
            return
        inside = self.steps[start + 1 :][:2]
        if any(isinstance(step, Repeat) or step.does != "count" for step in inside):
            self.group = (start, len(self.steps))
        self.wants, self.placed = None, False

    def _star(self, word: Word) -> None:
        if self.star is None or self.starred:
            self.star, self.starred = self.add(Step("open", word.span)), None
            self.sentence = len(self.steps)
        else:
            self.starred = self.group = (self.star, len(self.steps))

    def _repeat(self, word: Word) -> None:
        starred = self._repeat_words()
        if self.star is not None and (starred or self.group[1] != len(self.steps)):
            self.starred = self.starred or (self.star, len(self.steps))
            start, end = self.starred
        elif self.group[1] == len(self.steps):
            start, end = self.group
        else:
            start, end = self._enclosing(), len(self.steps)
        self.add(Repeat(self.since(word), start, end))
        self.counting = True

    def _repeat_words(self) -> bool:
        """Take "from * to *", "these 3 steps"; whether a star is named."""
        starred = False
        while True:
            star = "star" in {self.kind(), self.kind(1)} and self.kind() in {
                "star",
                "where",
                "and",
                "ordinal",
            }
            step = self.kind() in {"article", "same", "whole", "step"}
            numbered = (
                self.kind() == "number"
                and self.kind(-1) in {"step", "number"}
                and self.kind(1) not in {"times", "more"}
            )
            if not (star or step or numbered):
                return starred
            starred |= star
            self.at += 1

    def _times(self, word: Word) -> None:
        first = self.at - 1
        kinds = frozenset({"often", "times", "more", "total"})
        if word.kind == "times" and self.kind() == "number":
            self.at += 1
        while self.kind() in kinds or self._number_of_times() or self._in_all():
            self.at += 1
        taken = self.words[first : self.at]
        count = max(w.number for w in taken)
        if count:
            more = any(w.kind == "more" for w in taken)
            total = any(w.kind == "total" or w.text == "all" for w in taken)
            self._work_times(self.since(word), count, more=more, total=total)

    def _number_of_times(self) -> bool:
        return (
            self.kind() == "number"
            and "times" in {self.kind(1), self.kind(2)}
            and self.kind(-1) == "more"
        )

    def _in_all(self) -> bool:
        return (self.text() == "in" and self.text(1) in {"all", "total"}) or (
            self.text() == "all" and self.text(-1) == "in"
        )

    def _work_times(self, span: Span, count: int, *, more: bool, total: bool) -> None:
        last = self.steps[-1] if self.steps else None
        extra = count if more else count - 1
        if self.counting and isinstance(last, Repeat):
            unsure = not (more or total or count == 1)
            extra = count - 1 if total else count
            both = last.span.to(span)
            self.steps[-1] = replace(last, span=both, count=extra, unsure=unsure)
            self.counting = False
        elif self.group[1] == len(self.steps):
            self.add(Repeat(span, *self.group, extra))
        elif isinstance(last, Step) and last.does == "yo":
            self.steps[-1] = replace(
                last, count=last.count + extra, span=last.span.to(span)
            )
        elif isinstance(last, Step):
            self.add(Repeat(span, self._motion_start(), len(self.steps), extra))

    def _motion_start(self) -> int:
        """Where the motion just read begins: its yarn overs and insertion belong to it."""
        start = len(self.steps) - 1
        last = self.steps[start]
        along = {"yo", "insert"} if isinstance(last, Step) and last.does == "up" else {"yo"}
        while start > self.sentence:
            before = self.steps[start - 1]
            if isinstance(before, Repeat) or before.does not in along:
                break
            start -= 1
        return start

    def _repeat_until(self, word: Word, loops: int) -> None:
        last = self.steps[-1] if self.steps else None
        if isinstance(last, Repeat):
            self.steps[-1] = replace(last, until=loops)
            self.counting = False
        elif self.group[1] == len(self.steps):
            self.add(Repeat(self.since(word), *self.group, until=loops))
        elif isinstance(last, Step) and last.does == "through":
            self.add(
                Repeat(self.since(word), self._motion_start(), len(self.steps), until=loops)
            )
        else:
            self.add(Step("count", self.since(word), loops))

    # Everything else

    def _stop(self, _word: Word) -> None:
        self.sentence = len(self.steps)

    def _article(self, word: Word) -> None:
        """Pass over "of the 5 dc": stitches named, not worked."""
        if word.text == "of" and self.kind() in {
            "article",
            "each",
            "last",
            "same",
            "ordinal",
        }:
            self._place_words()

    def _loop(self, _word: Word) -> None:
        self._finger_ahead()

    def _remark(self, _word: Word) -> None:
        while self.kind() not in {"", "comma", "stop", "open", "close"}:
            self.at += 1


def _place_of(words: Sequence[Word]) -> Place:
    """What kind of place some words name; the first test that fits decides."""
    kinds = {w.kind for w in words}
    texts = {w.text for w in words}
    each = "each" in kinds
    ordinals = [w.number for w in words if w.kind == "ordinal"]
    count = _places_counted(words)
    if "cloth" in kinds:
        return Place(Where.CLOTH)
    if "skipped" in kinds or ("as" in kinds and "same" in kinds and "as" in texts):
        return Place(Where.USED, count, each=each)
    if "next" in kinds or each or count > 1:
        return Place(Where.NEXT, count, each=each)
    if "link" in kinds:
        return Place(Where.LINK)
    if "between" in texts and "loop" in kinds:
        return Place(Where.OWN)
    if "hook" in kinds and "chain" in kinds:
        return Place(Where.OWN, legs=max(len(ordinals), 1), chain=True, from_hook=True)
    chain = "chain" in kinds and not texts & {"sp", "sps", "space", "spaces"}
    if kinds & {"own", "made", "last", "dropped"} or (chain and ordinals):
        return Place(Where.OWN, chain=chain)
    if ordinals and "loop" not in kinds:
        return Place(Where.NTH, max(ordinals), legs=len(ordinals))
    return Place(chain=chain)


def _names_place(words: Sequence[Word]) -> bool:
    """Whether a place is named since the last "of" or "in": what follows is something else."""
    for word in reversed(words):
        if word.kind in {"where", "through", "as"} or word.text == "of":
            return False
        if word.kind in _EDGE:
            return True
    return False


def _places_counted(words: Sequence[Word]) -> int:
    """How many places: of "next 2 sts 1 row below" it is 2, of "both loops" 1."""
    for index, word in enumerate(words):
        after = words[index + 1].kind if index + 1 < len(words) else ""
        before = words[index - 1].kind if index else ""
        if word.kind == "number" and after not in {"row", "loop"} and before != "chain":
            return word.number
    return 1
