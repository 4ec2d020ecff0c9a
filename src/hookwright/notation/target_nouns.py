"""What is a place called: "ch-2 sp", "tch", "shell", with the words before it?"""

from __future__ import annotations

from msgspec import Struct

from hookwright.notation.cursor import Cursor, Sayings
from hookwright.notation.lexer import Kind
from hookwright.notation.ordinal_lists import take_ordinals
from hookwright.notation.place_words import (
    ALONE_WORDS,
    BEGINNING_WORDS,
    CENTRE_WORDS,
    CHAIN_NOUNS,
    EACH_WORDS,
    GAP_NOUNS,
    GROUP_NOUNS,
    LAST_WORDS,
    NEXT_WORDS,
    REST_WORDS,
    SAME_WORDS,
    SMALL_WORDS,
    SPACE_NOUNS,
    STITCH_NOUNS,
    UNUSED_WORDS,
    is_chain_length,
    take_chain_length,
)
from hookwright.notation.tree import Amount, Which
from hookwright.notation.vocabulary import compound

_CHAINS_AND_STITCHES = CHAIN_NOUNS | STITCH_NOUNS
_CHAINS_AND_SPACES = CHAIN_NOUNS | SPACE_NOUNS
_EVERYDAY = CHAIN_NOUNS | SPACE_NOUNS | STITCH_NOUNS


# To look a member up in its enumeration takes as long as a call: these are asked for at
# every word before a noun.
_WORD, _NUMBER, _DASH = Kind.WORD, Kind.NUMBER, Kind.DASH


class TargetWords(Struct):
    """What has been said of a target so far."""

    which: Which | None = None
    amount: Amount | None = None
    ordinal: int | None = None
    ordinals: Amount | None = None
    beginning: bool = False
    rest: bool = False
    top: bool = False
    words: int = 0
    centre: bool = False
    corner: bool = False
    alone: bool = False
    last: bool = False
    end: int = 0


def modifiers_ahead(cursor: Cursor) -> TargetWords:
    """The words before a noun, and where they end; the position stays where it was."""
    at = cursor.at
    draft = TargetWords()
    take_modifiers(cursor, draft)
    draft.end, cursor.at = cursor.at, at
    return draft


def take_modifiers(cursor: Cursor, draft: TargetWords) -> None:
    """Takes the words before a noun: which places, how many, the beginning, the centre."""
    while True:
        token = cursor.token
        if token.kind is _WORD:
            if not _take_modifier_word(cursor, draft):
                return
        elif token.kind is Kind.ORDINAL:
            if cursor.stitch_at() is not None:
                return  # "next first cluster", where such a stitch is defined
            _take_ordinal(cursor, draft)
        elif token.kind is _NUMBER and names_size_of_group(
            cursor, counted=draft.amount is not None
        ):
            cursor.step()
            cursor.take_kind(_DASH)
        elif _may_be_amount(cursor) and draft.amount is None:
            if not _take_amount(cursor, draft):
                return
        elif _joins_words(cursor, draft):
            cursor.step()
        else:
            return
        draft.words += 1


def _may_be_amount(cursor: Cursor) -> bool:
    """A number, or a list with one a size: "(4, 6)", or "- (4, 6)" with none at first."""
    dash = cursor.is_kind(_DASH) and cursor.peek().kind is Kind.OPEN
    return dash or cursor.is_kind(_NUMBER, Kind.OPEN)


def _take_ordinal(cursor: Cursor, draft: TargetWords) -> None:
    """ "3rd", "first", "3rd (4th, 5th)"."""
    token = cursor.token
    draft.ordinals = take_ordinals(cursor)
    if draft.ordinals is not None:
        draft.ordinal = token.value
        return
    cursor.step()
    if token.text == "first" or (token.text == "1st" and not _is_chain_noun(cursor)):
        draft.which = draft.which or Which.FIRST
    else:
        draft.ordinal = token.value


def _pass_to_skipped(cursor: Cursor, draft: TargetWords) -> None:
    """ "(The first) of the 3 (skipped sts)": of how many it is one, it need not count."""
    at = cursor.at
    some = draft.which in (Which.FIRST, Which.LAST, Which.NEXT) or draft.ordinal is not None
    if some and cursor.take_word("of"):
        cursor.take_word("the", "these", "those")
        cursor.number()
    if not cursor.is_word(*UNUSED_WORDS):
        cursor.at = at


