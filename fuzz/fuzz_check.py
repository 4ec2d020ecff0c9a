"""Does any text make a check raise, hang, or point outside the text?

Run with `make fuzz`, or with the minutes it may take: `make fuzz MINUTES=10`. Inputs grow
out of the cases in tests/cases, by bytes and by whole words of other cases. An input that
fails is written into fuzz/found/ and named; it goes into tests/test_never_fails.py when it
is mended.
"""

from __future__ import annotations

import random
import re
import sys
from pathlib import Path

import atheris

with atheris.instrument_imports(include=["hookwright"]):
    from hookwright.answer import answer
    from hookwright.checking import check
    from hookwright.notation.printing import print_pattern, translate
    from hookwright.source import Source

HERE = Path(__file__).parent
CASES = HERE.parent / "tests" / "cases"
LONGEST = 4_000  # characters: longer texts are a matter of growth, which tests count
WORD = re.compile(r"\w+|[^\w\s]|\s+")


def tokens_of_cases() -> list[str]:
    """Every word and mark that stands in a case."""
    texts = (path.read_text(encoding="utf-8") for path in sorted(CASES.glob("*/*.txt")))
    return sorted({token for text in texts for token in WORD.findall(text)})


TOKENS = tokens_of_cases()


def mutated(data: bytes, most: int, seed: int) -> bytes:
    """A text with some of its words left out, doubled, moved, or exchanged for others."""
    rng = random.Random(seed)  # noqa: S311 - which words, not a secret
    words = WORD.findall(data.decode("utf-8", "replace")) or [rng.choice(TOKENS)]
    for _ in range(rng.randint(1, 6)):
        at = rng.randrange(len(words))
        match rng.randrange(5):
            case 0:
                del words[at : at + rng.randint(1, 3)]
            case 1:
                words[at:at] = words[at : at + rng.randint(1, 8)]
            case 2:
                words[at] = rng.choice(TOKENS)
            case 3:
                words.insert(at, rng.choice(TOKENS))
            case _:
                to = rng.randrange(len(words))
                words[at], words[to] = words[to], words[at]
        if not words:
            words = [rng.choice(TOKENS)]
    changed = "".join(words).encode()[:most]
    return changed if rng.random() < 0.7 else atheris.Mutate(changed, most)


def test_one(data: bytes) -> None:
    """One text through everything that a check of it does."""
    text = data.decode("utf-8", "replace")[:LONGEST]
    checked = check(Source(text, "fuzzed"))
    answer(checked)
    for finding in checked.findings:
        assert 0 <= finding.span.start <= finding.span.end <= len(checked.source.text)
    pattern = checked.worked.pattern
    print_pattern(pattern)
    print_pattern(translate(pattern, "UK"), terms="UK")


def main() -> None:
    """Fuzz from the cases on; what is new is kept in fuzz/corpus."""
    for folder in ("corpus", "found"):
        (HERE / folder).mkdir(exist_ok=True)
    for path in sorted(CASES.glob("*/*.txt")):
        (HERE / "corpus" / path.name).write_bytes(path.read_bytes())
    atheris.Setup(
        [
            sys.argv[0],
            f"-artifact_prefix={HERE / 'found'}/",
            "-timeout=60",
            f"-max_len={LONGEST}",
            *sys.argv[1:],
            str(HERE / "corpus"),
        ],
        test_one,
        custom_mutator=mutated,
    )
    atheris.Fuzz()


if __name__ == "__main__":
    main()
