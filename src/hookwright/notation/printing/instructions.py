"""One instruction in words: stitches, chains, skips, joins, yarns, rows worked again."""

from __future__ import annotations

from hookwright.notation.printing.labels import figure_words
from hookwright.notation.printing.places import noun_phrase, place
from hookwright.notation.printing.wording import Wording
from hookwright.notation.printing.words import (
    amount_words,
    number_list,
    sentence,
    spelled,
    stitch_word,
    stitch_words,
    times_words,
)
from hookwright.notation.tree import (
    Amount,
    Chain,
    Change,
    Evenly,
    FinishOff,
    Instead,
    Join,
    Loops,
    Make,
    Means,
    Often,
    Recall,
    Remark,
    Role,
    Skip,
    Target,
    Times,
    Turn,
    Unread,
    Unworked,
    Which,
    Yarn,
)
from hookwright.notation.unnamed import UNNAMED
from hookwright.regex import regex

Stitchless = Turn | Join | Yarn | FinishOff | Loops | Unworked | Evenly | Remark | Unread
Simple = Make | Chain | Means | Skip | Recall | Instead | Stitchless

_LOOPS = {
    "back": "in back loops only",
    "front": "in front loops only",
    "third": "in third loop only",
    "": "in both loops",
    "layers": "through both layers",
}
_SHORT_LOOPS = {"back": "BLO", "front": "FLO", "third": "third loop"}


def _loop_words(loop: str) -> str:
    """ " in BLO", " through both layers"; nothing where both loops are meant."""
    if loop == "layers":
        return f" {_LOOPS[loop]}"
    return f" in {_SHORT_LOOPS[loop]}" if loop else ""


def instruction(node: Simple, wording: Wording, *, first: bool = False) -> str:
    """One instruction; "" for words that are none. `first` is the first of its row."""
    match node:
        case Make():
            words = made(node, wording)
        case Chain():
            meaning = _chain_meaning(node, spoken=wording.style.spoken)
            words = f"ch {amount_words(node.amount)}{meaning}"
        case Means():
            words = _skipped_meaning(node)
            words = f"the {words.strip('()')}" if wording.style.spoken else words
        case Skip():
            words = _skipped(node, wording)
        case Recall():
            words = recalled(node, wording)
        case Instead():
            words = _instead(node, wording)
        case _:
            words = _stitchless(node, wording, first=first)
    return words


def _stitchless(node: Stitchless, wording: Wording, *, first: bool) -> str:
    """What is done between the stitches."""
    words = ""
    match node:
        case Turn():
            words = "turn" if node.turned else "do not turn"
        case Join():
            words = _joined(node, wording)
        case Yarn():
            words = _yarn(node, wording, first=first)
        case FinishOff():
            words = "fasten off"
        case Loops():
            words = _loops(node)
        case Unworked():
            words = node.what
        case Evenly():
            words = _evenly(node)
        case Remark():
            words = _remark(node, wording)
        case Unread():
            pass
    return words


def _loops(loops: Loops) -> str:
    """ "in back loops only", "working in front loops of Row 9"."""
    if loops.row:
        return f"working in {loops.loop} loops of Row {loops.row}"
    return _LOOPS[loops.loop]


def _remark(remark: Remark, wording: Wording) -> str:
    """Words beside the instructions; to be heard, without their signs."""
    words = remark.words.strip(" .,;:")
    if wording.style.spoken:
        words = _SIGNS.sub(" ", words)
    return " ".join(words.split())


_ALONG = {"": "", "side": " along the side", "opening": " around the opening"}


def _instead(change: Instead, wording: Wording) -> str:
    """ "with 2 repeats in place of 3", "with 2 dc in each sp", "with 2 more sc"."""
    now, then = (
        ", ".join(instruction(n, wording) for n in nodes if isinstance(n, Simple))
        for nodes in (change.body, change.of)
    )
    if change.begins:
        return f"starting with {now}"
    if change.length:
        return f"with {change.length} {now or 'sts'} between the increases"
    if change.more:
        sign = "more" if change.more > 0 else "fewer"
        words = f"with {abs(change.more)} {sign} {now or 'sts'} in the middle"
        return f"{words} each time" if change.each else words
    if change.times is None:
        if then:
            return f"with {now} in place of {then}"
        placed = any(isinstance(n, Make) and n.target is not None for n in change.body)
        return f"with {now}{'' if placed else ' in the middle'}"
    words = f"with {amount_words(change.times)} repeats"
    return f"{words} in place of {amount_words(change.was)}" if change.was else words


