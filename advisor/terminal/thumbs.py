"""Slips of greasy thumbs in the few short answers a guided cook lives on: two letters swapped, an o or l for a digit.

Only what names nothing as it stands is mended, and only in short lines: a sentence is read as it was written.
"""

import re

from rapidfuzz.distance import OSA

ANSWERS = ("done", "cant", "what", "now", "why", "undo")
MOST_WORDS = 4
FIGURE = re.compile(r"\d[\dol]*[\do]")  # "31o", "3l0"; "10l" may be litres
DIGITS = str.maketrans("ol", "01")


def mended(line: str) -> str:
    """The line without such slips."""
    words = line.split()
    return " ".join(map(_mended, words)) if 0 < len(words) <= MOST_WORDS else line


def _mended(word: str) -> str:
    small = word.lower()
    if len(small) == 3 and FIGURE.fullmatch(small):
        return small.translate(DIGITS)
    return next((answer for answer in ANSWERS if _swapped(small, answer)), word)


def _swapped(word: str, answer: str) -> bool:
    """Whether two letters beside each other changed places."""
    return word != answer and sorted(word) == sorted(answer) and OSA.distance(word, answer) == 1
