"""In what order does the hook move, and which words belong to which motion?

Steps are written one after another; places, repeats and "leaving the last loop of each" are
words that come after the steps they belong to, and find them here.
"""

from __future__ import annotations

from msgspec import Struct
from msgspec.structs import replace

from hookwright.notation.motions.places import Place, Where
from hookwright.source import Span


class Step(Struct, frozen=True):
    """One motion, or one stitch named whole.

    Attributes:
        does: "yo", "insert", "up" (draw up loops), "through" (draw through loops),
            "stitch", "chain", "skip", "drop" (take the hook out), "gather" (draw the
            dropped loop through), "count" (the text counts loops), "finish", "tall" (the
            text says how tall), "go" (a place named before the work), "all in" (one named
            after it), "open" (a bracket or star).
        span: The words.
        count: How many; 0 for a draw that says no number.
        place: Where the hook goes in, if the words say it.
        name: The stitch. Of a draw through: "stitch" (the stitch as well), "top" (the new
            loop, through the first one), "but" (all but so many). Of a draw up: "same" (the
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


class Repeat(Struct, frozen=True):
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


class StepWriter:
    """The steps so far, and which of them later words may still change."""

    def __init__(self) -> None:
        self.steps: list[Step | Repeat] = []
        self.placed = False  # the last step has its place: one more place works it again
        self.holding = False  # stitches to come keep their last loops
        self._wants: int | None = None  # the step that a place may still belong to
        self._counting = False  # the last step is a repeat without its number yet
        self._sentence = 0
        self._searched = 0  # stitches before this step are not looked for again
        self._brackets: list[tuple[int, bool]] = []  # where each begins; whether it is work
        self._star: int | None = None
        self._starred: tuple[int, int] | None = None  # what stood between two stars
        self._group = (0, -1)  # a closed group; words after it may repeat it

    def add(self, step: Step | Repeat) -> None:
        """Write a step that needs no place."""
        self.steps.append(step)
        self._wants, self.placed, self._counting = None, False, False

    def act(self, step: Step, place: Place | None) -> None:
        """Write a step that goes into a place, said here or still to come."""
        self.add(replace(step, place=place))
        self.placed = place is not None
        self._wants = None if self.placed else len(self.steps) - 1

    def end_sentence(self) -> None:
        """A full stop: places and repeats of the next sentence are its own."""
        self._sentence = len(self.steps)

    @property
    def begins_sentence(self) -> bool:
        """Whether the sentence has no step yet."""
        return len(self.steps) == self._sentence

    @property
    def last(self) -> Step | None:
        """The last step, if it is no repeat."""
        step = self.steps[-1] if self.steps else None
        return step if isinstance(step, Step) else None

    @property
    def last_is_stitch(self) -> bool:
        """Whether the last step is a stitch named whole."""
        return self.last is not None and self.last.does == "stitch"

    # Places that come after the work

    def settle(self, place: Place, span: Span, *, loose: bool, leads: bool) -> None:
        """Give a place that stands by itself to the steps it belongs to.

        Args:
            place: The place.
            span: Its words.
            loose: Whether a comma or stop stands before it.
            leads: Whether work follows at once: "in next st dc, ch 1".
        """
        if self.steps and isinstance(self.steps[-1], Repeat):
            self._place_repeat(self.steps[-1], place)
        elif self._wants is not None and not loose:
            self._set_place(self._wants, place)
            self.share(self._wants)
            self._wants, self.placed = None, True
        elif self._after_group and not loose:
            self._place_group(place, span)
        elif leads or self.begins_sentence:
            self.add(Step("go", span, place=place))
        elif self.placed and self.last:
            self.steps.append(replace(self.last, place=place))
        else:
            self.add(Step("all in", span, place=place))

    def share(self, index: int) -> None:
        """Give a list of stitches one place: "2 dc, ch 1, 2 dc in next st" uses one."""
        step = self.steps[index]
        place = step.place if isinstance(step, Step) and step.does == "stitch" else None
        if place is None or not place.is_next or place.count > 1:
            return
        first = index
        while first > self._sentence and self._is_bare(first - 1):
            first -= 1
        if first < index:
            self._set_place(index, Place())
            self._set_place(first, place)

    def _is_bare(self, index: int) -> bool:
        step = self.steps[index]
        return (
            isinstance(step, Step)
            and step.place is None
            and step.does in {"stitch", "chain"}
        )

    def _set_place(self, index: int, place: Place) -> None:
        step = self.steps[index]
        if isinstance(step, Step) and step.does != "chain":
            self.steps[index] = replace(step, place=place)

    def _place_group(self, place: Place, span: Span) -> None:
        start, end = self._group
        self._set_place(start, replace(place, count=1))
        if place.is_next and place.count > 1:
            self.add(Repeat(span, start + 1, end, place.count - 1, place=place))

    def _place_repeat(self, repeat: Repeat, place: Place) -> None:
        """Say where repeats are worked; "rep in each of next 2 sts" also says how often."""
        changed = replace(repeat, place=place)
        if self._counting and place.is_next:
            changed = replace(changed, count=place.count)
        elif not self._counting and place.is_next and place.count == 1:
            self._set_place(
                repeat.start, place
            )  # "(A) 4 times in next st": all in one place
            changed = replace(changed, place=Place())
        self.steps[-1] = changed
        self._counting = False

    def _place_opening(self, repeat: Repeat, place: Place) -> None:
        opening = self.steps[repeat.start - 1] if repeat.start else None
        if isinstance(opening, Step) and opening.does == "open":
            self._set_place(repeat.start - 1, place)

    # Loops held back

    def hold_back(self) -> int | None:
        """Keep the last loops of the stitches just named; the last one's index, if any."""
        name, found = "", None
        first, self._searched = self._searched, len(self.steps)
        for index in range(len(self.steps) - 1, first - 1, -1):
            step = self.steps[index]
            if (
                isinstance(step, Repeat)
                or step.does in {"through", "yo", "up"}
                or step.held
            ):
                break
            other = step.does == "stitch" and name not in {"", step.name}
            if other or (found is not None and index < self._sentence):
                break
            if step.does == "stitch":
                name, found = step.name, index if found is None else found
                self.steps[index] = replace(step, held=True)
        return found

    def join(self, span: Span) -> None:
        """Draw the stitches just named together: "2 dc off as one", "dc3tog"."""
        stitch = self.hold_back()
        if stitch is None:
            return
        placed, step = self.placed, self.steps[stitch]
        if isinstance(step, Step) and step.place is None:
            self._set_place(stitch, Place(Where.NEXT, step.count))
        self.holding = False
        self.add(Step("through", span, 0, whole=True))
        self.placed, self._wants = placed, stitch

    # Groups and repeats

    @property
    def _after_group(self) -> bool:
        return self._group[1] == len(self.steps)

    def open_bracket(self, span: Span, *, works: bool) -> None:
        """A bracket opens; one that only says "twice" holds no work."""
        if works:
            self.add(Step("open", span))
            self._brackets.append((len(self.steps) - 1, True))
            self.end_sentence()
        else:
            self._brackets.append((self._enclosing, False))

    def close_bracket(self) -> None:
        """A bracket closes: its steps are a group, unless they only count loops."""
        start, works = self._brackets.pop() if self._brackets else (0, False)
        inside = self.steps[start + 1 : start + 3] if works else []
        if any(isinstance(step, Repeat) or step.does != "count" for step in inside):
            self._group = (start, len(self.steps))
        if works:
            self._wants, self.placed = None, False

    @property
    def _enclosing(self) -> int:
        return self._brackets[-1][0] if self._brackets else 0

    def star(self, span: Span) -> None:
        """A star opens a group or, if one is open, closes it."""
        if self._star is None or self._starred:
            self.add(Step("open", span))
            self._star, self._starred = len(self.steps) - 1, None
            self.end_sentence()
        else:
            self._starred = self._group = (self._star, len(self.steps))

    def repeat(self, span: Span, *, starred: bool) -> None:
        """Repeat from the star, or the group just closed, or all so far."""
        if self._star is not None and (starred or not self._after_group):
            self._starred = self._starred or (self._star, len(self.steps))
            start, end = self._starred
        elif self._after_group:
            start, end = self._group
        else:
            start, end = self._enclosing - 1, len(self.steps)
        self.add(Repeat(span, start + 1, end))
        self._counting = True

    def times(self, span: Span, count: int, *, more: bool, total: bool) -> None:
        """Say how often: of a repeat, of the group just closed, or of the last motion."""
        last = self.steps[-1] if self.steps else None
        extra = count if more else count - 1
        if isinstance(last, Repeat) and self._counting:
            unsure = not (more or total or count == 1)
            extra = count - 1 if total else count
            self.steps[-1] = replace(
                last, span=last.span.to(span), count=extra, unsure=unsure
            )
            self._counting = False
        elif self._after_group:
            self.add(self._group_again(span, extra))
        elif isinstance(last, Step) and last.does == "yo":
            self.steps[-1] = replace(
                last, count=last.count + extra, span=last.span.to(span)
            )
        elif isinstance(last, Step):
            self.add(Repeat(span, self._motion_start(last), len(self.steps), extra))

    def until(self, span: Span, loops: int) -> None:
        """Repeat until so many loops are on the hook; if nothing is repeated, a count."""
        last = self.steps[-1] if self.steps else None
        if isinstance(last, Repeat):
            self.steps[-1] = replace(last, until=loops)
            self._counting = False
        elif self._after_group:
            self.add(replace(self._group_again(span), until=loops))
        elif last and last.does == "through":
            self.add(Repeat(span, self._motion_start(last), len(self.steps), until=loops))
        else:
            self.add(Step("count", span, loops))

    def _group_again(self, span: Span, count: int = 1) -> Repeat:
        start, end = self._group
        return Repeat(span, start + 1, end, count)  # after the bracket or star

    def _motion_start(self, last: Step) -> int:
        """Where the last motion begins: its yarn overs and insertion belong to it."""
        along = {"yo", "insert"} if last.does == "up" else {"yo"}
        start = len(self.steps) - 1
        while start > self._sentence:
            before = self.steps[start - 1]
            if isinstance(before, Repeat) or before.does not in along:
                break
            start -= 1
        return start
