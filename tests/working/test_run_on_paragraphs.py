"""A whole pattern in one paragraph, as old leaflets print it."""

import pytest
from working_texts import errors, made


@pytest.mark.parametrize(
    "begin",
    [
        "TERN MAT.—Begin at centre with a chain of 6, join to form a ring.",
        "Tern mat. Begin in the middle with a chain of 6 and join into a ring.",
        "Ch. 6, join.",
    ],
)
def test_rounds_run_on_behind_the_ring(begin: str) -> None:
    text = (
        f"{begin} 1st round: Chain 3 (for first d c), 11 d c in ring, join with sl st to top of "
        "ch-3 (12 d c). 2d round: * In next d c make 1 s c, ch 5, sl st in 3rd ch from hook for a "
        "picot, ch 2. Repeat from * around, join (12 s c, 12 picots).\n"
    )
    assert made(text)[-2:] == [12, 12]
    assert errors(text) == []
