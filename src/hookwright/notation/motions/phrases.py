"""What motion does each phrase of a definition name?

A phrase is a head word and the stretch of words it may take along; what it names is told
from the words of that stretch. Words that move nothing fall through.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Sequence
from itertools import pairwise

from hookwright.notation.motions.places import (
    EDGE,
    LAST_STEP,
    is_last_step_ahead,
    is_next_ahead,
    pass_place,
    read_place,
)
from hookwright.notation.motions.steps import Repeat, Step, StepWriter
from hookwright.notation.motions.words import Word, Words

_OBJECT = frozenset(
    {"article", "number", "up", "yarn", "loop", "same", "strand", "whole", "dropped",
     "hook", "size", "more", "face"}
)  # fmt: skip
_DRAW = frozenset(
    {"article", "whole", "but", "last", "next", "number", "ordinal", "loop", "hook"}
)
_HELD = frozenset(
    {"article", "number", "loop", "last", "each", "whole", "stitch", "noun", "face", "hook",
     "named", "link", "same"}
)  # fmt: skip
_HELD_HOW = frozenset({"on", "from", "for", "back", "unworked", "open", "at"})
_SKIPPED = frozenset(
    {"article", "next", "number", "each", "noun", "stitch", "chain", "ordinal", "own",
     "last", "same"}
)  # fmt: skip
_FINISHED = frozenset({"article", "same", "as", "stitch", "noun", "whole"})
_ON_HOOK = frozenset(
    {"on", "from", "left", "remaining", "remain", "remains", "now", "still", "are", "is"}
)
_KEPT = frozenset({"kept", "held", "staying", "stays", "of", "back"})
_ACTION = frozenset(
    {"yo", "insert", "pull", "stitch", "number", "open", "chain", "unfinished"}
)
_PAIR = 2
_MARKS = frozenset({"", "comma", "stop", "open", "close"})


def read_steps(words: Sequence[Word]) -> tuple[Step | Repeat, ...]:
    """The steps of a definition, in the order of its words."""
    reader = _PhraseReader(Words(words))
    while reader.words:
        reader.read_phrase()
    return tuple(reader.writer.steps)


class _PhraseReader:
    """Reads phrases from left to right and never looks further than a phrase."""

    def __init__(self, words: Words) -> None:
        self.words = words
        self.writer = StepWriter()
        self.strands = 1  # loops that the next draw up makes
        self.phrases: dict[str, Callable[[Word], None]] = {
            "yo": self._yo, "yarn": self._yarn, "wrap": self._yarn, "insert": self._insert,
            "hook": self._hook, "pull": self._pull, "through": self._through,
            "number": self._number, "stitch": self._stitch, "chain": self._chain,
            "skip": self._skip, "drop": self._drop, "hold": self._hold, "omit": self._omit,
            "unfinished": self._unfinished, "until": self._until, "finish": self._finish,
            "together": self._together, "as": self._as, "height": self._height,
            "repeat": self._repeat, "often": self._times, "times": self._times,
            "more": self._times, "where": self._where, "next": self._where,
            "and": self._and, "remark": self._remark, "open": self._open,
            "close": self._close, "star": self._star, "stop": self._stop,
            "article": self._article, "loop": self._loop,
            "last": self._last,
        }  # fmt: skip

    def read_phrase(self) -> None:
        word = self.words.take()
        if word.kind in self.phrases:
            self.phrases[word.kind](word)

    def _step(self, does: str, first: Word, count: int = 1, name: str = "") -> Step:
        return Step(does, self.words.since(first), count, name=name)

    # Yarn and hook

    def _yo(self, word: Word, count: int = 1) -> None:
        self.writer.add(self._step("yo", word, count))

    def _yarn(self, word: Word, count: int = 1) -> None:
        """Read "yarn (twice) over hook" and "wrap the yarn"."""
        if self._pass_finger():
            return
        start, words = self.words.at, self.words
        taken = _kinds(words.stretch(_OBJECT)) if word.kind == "wrap" else set()
        self.strands = 2 if "strand" in taken else self.strands
        often = words.stretch({"often"})
        over = words.stretch((), {"over", "around", "round", "overs"})
        if "yarn" not in taken and not (word.kind == "yarn" and over):
            words.at = start
            return
        if over:
            words.stretch({"article", "hook"})
        self._yo(word, often[0].number if often else count)

    def _pass_finger(self) -> bool:
        """Pass over what the fingers do: "wrap yarn over index finger" is no yarn over."""
        for ahead in range(10):
            if self.words.kind(ahead) in {*_MARKS, "up"}:
                return False
            if self.words.kind(ahead) == "finger":
                self.words.at += ahead + 1
                return True
        return False

    def _loop(self, _word: Word) -> None:
        self._pass_finger()

    def _insert(self, word: Word) -> None:
        taken = self.words.stretch({"article", "hook", "more"}, {"down", "up", "forward"})
        place = read_place(self.words)
        if place or "hook" in _kinds(taken):
            self.writer.act(self._step("insert", word), place)

    def _hook(self, word: Word) -> None:
        """Read "hook into next st": a verb, unless the word ends a phrase."""
        if self.words.kind(-2) not in {"where", "article"} and (
            place := read_place(self.words)
        ):
            self.writer.act(self._step("insert", word), place)

    def _drop(self, word: Word) -> None:
        if self._pass_finger():
            return
        taken = self.words.stretch(
            {"article", "last", "loop", "hook", "same"}, {"off", "from", "working", "out"}
        )
        if _kinds(taken) & {"loop", "hook"}:
            self.writer.add(self._step("drop", word))

    # Drawing loops

    def _pull(self, word: Word) -> None:
        """Read what is drawn: up, through, out, or nothing if the verb means "work"."""
        taken = self.words.stretch(_OBJECT)
        kinds = _kinds(taken)
        onward = self.words.text() != "to" if "up" in kinds else False
        if "hook" in kinds and "out" in _texts(taken):
            self.writer.add(self._step("drop", word))
        elif self.words.kind() == "through":
            self._draw_through(self.words.take(), word, gathers="dropped" in kinds)
        elif "strand" in kinds and "up" not in kinds:
            self.strands = 2
        elif "dropped" in kinds or self.words.text() in {"tight", "snug"}:
            return
        elif onward or ("loop" in kinds and self._is_drawn_up(kinds)):
            self._up(word, taken)

    def _is_drawn_up(self, kinds: set[str]) -> bool:
        return "up" in kinds or self.words.kind() in {"where", "next", "height"}

    def _up(self, word: Word, taken: Sequence[Word]) -> None:
        count = max([w.number for w in taken] + [self.strands])
        self.strands = 1
        place = None if self.words.kind() == "through" else read_place(self.words)
        known = "same" in _kinds(taken) or "the" in _texts(taken)
        name = "same" if known and place is None else ""
        self.writer.act(self._step("up", word, count, name), place)

    def _through(self, word: Word) -> None:
        self._draw_through(word, word, gathers=False)

    def _draw_through(self, through: Word, first: Word, *, gathers: bool) -> None:
        off = through.text == "off"
        if off and self._hook_ahead():
            self.writer.add(self._step("drop", first))
        elif off and self.words.kind() == "as":
            return
        elif self._loops_ahead():
            self._draw(first, self.words.stretch(_DRAW, _ON_HOOK))
        elif gathers:
            self.writer.act(self._step("gather", first), read_place(self.words))
        else:
            self._through_place(first, bare=not off or first is not through)

    def _hook_ahead(self) -> bool:
        after_article = 1 if self.words.kind() == "article" else 0
        return self.words.kind(after_article) == "hook"

    def _loops_ahead(self) -> bool:
        """Whether loops on the hook follow "through", not a place."""
        seen: set[str] = set()
        for ahead in range(9):
            kind = self.words.kind(ahead)
            if kind not in _DRAW and self.words.text(ahead) not in _ON_HOOK:
                return bool(seen & {"loop", "whole", "number"}) and kind not in EDGE
            seen.add(kind)
        return True

    def _through_place(self, first: Word, *, bare: bool) -> None:
        """Draw through a stitch: a loop drawn up, unless loops follow ("st and loop")."""
        words = self.words
        words.at -= 1
        place = read_place(words)
        if place is None:
            words.at += 1
            if bare or words.kind(-2) == "and":
                self._draw(first, [])
            return
        after_place = words.at
        joined = _kinds(words.stretch({"comma", "and", "through", "pull"}))
        if "and" in joined and self._loops_ahead():
            self._draw(first, words.stretch(_DRAW, _ON_HOOK), name="stitch")
            return
        words.at = after_place
        self.writer.act(self._step("up", first), place)

    def _draw(self, first: Word, taken: Sequence[Word], name: str = "") -> None:
        kinds, texts = _kinds(taken), _texts(taken)
        count = max((w.number for w in taken if w.kind == "number"), default=0)
        if not count and "both" in texts:
            count = 2
        if not count and texts & {"loop", "lp"} and not kinds & {"whole", "last"}:
            count, name = 1, name or "top"
        if "but" in kinds:
            count, name = max(count, 1), "but"
        by_twos = self._take_by_twos()
        count = _PAIR if by_twos else count
        whole = bool(kinds & {"whole", "last"}) and "both" not in texts and not by_twos
        self.writer.holding = False
        self.writer.add(Step("through", self.words.since(first), count, None, name, whole))
        if by_twos:
            end = len(self.writer.steps)
            self.writer.add(Repeat(self.words.since(first), end - 1, end, until=1))

    def _take_by_twos(self) -> bool:
        """Take "at a time" or "in twos": loops are worked off until one is left."""
        words = self.words
        if words.text() in {"in", "by"} and words.kind(1) == "pairs":
            words.at += 2
        elif [words.text(ahead) for ahead in range(3)] == ["at", "a", "time"]:
            words.at += 3
        else:
            return False
        return True

    def _finish(self, word: Word) -> None:
        taken = self.words.stretch(
            _FINISHED, {"for", "off", "in", "with", "usual", "normal", "your"}
        )
        self.writer.add(self._step("finish", word, name=_stitch_in(taken)))

    def _height(self, word: Word) -> None:
        taken = self.words.stretch({"article", "stitch", "row", "noun", "same", "last"})
        if name := _stitch_in(taken):
            self.writer.add(self._step("tall", word, name=name))

    # Stitches named whole, chains, skips

    def _number(self, word: Word) -> None:
        words = self.words
        ahead = 0
        while words.kind(ahead) in {"more", "unfinished", "finish", "size"}:
            ahead += 1
        counted = {"yo": self._yo, "yarn": self._yarn, "stitch": self._stitch}
        if words.kind(ahead) in counted or (words.kind() == "chain"):
            self.writer.holding |= "unfinished" in {words.kind(k) for k in range(ahead)}
            words.at += ahead
            thing = words.take()
            one = Word(thing.kind, thing.text, words.since(word))
            counted.get(thing.kind, self._chain)(one, word.number)
        elif words.kind() in {"times", "more"} or words.kind(1) == "times":
            self._times(word)
        elif words.kind() == "loop":
            self._count(word)

    def _stitch(self, word: Word, count: int = 1) -> None:
        words = self.words
        if words.kind() in {"made", "named"}:
            return
        together = words.kind() == "number" and words.kind(1) == "together"
        if together:
            count = words.take().number
            words.take()
        held = self.writer.holding and not together
        place = read_place(words)
        step = Step("stitch", words.since(word), count, None, word.text, held=held)
        self.writer.act(step, place)
        self.writer.share(len(self.writer.steps) - 1)
        if together:
            self.writer.join(words.since(word))

    def _together(self, word: Word) -> None:
        if self.writer.last_is_stitch:
            self.writer.join(word.span)

    def _as(self, word: Word) -> None:
        """Read "as one"; "as a dc" names a stitch that is not worked."""
        taken = self.words.stretch({"article", "number", "stitch"}, {"for"})
        if taken and taken[0].number == 1 and "stitch" not in _kinds(taken):
            self._together(word)

    def _chain(self, word: Word, count: int = 0) -> None:
        if not count and self.words.kind() == "number":
            count = self.words.take().number
        if self.words.kind() not in {"made", "noun"} or self.words.text() in {
            "st",
            "stitch",
        }:
            self.writer.add(self._step("chain", word, max(count, 1)))

    def _skip(self, word: Word) -> None:
        taken = self.words.stretch(_SKIPPED)
        if self.words.text() == "behind":  # the stitch before it has used that place
            read_place(self.words)
        elif taken:
            count = max([w.number for w in taken if w.kind == "number"] + [1])
            self.writer.add(self._step("skip", word, count))

    # Loops held back, loops counted

    def _hold(self, _word: Word) -> None:
        taken = self.words.stretch(_HELD, _HELD_HOW)
        kinds = _kinds(taken)
        number = next((w for w in taken if w.kind == "number"), None)
        if "loop" in kinds and kinds & {"last", "each", "stitch"}:
            begun = self.writer.hold_back()
            self.writer.holding = True
            if begun is None:
                self._work_held(taken)
        elif number and "loop" in kinds:
            self._left_on_hook(number)

    def _work_held(self, taken: Sequence[Word]) -> None:
        """Read "keep the last loop of each of 3 dc on the hook": they are worked here."""
        for number, thing in pairwise(taken):
            if (number.kind, thing.kind) == ("number", "stitch"):
                if not self._is_worked_ahead(thing):
                    one = Word(thing.kind, thing.text, number.span.to(thing.span))
                    self._stitch(one, number.number)
                return

    def _is_worked_ahead(self, thing: Word) -> bool:
        """Whether the stitches held are told once more before the hook goes on."""
        ahead = 0
        while self.words.kind(ahead) not in {"", "yo", "yarn", "through"}:
            if self.words.text(ahead) == thing.text:
                return True
            ahead += 1
        return False

    def _last(self, _word: Word) -> None:
        """Read "the last loop of each left on the hook"."""
        after_stitch = self.writer.last_is_stitch
        taken = self.words.stretch(_HELD, _ON_HOOK | _KEPT)
        if after_stitch and {"loop", "hook"} <= _kinds(taken):
            self._hold_back()

    def _hold_back(self) -> None:
        self.writer.hold_back()
        self.writer.holding = True

    def _left_on_hook(self, number: Word) -> None:
        """Read "leaving 2 loops on hook": after a stitch it is not finished."""
        if self.writer.last_is_stitch:
            self.writer.hold_back()
        self.writer.add(self._step("count", number, number.number))

    def _omit(self, _word: Word) -> None:
        taken = _kinds(
            self.words.stretch(
                LAST_STEP | {"article", "last", "finish", "where", "stitch", "noun", "each"}
            )
        )
        if taken & {"last", "finish"}:
            self._hold_back()

    def _unfinished(self, _word: Word) -> None:
        self.writer.holding = True

    def _until(self, word: Word) -> None:
        if is_last_step_ahead(self.words):
            self.words.stretch(LAST_STEP | {"article", "last", "each", "stitch", "other"})
            self._hold_back()
            return
        taken = self.words.stretch(
            {"article", "number", "loop", "each", "stitch", "hook", "plain"},
            _ON_HOOK | {"there", "just", "only", "has"},
        )
        number = next((w for w in taken if w.kind == "number"), None)
        if number is None or "loop" not in _kinds(taken):
            return
        if not self.writer.last_is_stitch:
            self.writer.until(self.words.since(word), number.number)
        elif "each" in _kinds(taken):
            self.writer.hold_back()
        else:
            self._left_on_hook(number)

    def _count(self, number: Word) -> None:
        """Read "3 loops on hook", or "(3 loops)"."""
        alone = self.words.kind(-2) == "open"
        self.words.stretch({"loop"})
        on_hook = self.words.stretch({"hook", "article"}, _ON_HOOK)
        if on_hook or (alone and self.words.kind() == "close"):
            self.writer.add(self._step("count", number, number.number))

    # Places by themselves

    def _where(self, word: Word) -> None:
        words = self.words
        if word.text == "to" and is_last_step_ahead(words):
            words.stretch(LAST_STEP | {"article", "last", "other"})
            self._hold_back()
            return
        before = words.kind(-2) or "stop"
        aside = word.text == "behind" or (words.text(), words.text(1)) == ("front", "of")
        words.at -= 1
        place = read_place(words)
        if place is None:
            words.at += 1
        elif not aside:
            loose = before in {"comma", "stop"}
            leads = self._work_ahead()
            self.writer.settle(place, words.since(word), loose=loose, leads=leads)

    def _work_ahead(self) -> bool:
        """Whether work follows at once: "in next st dc", but not "in next st (3 loops)"."""
        kinds = [self.words.kind(ahead) for ahead in range(3)]
        return kinds[0] in _ACTION and kinds != ["open", "number", "loop"]

    def _and(self, _word: Word) -> None:
        """Read "and next st": the place before it goes on."""
        if self.writer.placed and is_next_ahead(self.words):
            self.words.stretch({"article"})
            self._where(self.words.take())

    def _article(self, word: Word) -> None:
        if word.text == "of" and self.words.kind() in {
            "article",
            "each",
            "last",
            "same",
            "ordinal",
        }:
            pass_place(self.words)

    # Brackets, stars, repeats

    def _open(self, word: Word) -> None:
        self.writer.open_bracket(word.span, works=not self._only_times())

    def _only_times(self) -> bool:
        """Whether a bracket holds nothing but "twice" or "4 more times"."""
        for length in (1, 2, 3):
            kinds = [self.words.kind(ahead) for ahead in range(length + 1)]
            if kinds[-1] == "close":
                often = {"often", "times"} & set(kinds)
                return bool(often) and set(kinds[:-1]) <= {
                    "number",
                    "often",
                    "times",
                    "more",
                }
        return False

    def _close(self, _word: Word) -> None:
        self.writer.close_bracket()

    def _star(self, word: Word) -> None:
        self.writer.star(word.span)

    def _stop(self, _word: Word) -> None:
        self.writer.end_sentence()

    def _repeat(self, word: Word) -> None:
        """Read "rep from *", "repeat these 3 steps", "rep from * to *"."""
        words, starred = self.words, False
        while True:
            star = "star" in {words.kind(), words.kind(1)} and words.kind() in {
                "star", "where", "and", "ordinal",
            }  # fmt: skip
            numbered = words.kind() == "number" and words.kind(-1) in {"step", "number"}
            counts = words.kind(1) in {"times", "more"}
            if not (star or (numbered and not counts) or self._is_repeated_thing()):
                break
            starred |= star
            words.take()
        self.writer.repeat(words.since(word), starred=starred)

    def _is_repeated_thing(self) -> bool:
        return self.words.kind() in {"article", "same", "whole", "step"}

    def _times(self, word: Word) -> None:
        """Read "twice", "3 more times", "x 4", "another 2 times", "4 times in all"."""
        words = self.words
        taken = [word]
        if word.kind == "times" and words.kind() == "number":
            taken.append(words.take())
        while self._times_go_on():
            taken.append(words.take())
        count = max(w.number for w in taken)
        if count:
            more = "more" in _kinds(taken)
            total = "total" in _kinds(taken) or "all" in _texts(taken)
            self.writer.times(words.since(word), count, more=more, total=total)

    def _times_go_on(self) -> bool:
        words = self.words
        if words.kind() == "number":
            return words.kind(-1) == "more" and "times" in {words.kind(1), words.kind(2)}
        in_all = words.text() == "in" and words.text(1) in {"all", "total"}
        all_ = words.text() == "all" and words.text(-1) == "in"
        return in_all or all_ or words.kind() in {"often", "times", "more", "total"}

    def _remark(self, _word: Word) -> None:
        while self.words.kind() not in _MARKS:
            self.words.take()


def _kinds(words: Collection[Word]) -> set[str]:
    return {word.kind for word in words}


def _texts(words: Collection[Word]) -> set[str]:
    return {word.text for word in words}


def _stitch_in(words: Sequence[Word]) -> str:
    return next((word.text for word in words if word.kind == "stitch"), "")
