"""Do a chain and the stitch behind it begin a row as one decrease?

"Ch 2, dc in next st at the start of a row counts as dc2tog" is said once, and holds for
each row that begins with these words.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from msgspec.structs import replace

from hookwright.notation.cursor import Cursor
from hookwright.notation.lexer import Kind, Token
from hookwright.notation.tree import (
    Chain,
    Make,
    Node,
    PartText,
    Remark,
    Role,
    Skip,
    Statement,
    Topic,
    Turn,
    Which,
)
from hookwright.notation.vocabulary import StitchWord

_COUNTS = frozenset("counts count counted stands stand makes make acts act =".split())


def decrease_counted(tokens: Sequence[Token]) -> str:
    """The decrease that a chain and a stitch are said to count as; "" where none is."""
    at = next((i for i, token in enumerate(tokens) if token.text in _COUNTS), None)
    if at is None:
        return ""
    stitches = _stitches(tokens[:at])
    counted = next(iter(_stitches(tokens[at + 1 :])), None)
    if counted is None or len(stitches) != 1 or counted.legs != stitches[0].legs + 1:
        return ""
    return counted.id


def _stitches(tokens: Sequence[Token]) -> list[StitchWord]:
    cursor = Cursor([*tokens, Token(Kind.END, "", 0, 0, 0)])
    found = []
    while not cursor.done():
        stitch = cursor.stitch()
        if stitch is None:
            cursor.step()
        else:
            found.append(stitch)
    return [stitch for stitch in found if stitch.family in ("plain", "together")]


def with_begun_together(
    parts: Iterable[PartText], statements: Iterable[Statement]
) -> tuple[PartText, ...]:
    """The parts, where rows begin with the decrease that a sentence says they do."""
    told = {s.chains: s.word for s in statements if s.topic is Topic.BEGUN_TOGETHER}
    if not told:
        return tuple(parts)
    return tuple(
        replace(part, rows=tuple(replace(r, body=_begun(r.body, told)) for r in part.rows))
        for part in parts
    )


def _begun(body: tuple[Node, ...], told: dict[int | None, str]) -> tuple[Node, ...]:
    """A row with its chain and first stitch as one decrease, where they are so told."""
    at = next((i for i, node in enumerate(body) if isinstance(node, Chain)), None)
    if at is None or any(isinstance(node, Make) for node in body[:at]):
        return body
    behind = at + 1
    while behind < len(body) and isinstance(body[behind], (Skip, Turn, Remark)):
        behind += 1
    chain, made = body[at], body[behind] if behind < len(body) else None
    assert isinstance(chain, Chain)
    decrease = _stitches_named(told.get(chain.amount.at(0), ""))
    if decrease is None or not isinstance(made, Make) or not _in_next(made):
        return body
    alike = _plain(made.stitch, made.legs) == _plain(decrease.id, decrease.legs)
    if not alike or made.legs + 1 != decrease.legs:
        return body
    between = [node for node in body[at + 1 : behind] if not isinstance(node, Skip)]
    both = replace(made, stitch=decrease.id, legs=decrease.legs, amount=None, target=None)
    chain = replace(chain, role=Role.COUNTS_NOT)
    return (*body[:at], chain, *between, both, *body[behind + 1 :])


def _stitches_named(word: str) -> StitchWord | None:
    return Cursor([Token(Kind.WORD, word, 0, 0, 0), Token(Kind.END, "", 0, 0, 0)]).stitch()


def _in_next(made: Make) -> bool:
    """ "1 dc in next st": one, in one place."""
    one = made.amount is None or made.amount.values == (1,)
    target = made.target
    several = target is not None and target.amount and target.amount.values != (1,)
    placed = target is None or target.which is Which.NEXT
    return one and placed and not several


def _plain(stitch: str, legs: int) -> str:
    """The stitch that is drawn together: "dc" of "dc3tog"."""
    return stitch.removesuffix(f"{legs}tog")
