"""Which instructions of a row say more than the tree keeps of them?

"Sk next 34 sts for the first cap sleeve" is a skip of 34 in the tree. Where a row is set
anew, such an instruction stands in its own words, so that nothing of it is lost.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from hookwright.design.trade_words import trade_word
from hookwright.notation.nested import nested
from hookwright.notation.printing import Wording, body_words
from hookwright.notation.tree import (
    InOnePlace,
    Node,
    Remark,
    Repeat,
    RowText,
    Tail,
    Unread,
)
from hookwright.notation.vocabulary import singular, standard_words
from hookwright.regex import regex
from hookwright.source import Span

_WORD = regex(r"[A-Za-z]{3,}")
_FRAMES = (Repeat, InOnePlace, Tail)
_BROKEN = regex(r"[*\[\]{}]")
_NOTHING_MORE = frozenset(
    "the and then into onto upon from over work working worked make making made next each "
    "every across around along end ends ending last row rows rnd rnds round rounds rep rpt "
    "repeat repeating repeated times time more skip miss missing skipping one two three "
    "four five six seven eight nine ten once twice thrice all only with without join "
    "joining slip slipping count counts counting does doesn not first second third fourth "
    "fifth sixth same place whole until till reach remaining rem stitch stitches chain "
    "chains space spaces loop loops hook hooks are that this there here beginning beg "
    "turning your for through back front both again now always still also put place "
    "crochet single double treble half stands stand being been has have you begin starting "
    "start turn fasten off cut yarn break finish change changing color colour using use "
    "sts dcs scs hdcs trs sps chs".split()
)
"""Words that the printer has its own words for, or that tell nothing more."""


Said = Callable[[Span], str]
"""The words of a stretch of a row, counted from behind its label, in the size wanted."""


def own_phrases(row: RowText, said: Said, wording: Wording) -> Iterator[tuple[Span, str]]:
    """The instructions that say more, by their spans, in the words of the text.

    Args:
        row: The row.
        said: Gives the words of a stretch of it.
        wording: How the others are printed.
    """
    leaves = [node for node in nested(row.body) if not isinstance(node, _FRAMES)]
    leaves.sort(key=lambda node: node.span)
    for at, node in enumerate(leaves):
        if isinstance(node, (Remark, Unread)):
            continue
        words = _phrase(said, leaves, at)
        if words and _says_more(words, node, wording):
            yield node.span, words


def _phrase(said: Said, leaves: Sequence[Node], at: int) -> str:
    """An instruction with the words up to the next one; "" where marks stand among them."""
    span = leaves[at].span
    end = leaves[at + 1].span.start if at + 1 < len(leaves) else span.end
    for stretch in (Span(span.start, max(span.end, end)), span):
        words = " ".join(said(stretch).strip(" .,;:\n").split())
        if _is_plain(words):
            return words
    return ""


def _is_plain(words: str) -> bool:
    return not _BROKEN.search(words) and words.count("(") == words.count(")")


def _says_more(words: str, node: Node, wording: Wording) -> bool:
    printed = body_words(RowText(None, (node,), (), node.span), wording).lower()
    known = {form for word in _WORD.findall(printed) for form in singular(word)}
    return any(_is_more(word.lower(), known, printed) for word in _WORD.findall(words))


def _is_more(word: str, known: set[str], printed: str) -> bool:
    if word in _NOTHING_MORE or word in printed or not known.isdisjoint(singular(word)):
        return False
    return trade_word(word) is None and word not in standard_words()
