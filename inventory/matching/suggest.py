"""Near words for a mistyped one."""

from __future__ import annotations

from collections.abc import Sequence


def close_to(word: str, choices: Sequence[str], limit: int = 3) -> list[str]:
    """The choices most like the word, best first; none where nothing is near.

    >>> close_to("A3-70", ["A3-07", "B1-01"])
    ['A3-07']
    """
    from rapidfuzz import process
    from rapidfuzz.distance import OSA

    found = process.extract(
        word.casefold(),
        choices,
        scorer=OSA.normalized_similarity,
        processor=str.casefold,
        limit=limit,
        score_cutoff=0.6,
    )
    return [name for name, _, _ in found]
