"""Phrases of stitches with their places: plain ones, several joined, those in one."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from hookwright.notation.cursor import Cursor, Sayings
from hookwright.notation.fold import Again, TimesMark
from hookwright.notation.lexer import Kind
from hookwright.notation.makes import read_make
from hookwright.notation.one_place import (
    all_in_place,
    gather,
    gather_around_chain,
    gather_scallop,
    grow_from_space,
    is_one_space,
    read_all_in_one,
    where_it_begins,
)
from hookwright.notation.phrases import ROW_ENDS
from hookwright.notation.place_words import CHAIN_NOUNS, across, everything
from hookwright.notation.reader import Reader
from hookwright.notation.same_group import further_in_group
from hookwright.notation.targets import read_target
from hookwright.notation.told_so_often import take_so_often
from hookwright.notation.tree import (
    Amount,
    Chain,
    InOnePlace,
    Loops,
    Make,
    Often,
    Remark,
    Repeat,
    Target,
    Turn,
    Which,
)
from hookwright.notation.unnamed import UNNAMED, all_places
from hookwright.notation.vocabulary import is_increase


def _list_in_both(reader: Reader, made: list[Make]) -> bool:
    """ "2 dc, 3 ch, 2 dc in this loop and in every loop": the whole list in each."""
    first, second = made
    if first.stitch != second.stitch or first.amount != second.amount:
        return False
    del reader.items[-1]
    gathered = gather_around_chain(reader)
    last = reader.items[-1]
    if gathered and isinstance(last, InOnePlace) and second.target is not None:
        return reader.add(replace(last, target=second.target))
    reader.add(second)
    return False


def read_make_phrase(reader: Reader) -> bool:
    """Stitches, with their place; several places joined by "and" give several nodes."""
    cursor = reader.cursor
    start = cursor.at
    before = cursor.tokens[start - 1].text if start else ""
    joined = "and" in (before, cursor.token.text)
    made = read_make(cursor)
    if made is None:
        return False
    if _only_said(reader, made, start):
        return True
    made = [_in_every_loop(reader, made[0]), *made[1:]]
    made = _over_new_chain(reader, made)
    made = _from_chain_on(reader, _back_along_chain(reader, _over_the_tail(reader, made)))
    made[0] = _to_beginning_chain(reader, _last_of_repeat(reader, made[0]))
    made[0] = _into_made(reader, _named_before(reader, made[0]))
    made[0] = _from_second_chain(reader, made[0])
    made[0] = _under_chain(reader, _near_end(reader, made[0]))
    made[0] = further_in_group(reader, _come_round(reader, made[0]))
    made[0] = replace(made[0], target=where_it_begins(reader, made[0].target))
    for node in made:
        reader.add(node)
    if len(made) == 1 and take_so_often(reader):
        return True
    if len(made) == 2 and _list_in_both(reader, made):
        return True
    if len(made) == 1 and grow_from_space(reader):
        return read_all_in_one(reader)
    if len(made) == 1 and (
        gather_around_chain(reader, joined=joined) or gather_scallop(reader)
    ):
        return True
    target = made[0].target
    if target is not None and len(made) == 1 and all_in_place(reader, start):
        reader.items[-1] = replace(made[0], target=None)
        gather(reader, target)
        return True
    if joined and len(made) == 1 and target is not None and is_one_space(target):
        reader.items[-1] = replace(made[0], target=None)
        gather(reader, target)
        return True
    return read_all_in_one(reader)


def _only_said(reader: Reader, made: Sequence[Make], start: int) -> bool:
    """Whether the stitches are only named before what is worked: how, or what for."""
    cursor = reader.cursor
    if _announces(cursor, made):
        return reader.add(Loops(made[0].loop, cursor.span_from(start)))
    return _says_what_comes(cursor, made) and reader.remark(cursor.span_from(start))


def _announces(cursor: Cursor, made: Sequence[Make]) -> bool:
    """ "Sc through both layers: ch 1, sc in each st": only how what follows is worked."""
    first = made[0]
    bare = first.loop and first.amount is None and first.target is None
    if len(made) > 1 or not bare or not cursor.is_kind(Kind.COLON):
        return False
    return cursor.peek().kind not in (Kind.END, Kind.LINE)


_AS_FOLLOWS = Sayings((
    "as follows", "again", "once more", "like this", "this way", "in this way", "thus",
    "once again", "as before", "so", "every time", "each time",
))  # fmt: skip


def _says_what_comes(cursor: Cursor, made: Sequence[Make]) -> bool:
    """ "Decrease as follows: ...", "inc again: ...": what the words behind it work."""
    at = cursor.at
    only = made[0]
    changes = is_increase(only.stitch) or only.stitch == "dec"
    bare = changes and only.target is None and only.amount is None and len(made) == 1
    cursor.take_any(_AS_FOLLOWS) if bare else None
    if bare and cursor.is_kind(Kind.COLON) and cursor.peek().kind is not Kind.END:
        return True
    cursor.at = at
    return False


def _back_along_chain(reader: Reader, made: list[Make]) -> list[Make]:
    """ "Ch 20, sl st back along the chain": from the 2nd ch on, as a tie is worked."""
    cursor = reader.cursor
    at = cursor.at
    bare = len(made) == 1 and made[0].target is None and made[0].amount is None
    if not bare or not isinstance(reader.last(), Chain) or not cursor.take_word("back"):
        return made
    cursor.take_word("along", "down", "up", "over", "across", "on", "to", "in", "into")
    cursor.take_word("the", "that", "your", "this", "each", "all")
    if not cursor.take_word(*CHAIN_NOUNS):
        cursor.at = at
        return made
    span = cursor.span_from(at)
    first = Target("ch", Which.NTH, span, ordinal=2, from_hook=True)
    return [
        replace(made[0], target=first),
        replace(made[0], target=Target("ch", Which.EACH, span), span=span),
    ]


_NEW_CHAIN = Sayings(
    f"{way} {the}{new} {chains}"
    for way in (
        "back over", "back along", "back on", "back down", "back across", "over", "along",
        "on", "across", "down", "in", "into",
    )
    for the in ("the ", "these ", "your ", "")
    for new in ("new", "added", "extra")
    for chains in ("ch", "chs", "chain", "chains")
)  # fmt: skip
_BEGUN = Sayings(
    f"{begin} {where}" for begin in ("beginning", "starting", "begin", "start")
    for where in ("in", "with", "from", "at")
)  # fmt: skip


def _over_new_chain(reader: Reader, made: list[Make]) -> list[Make]:
    """ "4 sc back over the new chains": the first of them in the 2nd from the hook."""
    cursor = reader.cursor
    start = cursor.at
    bare = len(made) == 1 and made[0].target is None and made[0].legs == 1
    number = made[0].amount.at(0) if bare and made[0].amount is not None else None
    if not bare or number == 0 or reader.has_work() or not cursor.take_any(_NEW_CHAIN):
        return made
    at = cursor.at
    cursor.take_kind(Kind.COMMA)
    told = read_target(cursor) if cursor.take_any(_BEGUN) else None
    if told is None or not told.from_hook:
        cursor.at = at
    span = cursor.span_from(start)
    ordinal = (told.ordinal if told is not None and told.from_hook else None) or _SECOND
    first = Target("ch", Which.NTH, span, ordinal=ordinal, from_hook=True)
    others = Amount((number - 1,), span) if number is not None else None
    whole = [replace(made[0], amount=None, target=first)]
    rest = replace(whole[0], target=Target("ch", Which.EACH, span, others))
    return whole if number == 1 else [*whole, rest]


def _in_every_loop(reader: Reader, node: Make) -> Make:
    """ "Sc in front loops (12)", where nothing else is worked: in all of them."""
    bare = node.target is None and node.amount is None and node.loop
    if not bare or reader.has_work() or reader.depth:
        return node
    said = reader.text[node.span.start : node.span.end].lower()
    alone = said.endswith("loops") and reader.cursor.is_kind(*ROW_ENDS)
    return replace(node, target=everything(node.span)) if alone else node


def _from_chain_on(reader: Reader, made: list[Make]) -> list[Make]:
    """ "Sc from 2nd ch": in the 2nd ch from hook, and in each behind it."""
    cursor = reader.cursor
    at = cursor.at
    bare = len(made) == 1 and made[0].target is None and made[0].amount is None
    if not bare or reader.has_work() or not cursor.take_word("from"):
        return made
    cursor.take_word("the")
    ordinal = cursor.token.value
    if not (cursor.take_kind(Kind.ORDINAL) and cursor.take_word(*CHAIN_NOUNS)):
        cursor.at = at
        return made
    cursor.take_phrase("from hook", "from the hook")
    span = cursor.span_from(at)
    across(cursor) or cursor.take_word("on", "onwards", "onward")
    first = Target("ch", Which.NTH, span, ordinal=ordinal, from_hook=True)
    return [
        replace(made[0], target=first),
        replace(made[0], target=Target("ch", Which.EACH, span), span=span),
    ]


def _over_the_tail(reader: Reader, made: list[Make]) -> list[Make]:
    """ "tr3tog over last 2 tr and turning ch": one stitch with its last leg there."""
    targets = [node.target for node in made if node.target is not None]
    if len(targets) < 2 or made[0].legs < 2:
        return made
    whole = all_places(targets)
    if whole.amount is None or whole.amount.values != (made[0].legs,):
        return made
    if whole.which is Which.LAST and targets[-1].noun == "tch":
        _stop_before(reader, targets[0], whole)
    span = made[0].span.to(made[-1].span)
    return [replace(made[0], target=whole, amount=None, span=span)]


def _stop_before(reader: Reader, named: Target, whole: Target) -> None:
    """ "To last 2 tr, tr3tog over last 2 tr and turning ch": the first stops before all."""
    before = reader.items[-1] if reader.items else None
    place = before.target if isinstance(before, Make) else None
    until = place.until if place is not None else None
    if not isinstance(before, Make) or place is None or until is None:
        return
    numbers = [one.amount.values if one.amount else (1,) for one in (until, named)]
    if numbers[0] == numbers[1]:
        until = replace(until, noun="st", amount=whole.amount)
        reader.items[-1] = replace(before, target=replace(place, until=until))


def _to_beginning_chain(reader: Reader, node: Make) -> Make:
    """ "ss to the 3ch" behind the work of a round: its beginning chain, not 3 chains."""
    target = node.target
    if target is None or target.noun != "ch" or target.which is not Which.NEXT:
        return node
    if target.amount is None or not reader.has_work():
        return node
    said = reader.text[target.span.start : target.span.end].lower().split()
    if "next" in said or "each" in said:
        return node
    if node.stitch != "sl st" and not _is_in_edge_chain(reader, node, target):
        return node
    chain = replace(target, noun="tch", chains=target.amount.at(0), amount=None)
    return replace(node, target=chain)


def _is_in_edge_chain(reader: Reader, node: Make, target: Target) -> bool:
    """ "1 htr in the 2 ch" at the end of a row: one stitch goes into the chain as a whole.

    Without its number it does so where the row has begun with as many chains.
    """
    words = reader.text[target.span.start : target.span.end].lower().split()
    chains = target.amount.at(0) if target.amount is not None else None
    over = reader.cursor.is_kind(*ROW_ENDS, Kind.CLOSE) or reader.cursor.is_word("turn")
    comma = reader.cursor.is_kind(Kind.COMMA) and reader.cursor.peek().text == "turn"
    if (
        words[:1] != ["the"]
        or not (over or comma)
        or reader.depth
        or (chains or 0) < _SECOND
    ):
        return False
    if node.amount is not None:
        return node.amount.values == (1,)
    first = reader.items[0] if reader.items else None
    turned = any(isinstance(item, Turn) for item in reader.items)
    return turned and isinstance(first, Chain) and first.amount.at(0) == chains


def _from_second_chain(reader: Reader, node: Make) -> Make:
    """ "Ch 8, ss in 2nd ch, ss in next 6": a cord is worked back; no ring is closed."""
    target, chain = node.target, reader.last()
    if node.stitch != "sl st" or target is None or not isinstance(chain, Chain):
        return node
    if target.noun != "ch" or target.ordinal != _SECOND or target.from_hook:
        return node
    return replace(node, target=replace(target, from_hook=True))


_SECOND = 2


def _into_made(reader: Reader, node: Make) -> Make:
    """ "2 tr, 3 ch, ss in last tr, 1 tr": a picot on the stitch that was made last."""
    target = node.target
    if node.stitch != "sl st" or target is None or target.which is not Which.LAST:
        return node
    before, chain = reader.items[-2:] if len(reader.items) > 1 else (None, None)
    on_it = isinstance(before, Make) and before.stitch == target.noun
    if not on_it or not isinstance(chain, Chain) or target.amount is not None:
        return node
    return replace(node, target=replace(target, noun="made", which=Which.SAME))


def _come_round(reader: Reader, node: Make) -> Make:
    """ "..., ch 2, dc in the joining st", behind other work: the first one of the round."""
    target = node.target
    if target is None or target.noun != "base" or node.stitch == "sl st":
        return node
    said = reader.text[target.span.start : target.span.end].lower()
    closes = isinstance(reader.last(), Chain) and reader.has_work()
    if "join" not in said or not closes:
        return node
    return replace(node, target=replace(target, noun="st", which=Which.FIRST))


def _named_before(reader: Reader, node: Make) -> Make:
    """ "Sc in next 4 sts, 2 in last": a stitch without a name is the one before it."""
    if node.stitch != UNNAMED:
        return node
    before = (item for item in reversed(reader.items) if isinstance(item, Make))
    plain = (i.stitch for i in before if i.legs == 1 and not i.stitch.endswith("inc"))
    last = next(plain, UNNAMED)
    return node if last == "sl st" else replace(node, stitch=last)


def _last_of_repeat(reader: Reader, node: Make) -> Make:
    """ "... to last tr, 1 tr in it": "it" is what the repeat has left."""
    before = next((i for i in reversed(reader.items) if not isinstance(i, Remark)), None)
    times = before.times if isinstance(before, (Again, Repeat, TimesMark)) else None
    named = node.target is not None and _is_that_one(reader, node.target)
    left = before.target if isinstance(before, (Make, InOnePlace)) else None
    if left is not None and left.left_out == 1 and (named or _is_last_one(reader, node)):
        # "except the last, ... that one"
        place = Target(left.noun, Which.LAST, node.span, chains=left.chains)
        return replace(node, target=place)
    if named and left is not None and left.until is not None:  # "to next corner, 3 in it"
        return replace(node, target=replace(left.until, span=node.span))
    if times is None or times.often is not Often.TO_LAST or not named:
        return node
    amount = times.amount if times.amount and times.amount.values != (1,) else None
    noun = "sp" if times.noun == "sp" else "st"
    place = Target(noun, Which.LAST, node.span, amount)
    return replace(node, target=place)


def _near_end(reader: Reader, node: Make) -> Make:
    """ "Sc twice in the end st, sc to the other end st": a row begins with the near one."""
    target = node.target
    if target is None or target.which is not Which.LAST or reader.has_work():
        return node
    said = reader.text[target.span.start : target.span.end].lower().split()
    if "end" not in said or not {"last", "final", "other", "far"}.isdisjoint(said):
        return node
    goes_on = reader.cursor.is_kind(Kind.COMMA, Kind.SEMICOLON)
    return replace(node, target=replace(target, which=Which.FIRST)) if goes_on else node


_UNDER_IT = Sayings((
    *(
        f"{just}{under} {it}"
        for just in ("just ", "right ", "directly ", "")
        for under in ("under", "below", "beneath", "underneath")
        for it in ("it", "the ch", "the chain", "this ch", "this chain", "the ch 3")
    ),
    "at its foot", "at its base", "at the foot of it", "at the base of it",
))  # fmt: skip


def _under_chain(reader: Reader, node: Make) -> Make:
    """ "Ch 3 (a dc), 2 dc in the sc just under it": the place that the chain stands on."""
    target = node.target
    if target is None or target.which is not Which.NEXT or reader.has_work():
        return node
    chained = any(isinstance(item, Chain) for item in reader.items)
    alone = target.amount is None and target.of is None and target.noun not in ("sp", "ch")
    if not (chained and alone) or not reader.cursor.take_any(_UNDER_IT):
        return node
    return replace(node, target=Target("base", Which.SAME, target.span))


def _is_last_one(reader: Reader, node: Make) -> bool:
    """ "in the last one", "in the last": of what was named before."""
    target = node.target
    if target is None or target.which is not Which.LAST or target.noun != "st":
        return False
    return (
        reader.text[target.span.start : target.span.end].lower().endswith(("one", "last"))
    )


def _is_that_one(reader: Reader, target: Target) -> bool:
    """ "in it", "in that one": what was named before."""
    said = reader.text[target.span.start : target.span.end].lower().split()
    return target.noun == "here" or (target.which is Which.SAME and "that" in said)