def names_size_of_group(cursor: Cursor, *, counted: bool) -> bool:
    """ "next 3-dc group", "next two 3 dc groups": what a group is made of, not how many."""
    at = cursor.at
    cursor.step()
    dashed = cursor.take_kind(_DASH)
    stitches = (dashed or counted) and cursor.stitch() is not None
    cursor.take_kind(_DASH)
    named = stitches and (
        cursor.token.text in (*GROUP_NOUNS, *_CORNERS) or (dashed and _take_fan(cursor))
    )
    cursor.at = at
    return named


def _take_fan(cursor: Cursor) -> bool:
    """The "fan" of "next 5-dc fan": the trade's name of a group, told by its stitches."""
    at = cursor.at
    stitch = cursor.stitch()
    if stitch is not None and stitch.family == "group":
        return True
    cursor.at = at
    return False


def _take_amount(cursor: Cursor, draft: TargetWords) -> bool:
    """How many; false where the number is a chain's length. "Each one of" has none."""
    if draft.which is Which.EACH and cursor.take_phrase("one of"):
        return True
    if draft.which is Which.EACH and _is_alone(cursor):  # "each one after that"
        cursor.step()
        return True
    draft.amount = None if is_chain_length(cursor) else cursor.number()
    return draft.amount is not None


def _is_alone(cursor: Cursor) -> bool:
    """Whether "one" stands for the noun: "in every one after that"."""
    after = cursor.peek()
    ends = after.kind is not _WORD and after.kind is not _NUMBER
    return cursor.token.text == "one" and (ends or after.text in _AFTER_ONE)


_AFTER_ONE = frozenset("after to across until till along that around round over up".split())


def _joins_words(cursor: Cursor, draft: TargetWords) -> bool:
    """A hyphen between two words, or a line end among them."""
    token = cursor.token
    hyphen = token.kind is _DASH and cursor.peek().kind is _WORD and token.glued
    return hyphen or (token.kind is Kind.LINE and draft.words > 0)


_SETTLES = {
    **dict.fromkeys(EACH_WORDS | REST_WORDS, Which.EACH),
    **dict.fromkeys(SAME_WORDS, Which.SAME),
    **dict.fromkeys(UNUSED_WORDS, Which.SKIPPED),
    "any": Which.ANY,
}
_SUGGESTS = {**dict.fromkeys(NEXT_WORDS, Which.NEXT), "that": Which.SAME}


def _take_modifier_word(cursor: Cursor, draft: TargetWords) -> bool:
    """Takes one such word; false where the noun, or something else, begins."""
    if cursor.token.text == "of":
        _pass_to_skipped(cursor, draft)
    word = cursor.token.text
    if word in _NUMBER_WORDS and _is_number_word(cursor, draft):
        pass
    elif word in _SETTLES:
        draft.which = _SETTLES[word]
        draft.rest = draft.rest or word in REST_WORDS
    elif word in _SUGGESTS:
        draft.which = draft.which or _SUGGESTS[word]
    elif word in LAST_WORDS:
        draft.last = True
        draft.which = draft.which if draft.which is Which.EACH else Which.LAST
    elif word == "end" and cursor.peek().text in _CHAINS_AND_STITCHES:
        draft.which = draft.which or Which.LAST
    elif word in CENTRE_WORDS:
        draft.centre = cursor.peek().text != "of"
    elif not _describes(cursor, draft):
        return False
    draft.alone = draft.alone or word in ALONE_WORDS
    cursor.step()
    return True


_AT_EDGE = ("edge", "end")


def _describes(cursor: Cursor, draft: TargetWords) -> bool:
    """Whether a word says more of the noun behind it: "edge space", "lonely ch"."""
    word = cursor.token.text
    if word in _AT_EDGE and cursor.peek().text in _CHAINS_AND_SPACES:
        draft.beginning = True
        return True
    if word in SMALL_WORDS:
        return _note_small_word(cursor, draft)
    return _is_adjective(cursor, draft)


_NUMBER_WORDS = frozenset("other alternate both".split())


def _is_number_word(cursor: Cursor, draft: TargetWords) -> bool:
    """ "Every other st" is every second one, "both ch" each of two."""
    if _says_every_other(cursor):
        draft.ordinal = 2
        return True
    both = cursor.token.text == "both"
    if not both or cursor.peek().text not in _CHAINS_AND_STITCHES:
        return False
    draft.which, draft.amount = Which.EACH, Amount((2,), cursor.token.span)
    return True


def _says_every_other(cursor: Cursor) -> bool:
    """ "Every other st", "each alternate sp"; "each other st" is one that is left."""
    word = cursor.token.text
    if word not in ("other", "alternate"):
        return False
    before = cursor.tokens[max(0, cursor.at - 1)].text
    return before == "every" or (word == "alternate" and before in ("each", "ea"))


