"""Whether two names mean the same cooker: "number two", "2", "the second"."""

from rapidfuzz import fuzz

NUMBERS = {"first": "1", "one": "1", "second": "2", "two": "2", "third": "3", "three": "3", "fourth": "4", "four": "4",
           "fifth": "5", "five": "5", "sixth": "6", "six": "6", "1st": "1", "2nd": "2", "3rd": "3", "4th": "4"}
NOISE = {"the", "number", "no", "cooker", "pit", "on", "unit", "#", "nr"}
CLOSE_ENOUGH = 85  # rapidfuzz ratio: a slip of the thumb, not another name


def canonical(name: str) -> str:
    """A name without noise, numbers as digits."""
    words = [word for word in name.lower().replace("#", " ").split() if word not in NOISE]
    return " ".join(NUMBERS.get(word, word) for word in words) or name.lower()


def same_cooker(one: str, other: str) -> bool:
    a, b = canonical(one), canonical(other)
    if a == b:
        return True
    return min(len(a), len(b)) > 3 and not any(map(str.isdigit, a + b)) and fuzz.ratio(a, b) >= CLOSE_ENOUGH
