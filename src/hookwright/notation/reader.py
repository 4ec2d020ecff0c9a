"""One row being read: where it stands and what has been read of it so far.

Every reader of a phrase takes this state and says whether it took the words there.
"""

from __future__ import annotations

from collections.abc import Callable

from msgspec import Struct, field

from hookwright.notation.cursor import Cursor
from hookwright.notation.fold import Item
from hookwright.notation.lexer import Kind
from hookwright.notation.tree import (
    Claim,
    Evenly,
    InOnePlace,
    Make,
    Recall,
    Remark,
    Repeat,
    Tail,
)
from hookwright.source import Span

_MAY_CHANGE = 4
"""How many of the items read last may still be put together into others."""


class Reader(Struct):
    """One row being read.

    Attributes:
        cursor: Where it stands.
        text: The whole text, for names in their own letters.
        read_item: What reads one item; it calls the readers that are given this one.
        items: What has been read at this level.
        claims: Counts printed so far.
        depth: Brackets around this place.
        sentence: Where the present sentence begins among the items.
        mark: The last mark passed, which tells a count from an instruction.
        yarns: Words in the names of yarns, lower case.
        workless: How many of the items are known to work nothing.
        called: What the whole of this level is called, if a bracket behind it says so.
    """

    cursor: Cursor
    text: str
    read_item: Callable[[Reader], None]
    items: list[Item] = field(default_factory=list)
    claims: list[Claim] = field(default_factory=list)
    depth: int = 0
    sentence: int = 0
    mark: Kind = Kind.LINE
    yarns: frozenset[str] = frozenset()
    workless: int = 0
    called: str = ""

    def add(self, item: Item) -> bool:
        """Keep an item; true, so that a reader can end with it."""
        self.items.append(item)
        return True

    def remark(self, span: Span) -> bool:
        """Keep words that are no instruction; true, as `add`."""
        return self.add(Remark(span, self.text[span.start : span.end]))

    def read_next(self) -> None:
        """Read one item; a token that begins none is passed."""
        before = self.cursor.at
        self.read_item(self)
        if self.cursor.at == before:
            self.cursor.step()

    def read_all(self) -> None:
        """Read items up to the end, or up to a closing bracket."""
        while not self.cursor.done() and self.cursor.token.kind is not Kind.CLOSE:
            self.read_next()

    def last(self) -> Item | None:
        """The item read last; None at the beginning of this level."""
        return self.items[-1] if self.items else None

    def has_work(self) -> bool:
        """Whether anything has been worked: a count needs something to count.

        Long words without any work are not looked through again each time.
        """
        known = min(self.workless, len(self.items))
        for item in self.items[max(0, known - _MAY_CHANGE) :]:
            if isinstance(item, (Make, InOnePlace, Repeat, Recall, Tail, Evenly)):
                return True
        self.workless = len(self.items)
        return False

    def inner(self) -> Reader:
        """A reader for what stands inside brackets here."""
        return Reader(
            self.cursor,
            self.text,
            self.read_item,
            claims=self.claims,
            depth=self.depth + 1,
            yarns=self.yarns,
        )