def _evenly(node: Evenly) -> str:
    """ "increasing 9 sts evenly", "60 sc evenly around"."""
    number = amount_words(node.amount)
    if node.change is Change.MORE and node.amount.values == (0,):
        return f"work even in {stitch_word(node.stitch)}" if node.stitch else "work even"
    if node.change is Change.TOTAL:
        return f"{number} {stitch_word(node.stitch)} evenly{_ALONG[node.along]}"
    verb = "increasing" if node.change is Change.MORE else "decreasing"
    if node.at_ends:
        half = tuple(both and both // 2 for both in node.amount.values)
        number = amount_words(Amount(half, node.amount.span))
        return f"{verb} {number} st at each end"
    over = f" over next {amount_words(node.over)} sts" if node.over else ""
    left = f" to last {amount_words(node.leaving)} sts" if node.leaving else ""
    return f"{verb} {number} sts evenly{over}{left}"


def made(make: Make, wording: Wording, *, number_behind: bool = False) -> str:
    """Stitches with their place: "3 dc in next st", "sc in BLO of each st across", "5 sc".

    `number_behind` is for a bare stitch where a number first would read as a count.
    """
    words = stitch_words(make.stitch, make.amount)
    if make.stitch == UNNAMED and make.amount is not None and make.target is None:
        return amount_words(make.amount)  # "(3, inc) 6 times"
    if make.amount is not None:
        number = amount_words(make.amount)
        behind = f"{stitch_word(make.stitch)} {number}"
        words = behind if number_behind else f"{number} {words}"
    needed = " if needed" if make.if_left else ""
    return f"{words}{_where(make, wording)}{needed}"


def _where(make: Make, wording: Wording) -> str:
    target = make.target
    if target is None:
        return _loop_words(make.loop)
    all_of_them = f" {wording.to_the_end}" if runs_to_the_end(target) else ""
    if target.evenly and all_of_them:
        return f" evenly{all_of_them}"
    if make.loop:
        loop = _loop_words(make.loop)
        return f"{loop} of {noun_phrase(target, wording)}{all_of_them}"
    if make.legs > 1 and target.amount is not None and target.noun != "gap":
        return f" over {noun_phrase(target, wording)}"
    return f" {place(target, wording, around_post=bool(make.post))}{all_of_them}"


def runs_to_the_end(target: Target) -> bool:
    """Whether "each" has no other end than that of the row."""
    ended = target.until is not None or target.left_out or target.amount is not None
    return target.which is Which.EACH and not ended and target.noun != "leg"


_SIGNS = regex(r"[()\[\]{}*\"<>|_#~]")
"""What is not said of words that are heard."""


def _chain_meaning(chain: Chain, *, spoken: bool) -> str:
    """ " (counts as dc)"; to be heard ", which counts as dc"."""
    if chain.role is Role.UNSAID:
        return ""
    meaning = "does not count as a st"
    if chain.role is Role.COUNTS:
        meaning = f"counts as {_stands_for(chain.stands, chain.stands_chains, 1)}"
    return f", which {meaning}" if spoken else f" ({meaning})"


def _stands_for(stitch: str, chains: int, number: int) -> str:
    words = "a st" if stitch == "st" and number == 1 else stitch_word(stitch)
    counted = f"{number} {words}" if number > 1 else words
    return f"{counted} and ch {chains}" if chains else counted


def _skipped_meaning(means: Means) -> str:
    if means.role is Role.COUNTS_NOT:
        return "(skipped ch does not count as a st)"
    stands = _stands_for(means.stands, means.stands_chains, means.stitches)
    return f"(skipped ch counts as {stands})"


def _skipped(skip: Skip, wording: Wording) -> str:
    if skip.target.from_hook:
        return f"starting in {noun_phrase(skip.target, wording)}"
    words = noun_phrase(skip.target, wording)
    if skip.left:
        return f"leave {words.removeprefix('next ')} unworked"
    counted = skip.target.which is Which.NEXT and skip.target.amount is not None
    return f"{wording.skip} {words.removeprefix('next ') if counted else words}"


def _joined(join: Join, wording: Wording) -> str:
    words = f"join with {stitch_word(join.stitch)}"
    if join.target is not None:
        words += f" {place(join.target, wording)}"
    return f"{words} to form a ring" if join.to_ring else words


def _yarn(yarn: Yarn, wording: Wording, *, first: bool) -> str:
    where = "" if yarn.target is None else f" {place(yarn.target, wording)}"
    if yarn.standing == "sl st":
        return f"join {yarn.name} with sl st{where}"
    if yarn.standing:
        return f"join {yarn.name} with a standing {stitch_word(yarn.standing)}{where}"
    if where:
        return f"join {yarn.name}{where}"
    if yarn.name == "yarn":  # whichever is used anyway
        return "join yarn"
    return f"with {yarn.name}" if first else f"change to {yarn.name}"


def recalled(recall: Recall, wording: Wording) -> str:
    """Rows worked again: "rep Rows 2-5 nine more times, then Row 2", "as for tab"."""
    if recall.part:
        if recall.ends is not None:
            last = amount_words(recall.ends)
            return f"as for {recall.part} to end of {wording.row} {last}"
        rows = f"{_rows(recall.rows, wording)} of" if recall.rows else "for"
        return f"as {rows} {recall.part}"
    if recall.of_kind and recall.times is not None and recall.times.amount is not None:
        return f"work {amount_words(recall.times.amount)} {recall.label}s"
    if recall.forms_pattern:
        return f"{sentence(_rows(recall.rows, wording))} form the pattern"
    if recall.pattern and recall.times is not None and recall.times.amount is not None:
        return f"rep pattern {times_words(recall.times.amount)}"
    if recall.pattern or recall.onward:
        words = "work in pattern" if recall.pattern else "continue in this way"
    else:
        words = f"rep {_named(recall) if recall.label else _rows(recall.rows, wording)}"
    if recall.more is not None:
        words += f" for {amount_words(recall.more)} more {wording.row.lower()}s"
    if recall.times is not None:
        words += f" {_recall_times(recall.times)}"
    if recall.then:
        words += f", then {_rows(recall.then, wording)}"
    return f"{words}{_until(recall, wording)}"


def _until(recall: Recall, wording: Wording) -> str:
    """How far rows are worked again, where no number of times says it."""
    words = ""
    if recall.up_to:
        words += f" until there are {amount_words(recall.up_to)} {wording.row.lower()}s"
    if recall.reached is not None:
        words += f" until there are {figure_words(recall.reached, wording)}"
    return f"{words} {recall.open_length}" if recall.open_length else words


def _named(recall: Recall) -> str:
    """ "the Dec Row", "Hem Row 2": a row by its name, with its number if it has one."""
    name = recall.label.title()
    return f"{name} {number_list(recall.rows)}" if recall.rows else f"the {name}"


def _rows(numbers: tuple[int, ...], wording: Wording) -> str:
    """ "Rows 2 and 3"; numbers below 0 count back from here: "last 2 rows"."""
    word = wording.row
    if numbers[0] < 0:
        back = f"last {len(numbers)} {word.lower()}s"
        return f"last {word.lower()}" if len(numbers) == 1 else back
    plural = "s" if len(numbers) > 1 else ""
    return f"{word}{plural} {number_list(numbers)}"


def _recall_times(times: Times) -> str:
    """Numbers in letters, since row numbers in figures stand before them."""
    amount = times.amount
    if amount is None:
        return ""
    value = amount.values[0]
    if len(amount.values) > 1 or value is None:
        number = amount_words(amount)
    else:
        number = spelled(value)
    if times.often is not Often.MORE:
        words = times_words(amount) if value in (1, 2) else f"{number} times"
        return f"{words} in all" if times.noun == "in all" else words
    if value in (1, 2) and len(amount.values) == 1:
        return f"{'once' if value == 1 else 'twice'} more"
    return f"{number} more times"
