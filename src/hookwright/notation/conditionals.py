"""What is worked by what is met: "if the next st is a sc, dc in it; if not, sc in it"?"""

from __future__ import annotations

from msgspec.structs import replace

from hookwright.notation.cursor import Sayings
from hookwright.notation.fold import Item, Star
from hookwright.notation.lexer import Kind
from hookwright.notation.makes import read_make
from hookwright.notation.place_words import across
from hookwright.notation.reader import Reader
from hookwright.notation.targets import read_target
from hookwright.notation.tree import (
    InOnePlace,
    Make,
    Node,
    Remark,
    Repeat,
    Tail,
    Target,
    Which,
)

_LEFT_OVER = Sayings((
    "needed", "necessary", "required", "need be", "any remain", "any are left",
    *(
        f"{there}{one}{left}"
        for there in ("there is ", "there's ", "you have ", "")
        for one in ("one st ", "one stitch ", "1 st ", "one ", "a st ", "a stitch ")
        for left in ("left over", "left", "remains", "is left over", "is left")
    ),
))  # fmt: skip


def _only_if_left(reader: Reader) -> bool:
    """ "Dec around, end with 1 hdc if needed": worked where the number comes out odd."""
    last = reader.last()
    if not isinstance(last, Make):
        return False
    reader.items[-1] = replace(last, if_left=True)
    return True


def read_conditional(reader: Reader) -> bool:
    """ "if the next st is a sc, dc in it": what is worked goes by what is met."""
    cursor = reader.cursor
    start = cursor.at
    cursor.take_word("and", "but", "or", "then")
    if not cursor.take_word("if", "where", "when"):
        cursor.at = start
        return False
    if cursor.take_any(_LEFT_OVER) and _only_if_left(reader):
        return True
    cursor.take_phrase(
        "you come to",
        "you meet",
        "the next st is",
        "the next stitch is",
        "next st is",
        "next stitch is",
        "it is",
        "it's",
        "the st is",
        "the next st was",
        "next st was",
        "it was",
        "the next is",
    )
    cursor.take_word("a", "an", "the")
    met = read_target(cursor)
    cursor.take_word("instead")
    cursor.take_kind(Kind.COMMA)
    made = _made(reader) if met is not None else None
    if met is None or made is None or reader.number_of(Star) % 2:
        cursor.at = start
        return _by_look(reader)
    cursor.take_phrase(*_INTO_IT)
    across(cursor)
    span = cursor.span_from(start)
    return reader.add(
        replace(
            made[0],
            target=replace(met, which=Which.EACH, amount=None, span=span),
            span=span,
        )
    )


_INTO_IT = ("around it", "in it", "into it", "in that", "too", "on it")
_WORK = ("work", "make", "do")


def _made(reader: Reader) -> list[Make] | None:
    """What is made where the condition holds: "dc in it", "work a bpdc around it"."""
    if reader.cursor.take_word(*_WORK):
        reader.cursor.take_word("a", "an", "one")
    return read_make(reader.cursor)


def crosswise(nodes: tuple[Node, ...]) -> tuple[Node, ...]:
    """ "Sc in the dc and dc in the sc", for a whole row: each goes by what it meets."""
    if any(isinstance(node, (Repeat, InOnePlace, Tail)) for node in nodes):
        return nodes
    makes = [node for node in nodes if isinstance(node, Make) and node.stitch != "sl st"]
    places = [node.target for node in makes if node.amount is None]
    if len(makes) != 2 or len(places) != 2 or makes[0].stitch == makes[1].stitch:
        return nodes
    if [place and (place.noun, place.which, place.amount) for place in places] != [
        (makes[1].stitch, Which.NEXT, None), (makes[0].stitch, Which.NEXT, None)
    ]:  # fmt: skip
        return nodes
    return tuple(_in_each(node) if node in makes else node for node in nodes)


def _in_each(node: Node) -> Node:
    if not isinstance(node, Make) or node.target is None:
        return node
    return replace(node, target=replace(node.target, which=Which.EACH))


_CONDITIONS = ("if", "when", "where")
_LONGEST_CONDITION = 14


def _by_look(reader: Reader) -> bool:
    """ "if it stands out, fpdc around it; if it lies back, bpdc around it".

    Which it is cannot be told from the words, but each way is one stitch in the next one:
    the first is worked, and the others are remarks.
    """
    cursor = reader.cursor
    start = cursor.at
    cursor.take_word("and", "but", "or", "then")
    if not cursor.take_word(*_CONDITIONS):
        cursor.at = start
        return False
    while cursor.is_kind(Kind.WORD, Kind.NUMBER) and cursor.at - start < _LONGEST_CONDITION:
        if cursor.is_word(*_WORK):
            break
        cursor.step()
    told = cursor.take_kind(Kind.COMMA, Kind.COLON) or cursor.is_word(*_WORK)
    made = _made(reader) if told else None
    if made is None or len(made) > 1:
        cursor.at = start
        return False
    span = cursor.span_from(start)
    if _is_choice(reader, reader.last()):
        return reader.remark(span)
    cursor.take_phrase(*_INTO_IT)
    span = cursor.span_from(start)
    place = made[0].target
    if place is None or place.noun == "here":
        place = Target("st", Which.NEXT, span)
    return reader.add(replace(made[0], target=place, span=span))


def _is_choice(reader: Reader, item: Item | None) -> bool:
    """Whether an item is the first way of a choice."""
    if not isinstance(item, (Make, Remark)):
        return False
    words = reader.text[item.span.start : item.span.end].lower().split()
    return bool(words) and words[0] in _CONDITIONS