def _is_adjective(cursor: Cursor, draft: TargetWords) -> bool:
    """A word that only describes the noun right behind it: "one lonely ch", "single st"."""
    word = cursor.token.text
    if word in ALONE_WORDS:
        return cursor.peek().text != "crochet"
    if len(word) <= 3 or not word.isalpha() or word == "foundation":
        return False
    if word in CHAIN_NOUNS:  # "the first chain stitch" is a chain
        return False
    noun = cursor.peek().text in _EVERYDAY or _describes_stitch(cursor, draft)
    before = cursor.tokens[max(0, cursor.at - 1)]
    into_space = before.text in ("in", "into") and cursor.peek().text in SPACE_NOUNS
    begun = draft.words > 0 or before.kind is _NUMBER or into_space
    return begun and noun and not cursor.attempt(Cursor.stitch)


def _describes_stitch(cursor: Cursor, draft: TargetWords) -> bool:
    """ "Each of 24 sleeve dc": such a word before the name of a stitch, of some told."""
    word = cursor.token.text
    if draft.which is None and draft.amount is None:
        return False
    if word in _NO_NOUNS or word in _NOUNS or word.endswith("ing"):
        return False
    named = cursor.peek()
    return named.kind is _WORD and compound(named.text) is not None


def _note_small_word(cursor: Cursor, draft: TargetWords) -> bool:
    """Notes a word like "the", "top", "turning"; false for one that belongs to more."""
    word = cursor.token.text
    if word in _TURNS and not _noun_follows(cursor):
        return False
    draft.corner = draft.corner or word in _TURNS
    if word == "of" and (draft.ordinal or (draft.centre and draft.amount)):
        return False
    draft.beginning = draft.beginning or word in BEGINNING_WORDS
    draft.top = draft.top or word == "top"
    return word != "t" or cursor.peek().kind is _DASH  # "t-ch"


_TURNS = ("corner", "marked")
"""What is said of a stitch or space in which a fabric turns; a maker marks the corners."""


_NOUNS = {
    **dict.fromkeys(STITCH_NOUNS, "st"),
    **dict.fromkeys(SPACE_NOUNS, "sp"),
    **dict.fromkeys(GAP_NOUNS, "gap"),
    **dict.fromkeys(GROUP_NOUNS, "group"),
}


_CORNERS = ("corner", "corners", "point", "points")
"""Where a fabric turns: the corner of a square, the point of a shawl."""


def _noun_follows(cursor: Cursor) -> bool:
    """Whether a corner is told by its stitch or space: "corner ch-2 sp", "corner st"."""
    after = cursor.peek()
    if after.kind is _NUMBER:
        cursor.step()
        measured = is_chain_length(cursor) or cursor.peek().text in STITCH_NOUNS
        cursor.at -= 1
        return measured
    if after.kind is not _WORD:
        return False
    if after.text in _EVERYDAY:
        return True
    cursor.step()
    stitch = cursor.attempt(Cursor.stitch)
    cursor.at -= 1
    return stitch


_OR_SPACE = Sayings(("or sp", "or space", "or ch"))


def _pass_or_space(cursor: Cursor) -> None:
    """The "or ch" of "next st or ch"; a chain with its length is a place told in full."""
    at = cursor.at
    if cursor.take_any(_OR_SPACE) and cursor.is_kind(_DASH, _NUMBER):
        cursor.at = at


def take_noun(cursor: Cursor, draft: TargetWords) -> tuple[str, int | None] | None:
    """The noun here: its name and, for spaces and beginning chains, the chains named."""
    if draft.words:
        cursor.skip_lines()
    token = cursor.token
    if token.kind is _NUMBER and is_chain_length(cursor):
        return _space_of_chains(cursor, token.value)
    if token.kind is not _WORD:
        return _stitch_name(cursor, draft) if token.kind is Kind.ORDINAL else None
    if token.text in _CORNERS:
        cursor.step()
        if token.text == "corners" and draft.amount is None:
            draft.which = draft.which or Which.EACH  # "3 sc in the corners"
        return "corner", None
    noun = _NOUNS.get(token.text)
    if noun is not None and not (noun == "group" and _is_own(cursor, token.text)):
        cursor.step()
        if noun == "st":
            _pass_or_space(cursor)
        return noun, None
    if token.text in ("tch", "tchain"):
        cursor.step()
        return "tch", take_chain_length(cursor)
    if token.text in CHAIN_NOUNS:
        return _chain_noun(cursor, draft)
    return _row_end(cursor) or _stitch_name(cursor, draft)


