"""Instructions in a row: commas, stars, brackets, and what the last repeat ends with.

Each group has the marks that lead a reader back to it: the first "rep from *" of a row has
one star, a group inside it two; a group worked a number of times in all stands in brackets,
a list for one place in round ones.
"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct
from msgspec.structs import replace

from hookwright.notation.printing.instructions import instruction, made, runs_to_the_end
from hookwright.notation.printing.places import counted_noun, noun_phrase, place, up_to
from hookwright.notation.printing.telling import is_telling
from hookwright.notation.printing.wording import Wording
from hookwright.notation.printing.words import (
    amount_words,
    is_one,
    more_times_words,
    sentence,
    stitch_word,
    times_words,
)
from hookwright.notation.tree import (
    Evenly,
    FinishOff,
    InOnePlace,
    Instead,
    Join,
    Make,
    Node,
    Often,
    Recall,
    Remark,
    Repeat,
    Tail,
    Times,
    Turn,
    Unread,
    Yarn,
)
from hookwright.regex import regex

_LEADS_ON = regex(r"(?:in|with|for|on|as|at|of|by|using|until|but|after)\b")
_BEFORE_COUNT = (Turn, Join, FinishOff)
_HOLD_A_REMARK = (Recall, Turn, FinishOff)
"""What a remark may go on with: "do not turn after the last row"."""


def phrases(nodes: Sequence[Node], wording: Wording) -> str:
    """Instructions in order, with commas between them and no stop at the end."""
    return _Level(wording).written(nodes)


class _Level(Struct):
    """What stands inside one pair of brackets, or in the row outside all of them.

    Attributes:
        wording: How things are called.
        inside: Whether there is a bracket around it.
        stars: Marks written so far: a pair of stars must begin with an odd one.
        paired: Whether a pair of stars stands before; a "rep from" must not go back to it.
        begun: Whether anything is written.
        depth: In how many repeats it stands.
        in_place: Whether it is a list for one place, which stays on its line.
    """

    wording: Wording
    inside: bool = False
    stars: int = 0
    paired: bool = False
    begun: bool = False
    depth: int = 0
    in_place: bool = False

    def written(
        self, nodes: Sequence[Node], nesting: int = 1, *, stopped: bool = False
    ) -> str:
        """The nodes in words; `nesting` is the number of stars a group here begins with."""
        text = ""
        before: Node | None = None
        for node in nodes:
            if _is_wordless(node, self.wording):
                continue
            goes_on = isinstance(before, _HOLD_A_REMARK) and self._leads_on(node)
            stopped = stopped if before is None else not goes_on and _stops(before, node)
            counted = stopped or isinstance(before, _BEFORE_COUNT) or _ends(before)
            words = self._words(node, nesting, after_count=counted and not self.inside)
            if text:
                text += " " if goes_on else self._between(words, before, stopped=stopped)
                text += sentence(words) if stopped else words
            else:
                text = words
            before, self.begun = node, True
        return text

    def _leads_on(self, node: Node) -> bool:
        """Whether a remark is of the sentence before it: "in the stripe sequence"."""
        if not isinstance(node, Remark):
            return False
        own = self.wording.own_phrases.get(node.span, "")
        return _LEADS_ON.match(own) is not None or node.words.startswith("after the last ")

    def _between(self, words: str, before: Node | None, *, stopped: bool) -> str:
        """What stands between two instructions."""
        if stopped:
            return ". "  # on a line of its own it would begin another row
        if self.wording.style.spoken:
            goes_on = self.in_place or isinstance(before, Yarn)
            return ", " if goes_on else f";{self._gap()}"
        follows = words.startswith("(skipped ch")  # what it explains, without a comma
        return " " if follows else f",{self._gap()}"

    def _gap(self) -> str:
        """A space, or where each action has a line of its own, the end of one."""
        if not self.wording.style.one_a_line or self.in_place:
            return " "
        return "\n" + "  " * self.depth

    def _words(self, node: Node, nesting: int, *, after_count: bool) -> str:
        own = self.wording.own_phrases.get(node.span)
        frame = self.in_place or isinstance(node, (Repeat, InOnePlace, Tail))
        if own is not None and not frame:
            return own
        match node:
            case Repeat():
                return self._repeat(node, nesting, stopped=after_count)
            case InOnePlace():
                return self._in_one_place(node, nesting)
            case Tail():
                return self._tail(node, nesting)
            case Make() if node.target is None and (
                after_count or self.wording.style.behind
            ):
                return made(node, self.wording, number_behind=True)
            case _:
                return instruction(node, self.wording, first=not self.begun)

    def _bracketed(
        self, nodes: Sequence[Node], nesting: int, *, in_place: bool = True
    ) -> str:
        level = _Level(
            self.wording,
            inside=True,
            begun=True,
            depth=self.depth + 1,
            in_place=in_place or self.in_place,
        )
        return level.written(nodes, nesting)

    def _said_in_one_place(self, group: InOnePlace, nesting: int) -> str:
        """ "in next ch-2 sp work 2 dc, ch 2, 2 dc"; "shell made" behind it names it."""
        where = place(group.target, self.wording)
        around = f" {self.wording.to_the_end}" if runs_to_the_end(group.target) else ""
        name = f"; {stitch_word(group.name)} made" if group.name else ""
        return f"{where}{around} work {self._bracketed(group.body, nesting)}{name}"

    def _said_repeat(self, repeat: Repeat, nesting: int) -> str:
        """ "work the following 5 times: A; B; end of repeat"."""
        how_often = _how_often(_all_of(repeat.times), self.wording)
        split = len(repeat.body) if repeat.split is None else repeat.split
        body = [self._bracketed(repeat.body[:split], nesting, in_place=False)]
        if repeat.split is not None:
            body.append("the last time stop here")
            body.append(self._bracketed(repeat.body[split:], nesting, in_place=False))
        gap = f";{self._gap()}"
        return (
            f"work the following {how_often}: {gap.join(filter(None, body))}; end of repeat"
        )

    def _in_one_place(self, group: InOnePlace, nesting: int) -> str:
        if self.wording.style.spoken:
            return self._said_in_one_place(group, nesting)
        name = f" ({stitch_word(group.name)} made)" if group.name else ""
        where = noun_phrase(group.target, self.wording)
        return f"({self._bracketed(group.body, nesting)}) in {where}{name}"

    def _repeat(self, repeat: Repeat, nesting: int, *, stopped: bool) -> str:
        if self.wording.style.spoken:
            return self._said_repeat(repeat, nesting)
        if repeat.mark != "*" or self._needs_brackets(repeat, nesting):
            return self._bracketed_repeat(repeat, nesting)
        if self.wording.style.brackets and _may_stand_in_brackets(repeat):
            return self._bracketed_repeat(repeat, nesting)
        if _is_pair(repeat):
            return self._pair(repeat, stopped=stopped)
        return self._starred(repeat, nesting + self.paired, stopped=stopped)

    def _bracketed_repeat(self, repeat: Repeat, nesting: int) -> str:
        """ "[A] 3 times"; "[3 sc] across" could be a count, "to end" is none."""
        times = _all_of(repeat.times) if self.wording.style.brackets else repeat.times
        how_often = "to end" if _goes_to_the_end(times) else _how_often(times, self.wording)
        body = self._bracketed(repeat.body, nesting, in_place=False)
        return f"[{body}] {how_often}"

    def _needs_brackets(self, repeat: Repeat, nesting: int) -> bool:
        """A pair of stars is told by an odd one, so it cannot stand everywhere."""
        return _is_pair(repeat) and (nesting > 1 or self.stars % 2 == 1)

    def _pair(self, repeat: Repeat, *, stopped: bool) -> str:
        self.stars += 1
        body = self._deeper(repeat.body, 2, stopped=stopped)
        self.stars += 1
        self.paired = True
        return f"{_marked('*', body)}* {_how_often(repeat.times, self.wording)}"

    def _starred(self, repeat: Repeat, nesting: int, *, stopped: bool) -> str:
        """ "*A**, B; rep from * across, ending last rep at **"."""
        mark, stop_mark = "*" * nesting, "*" * (nesting + 1)
        self.stars += 1
        split = len(repeat.body) if repeat.split is None else repeat.split
        body = self._deeper(repeat.body[:split], nesting + 1, stopped=stopped)
        ending = ""
        if repeat.split is not None:
            self.stars += 1
            rest = self._deeper(repeat.body[split:], nesting + 1)
            gap = self._gap() + ("  " if self._gap() != " " else "")
            body = f"{body}{stop_mark},{gap}{rest}" if rest else f"{body}{stop_mark}"
            ending = f", ending last rep at {stop_mark}"
        how_often = _how_often(repeat.times, self.wording)
        return f"{_marked(mark, body)};{self._gap()}rep from {mark} {how_often}{ending}"

    def _deeper(self, nodes: Sequence[Node], nesting: int, *, stopped: bool = False) -> str:
        """What a repeat holds, between marks that count on from those before."""
        self.depth += 1
        words = self.written(nodes, nesting, stopped=stopped)
        self.depth -= 1
        return words

    def _tail(self, tail: Tail, nesting: int) -> str:
        if not tail.body:
            return "omitting last st on last rep"
        body = self._bracketed(tail.body, nesting)
        words = f"ending last rep with {body}" if tail.replaces else f"ending with {body}"
        return f"{words} instead of last st" if tail.dropped else words


def _marked(mark: str, body: str) -> str:
    """A group behind its mark, with a gap where another mark follows at once."""
    return f"{mark} {body}" if body.startswith("*") else f"{mark}{body}"


def _is_wordless(node: Node, wording: Wording) -> bool:
    """Whether a node says nothing of the work: a mere remark, an empty repeat."""
    if isinstance(node, Remark):
        kept = wording.style.remarks and any(map(str.isalnum, node.words))
        return not (kept or is_telling(node))
    return isinstance(node, Unread) or (isinstance(node, Repeat) and not node.body)


def _ends(before: Node | None) -> bool:
    """Whether a number behind "[...] to end" would be read as the count of the row."""
    if not isinstance(before, Repeat) or before.mark == "*":
        return False
    return _goes_to_the_end(before.times)


def _may_stand_in_brackets(repeat: Repeat) -> bool:
    """Whether a repeat between stars can be told by brackets: a number, or to the end."""
    often, noun = repeat.times.often, repeat.times.noun
    numbered = often in (Often.TIMES, Often.MORE)
    plain = numbered or _goes_to_the_end(repeat.times)
    return plain and repeat.split is None and noun != "in all"


def _goes_to_the_end(times: Times) -> bool:
    """Whether a group is worked up to the end of the row, no place before it."""
    across = times.often is Often.ACROSS
    return across and times.noun != "corner" and times.until is None


def _stops(before: Node, node: Node) -> bool:
    """Whether a sentence ends between two instructions: after a tail or rows recalled."""
    if isinstance(before, Recall):
        return not isinstance(node, Instead)
    if isinstance(before, Evenly) and before.amount.values == (0,):
        return not isinstance(node, _BEFORE_COUNT)
    return isinstance(before, Tail) and not _closes_tail(node)


def _closes_tail(node: Node) -> bool:
    """Whether an instruction is none of the last repeat: the row is turned, joined, cut."""
    return isinstance(node, (Join, FinishOff)) or (isinstance(node, Turn) and node.turned)


def _is_pair(repeat: Repeat) -> bool:
    """Whether a group was written between two stars: "*A* 3 times"."""
    times = repeat.times
    return times.often is Often.TIMES and times.noun != "in all" and repeat.split is None


def _all_of(times: Times) -> Times:
    """How often a group is worked in all: "9 more times" is 10 times."""
    amount = times.amount
    if times.often is not Often.MORE or amount is None:
        return times
    more = tuple(None if value is None else value + 1 for value in amount.values)
    return replace(times, often=Often.TIMES, amount=replace(amount, values=more))


def _how_often(times: Times, wording: Wording) -> str:
    amount = times.amount
    if times.noun == "corner":
        return "to next corner"
    if times.until is not None:
        return up_to(times.until, wording)
    if times.often is Often.ACROSS or amount is None:
        return wording.to_the_end
    if times.often is Often.TO_LAST:
        return _to_last(times)
    if times.often is Often.MORE:
        return more_times_words(amount)
    words = times_words(amount)
    return f"{words} in all" if times.noun == "in all" else words


def _to_last(times: Times) -> str:
    amount = times.amount
    if amount is None or times.noun == "tch":
        return "to tch"
    number = "" if is_one(amount) else f"{amount_words(amount)} "
    return f"to last {number}{counted_noun(times.noun, amount)}"
