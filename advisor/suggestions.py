"""The nearest known name for a misspelt one, and the sentence that offers it."""

from collections.abc import Iterable

from rapidfuzz import fuzz, process

CLOSE_ENOUGH = 60  # rapidfuzz ratio, 0..100: below it a guess would puzzle more than help


def nearest(name: str, known: Iterable[str], limit: int = 3) -> list[str]:
    """Up to `limit` known names that look like `name`, the likest first."""
    found = process.extract(name, list(known), scorer=fuzz.ratio, limit=limit, score_cutoff=CLOSE_ENOUGH)
    return [match for match, _, _ in found]


def did_you_mean(name: str, known: Iterable[str]) -> str:
    """A remedy for an unknown name: the nearest spelling, or everything allowed when few."""
    known = sorted(known)
    close = nearest(name, known)
    if close:
        return f"did you mean {' or '.join(close)}?"
    if 0 < len(known) <= 30:
        return f"allowed are {', '.join(known)}"
    return "see rules/README.md for the names that are allowed"