def _is_own(cursor: Cursor, word: str) -> bool:
    """Whether a word for a group is a stitch of the pattern's own, one or several."""
    return bool({word, word.removesuffix("s")} & cursor.own_words.keys())


def _row_end(cursor: Cursor) -> tuple[str, int | None] | None:
    """ "row end", "rnd-ends", "round-end", "cuff row end"."""
    at = cursor.at
    if cursor.peek().text == "row" and cursor.token.text not in _NO_NOUNS:
        cursor.step()
    whole_word = cursor.is_word("round")
    if cursor.take_word("row", "rnd", "round"):
        dashed = cursor.take_kind(_DASH)
        if (dashed or not whole_word) and cursor.take_word("end", "ends"):
            return "row end", None
    cursor.at = at
    return None


def _chain_noun(cursor: Cursor, draft: TargetWords) -> tuple[str, int | None] | None:
    cursor.step()
    at = cursor.at
    length = take_chain_length(cursor)
    cursor.take_kind(_DASH)
    cursor.skip_lines()
    holed = cursor.token.text in SPACE_NOUNS
    if holed or (length is not None and cursor.token.text in GAP_NOUNS):
        cursor.step()
        return "sp", length
    cursor.at = at
    if draft.ordinal and _counts_stitches(cursor):
        return "ch", None
    length = take_chain_length(cursor)
    edge = at > 1 and cursor.tokens[at - 2].text == "edge"  # "under the edge chain"
    if draft.beginning or draft.top or edge or (length is not None and draft.which is None):
        return "tch", length
    if length is not None:  # "in each ch-6 around"
        return "sp", length
    cursor.take_word(*STITCH_NOUNS)  # "the first chain stitch"
    return "ch", None


def _counts_stitches(cursor: Cursor) -> bool:
    """ "In the third ch 2 htr": the number is of the stitches behind it."""
    at = cursor.at
    counted = cursor.take_kind(_NUMBER) and cursor.stitch_at() is not None
    cursor.at = at
    return bool(counted)


def _space_of_chains(cursor: Cursor, length: int) -> tuple[str, int | None]:
    cursor.step()
    cursor.take_kind(_DASH)
    cursor.step()
    cursor.take_kind(_DASH)
    cursor.step()
    return "sp", length


def _stitch_name(cursor: Cursor, draft: TargetWords) -> tuple[str, int | None] | None:
    at = cursor.at
    stitch = cursor.stitch()
    if stitch is None:
        return None
    if cursor.tokens[cursor.at - 1].text in _PLURALS and draft.amount is None:
        draft.which = draft.which or Which.EACH  # "sc in the dcs"
    cursor.take_kind(_DASH)
    made_of = at > 1 and cursor.tokens[at - 1].kind is _DASH
    if cursor.take_word(*GROUP_NOUNS) or (made_of and _take_fan(cursor)):
        return "group", None
    if cursor.token.text in _CORNERS and draft.which is Which.EACH:
        cursor.step()
        return "corner", None  # "each 3-htr corner"
    if cursor.token.text in STITCH_NOUNS:
        cursor.step()
    elif cursor.tokens[cursor.at - 1].kind is _DASH:
        cursor.at -= 1
    if cursor.at == at:
        return None
    return stitch.id, None


_PLURALS = frozenset(
    word + end for word in ("sc", "dc", "hdc", "tr", "htr", "dtr") for end in ("s", "'s")
)


_NO_NOUNS = frozenset(
    "row rnd round rows rounds side end hook time times way one ones and or "
    "then turn join with to in from of until as work working across around "
    "along rep repeat for but last next that loop loops edge corner place "
    "after before left more total only together tog there here sc dc ch".split()
)


_AFTER_NOUN = (Kind.COMMA, Kind.SEMICOLON, Kind.STOP, Kind.CLOSE, Kind.STAR, Kind.END)


def is_unknown_noun(cursor: Cursor) -> bool:
    """A name of the writer's own for a group: "each tuft", "next petal"."""
    token = cursor.token
    if token.kind is not _WORD or token.text in _NO_NOUNS or len(token.text) < 3:
        return False
    following = cursor.peek()
    return following.kind in _AFTER_NOUN or following.text in ("across", "around", "and")


def _is_chain_noun(cursor: Cursor) -> bool:
    return cursor.token.text in CHAIN_NOUNS
