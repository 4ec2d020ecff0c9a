"""How do notes part into clauses, each of which says one thing of one chain?

Sentences first, then the chains that one verb is said of, then the clauses between commas.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from hookwright.notation.convention_words import (
    COUNT,
    NOT,
    VERBS,
    chain_length,
    explains,
    stitch_named,
)
from hookwright.notation.lexer import Kind, Token
from hookwright.notation.lines import is_line_mark


def clauses_in(tokens: list[Token]) -> Iterator[list[Token]]:
    """The clauses of some tokens, sentence by sentence."""
    for sentence in _referred(sentences(tokens)):
        for said in _neither(sentence):
            for each in _each_subject(said):
                yield from filter(None, _clauses(each))


def _referred(told: Iterator[list[Token]]) -> Iterator[list[Token]]:
    """ "Ch 2 before a hdc row is a turning chain. It does not count.": what "it" is."""
    before: list[Token] = []
    for sentence in told:
        words = [token.text for token in sentence[:_NEAR]]
        counted = not _COUNTED.isdisjoint(words) and words[0] in _PRONOUNS
        if not counted or chain_length(sentence) is not None:
            before = sentence
            yield sentence
            continue
        verb = next((i for i, t in enumerate(before) if t.text in _BE), len(before))
        chain = chain_length(before[:verb]) is not None
        yield [*before[:verb], *sentence[1:]] if chain else sentence


_PRONOUNS = frozenset("it this that they these".split())
_COUNTED = frozenset("count counts counted".split())
_BE = frozenset("is are".split())
_NEAR = 6
"""In so many words "it does not count" is said."""


def _neither(tokens: list[Token]) -> Iterator[list[Token]]:
    """ "The turning ch never counts, and neither do the 2 ch skipped" says two things.

    So does "except the ch 3 of Row 7, which is a dc", of a chain that it gives a length.
    """
    at = next((i for i, token in enumerate(tokens) if token.text in ("neither", "nor")), 0)
    other = next((i for i, token in enumerate(tokens) if token.text == "except"), 0)
    if other and not at and chain_length(tokens[other:]) is not None:
        at = other
    yield tokens[:at] or tokens
    if at:
        yield tokens[at:]


def _each_subject(tokens: list[Token]) -> Iterator[list[Token]]:
    """ "Ch 1 and the first 2 ch are never a stitch" says one thing of two chains."""
    verbs = (COUNT | NOT | {"do", "does", "will"}) - {"neither", "nor"}
    verb = next((i for i, token in enumerate(tokens) if token.text in verbs), 0)
    joints = [i for i in range(verb) if tokens[i].text in ("and", "nor", "or")]
    ends = [*joints, verb]
    subjects = [tokens[a:b] for a, b in pairwise([0, *ends])] if joints else []
    lengths = [chain_length(subject) for subject in subjects]
    if len({*lengths}) < len(subjects) or None in lengths or not subjects:
        yield tokens
        return
    for subject in subjects:
        yield [*subject, *tokens[verb:]]


def _clauses(tokens: list[Token]) -> Iterator[list[Token]]:
    """ "Ch 3 counts as a dc, ch 4 as a dc and ch 1" says two things.

    So does "3 ch stand for a tr, 2 ch for a htr", with one verb for both.
    """
    verb = next((token for token in tokens if token.text in VERBS), None)
    for clause in _parted(tokens):
        yield _with_verb(clause, verb)


_MEANING = frozenset("for as".split())


def _with_verb(clause: list[Token], verb: Token | None) -> list[Token]:
    """A clause with the verb of its sentence, where it has none of its own."""
    at = next((i for i, token in enumerate(clause) if token.text in _MEANING), 0)
    chain = at and chain_length(clause[:at]) is not None
    meant = stitch_named(clause[at:]) or not NOT.isdisjoint(t.text for t in clause[at:])
    if verb is None or not (chain and meant) or any(t.text in COUNT for t in clause[:at]):
        return clause
    return [*clause[:at], verb.moved(clause[at].start - verb.start), *clause[at:]]


def _parted(tokens: list[Token]) -> Iterator[list[Token]]:
    """The clauses of a sentence that begin with a chain and tell what it stands for."""
    if not tokens or chain_length(tokens[:8]) is None:
        yield tokens
        return
    told = COUNT | _MEANING if any(t.text in VERBS for t in tokens) else COUNT
    first = 0
    for i, token in enumerate(tokens):
        near, far = (5, 7) if token.kind is Kind.COMMA else (3, 4)
        if token.kind is not Kind.COMMA and token.text != "and":
            continue
        begins = chain_length(tokens[i + 1 : i + 1 + near]) is not None
        if begins and any(t.text in told for t in tokens[i + 1 : i + 1 + far]):
            if i > first:  # not between a comma and "and"
                yield tokens[first:i]
            first = i + 1
    yield tokens[first:]


def sentences(tokens: list[Token]) -> Iterator[list[Token]]:
    """Tokens up to each stop, semicolon, or line end with a gap or a list mark behind."""
    sentence: list[Token] = []
    line = 0  # where the present line begins in the sentence
    for at, token in enumerate(tokens):
        ends = token.kind in (Kind.STOP, Kind.SEMICOLON, Kind.END) or (
            token.kind is Kind.LINE
            and (
                token.value > 1
                or explains(sentence)
                or _is_entry(sentence[line:])
                or _listed(tokens, at + 1)
            )
        )
        if ends:
            if sentence:
                yield sentence
            sentence = []
        elif token.kind is not Kind.LINE:
            sentence.append(token)
        line = len(sentence) if ends or token.kind is Kind.LINE else line
    if sentence:
        yield sentence


def _listed(tokens: list[Token], at: int) -> bool:
    """Whether an entry of a list begins here."""
    return at < len(tokens) and is_line_mark(tokens[at])


def _is_entry(line: list[Token]) -> bool:
    """ "htr - half treble": a line of a list that has a dash between word and meaning."""
    dashes = [i for i, token in enumerate(line) if token.kind is Kind.DASH]
    if len(dashes) != 1 or not 0 < dashes[0] <= _LONGEST_ENTRY_NAME:
        return False
    wide = not line[dashes[0]].glued and len(line) <= _LONGEST_ENTRY
    return wide and not any(token.text in COUNT for token in line)


_LONGEST_ENTRY_NAME, _LONGEST_ENTRY = 3, 12  # words and marks
