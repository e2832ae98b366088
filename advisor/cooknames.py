"""Whether two names mean the same cooker: "number two", "2", "the second one"."""

from rapidfuzz.distance import OSA

NUMBERS = {"first": "1", "one": "1", "second": "2", "two": "2", "third": "3", "three": "3", "fourth": "4", "four": "4",
           "fifth": "5", "five": "5", "sixth": "6", "six": "6", "1st": "1", "2nd": "2", "3rd": "3", "4th": "4"}
NOISE = {"the", "number", "no", "cooker", "pit", "on", "unit", "nr"}
SHORTEST_TO_MISSPELL = 5  # shorter names differ by one letter too easily


def canonical(name: str) -> str:
    """A name without noise, numbers as digits."""
    words = [word for word in name.lower().replace("#", " ").split() if word not in NOISE]
    if len(words) > 1 and words[-1] in ("one", "ones"):
        words.pop()  # "the second one"
    return " ".join(NUMBERS.get(word, word) for word in words) or name.lower()


def same_cooker(one: str, other: str) -> bool:
    """The same name, or one slip of the thumb away from it."""
    a, b = canonical(one), canonical(other)
    if a == b:
        return True
    if min(len(a), len(b)) < SHORTEST_TO_MISSPELL or any(map(str.isdigit, a + b)):
        return False
    return OSA.distance(a, b) <= 1
