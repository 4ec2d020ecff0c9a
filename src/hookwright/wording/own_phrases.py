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
    printed = body_words(row, wording).lower()
    leaves = [node for node in nested(row.body) if not isinstance(node, _FRAMES)]
    leaves.sort(key=lambda node: node.span)
    slips = [node.span for node in leaves if isinstance(node, Unread)]
    counts = [claim.span.start for claim in row.claims]
    for at, node in enumerate(leaves):
        if isinstance(node, Remark):
            words = _remark(said, leaves, at)
            if words:
                yield node.span, words
        mended = any(slip in node.span for slip in slips)  # printed as it was meant
        if mended or isinstance(node, (Remark, Unread)):
            continue
        words = _phrase(said, leaves, at, counts)
        if words and _says_more(words, printed):
            yield node.span, words


def _phrase(said: Said, leaves: Sequence[Node], at: int, counts: Sequence[int]) -> str:
    """An instruction with the words up to the next one; "" where marks stand among them."""
    span = leaves[at].span
    end = leaves[at + 1].span.start if at + 1 < len(leaves) else span.end
    end = min([end, *(count for count in counts if count >= span.end)])
    for stretch in (Span(span.start, max(span.end, end)), span):
        words = " ".join(said(stretch).strip(" .,;:\n").split())
        if _is_plain(words):
            return words
    return ""


def _remark(said: Said, leaves: Sequence[Node], at: int) -> str:
    """A remark with the words that lead to it: "for the first" of a "cap sleeve"."""
    span = leaves[at].span
    before = leaves[at - 1].span.end if at else span.start
    lead = said(Span(min(before, span.start), span.start)).strip(" .,;:-\n")
    if not lead or not _is_plain(lead) or _HOW_OFTEN.search(lead):
        return ""
    return " ".join(f"{lead} {said(span)}".strip(" .,;:\n").split())


_HOW_OFTEN = regex(r"\d|\b(?:times|rep|repeat|across|around|once|twice)\b|[()]")


def _is_plain(words: str) -> bool:
    return not _BROKEN.search(words) and words.count("(") == words.count(")")


def _says_more(words: str, printed: str) -> bool:
    """Whether some words hold one that the row set anew has not."""
    known = {form for word in _WORD.findall(printed) for form in singular(word)}
    return any(_is_more(word.lower(), known, printed) for word in _WORD.findall(words))


def _is_more(word: str, known: set[str], printed: str) -> bool:
    if word in _NOTHING_MORE or word in printed or not known.isdisjoint(singular(word)):
        return False
    return trade_word(word) is None and word not in standard_words()
