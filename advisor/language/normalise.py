"""The raw message as plain lower-case text: one kind of quote, dash and degree sign, no controls, no emoji.

It knows characters only, no words.
"""

import re
import unicodedata

LONGEST_READ = 3000  # characters; what follows is not read, so that no message costs more than a few ms

_FRACTIONS = {
    ord(sign): f" {text}"
    for sign, text in {
        "½": "1/2",
        "⅓": "1/3",
        "⅔": "2/3",
        "¼": "1/4",
        "¾": "3/4",
        "⅛": "1/8",
        "⅜": "3/8",
    }.items()
}
_SAME = str.maketrans(
    {
        "º": "°",
        "˚": "°",
        "’": "'",
        "‘": "'",
        "´": "'",
        "`": "'",
        "ʼ": "'",
        "“": '"',
        "”": '"',
        "→": ">",
        "″": '"',
        "′": "'",
        "–": "-",
        "—": " - ",
        "−": "-",
        "‑": "-",
        "…": ". ",
        "\r": "\n",
        "\t": " ",
    }
)
# "220->260", "220 to 260 in 10 min": a move from the one to the other
_MOVE = re.compile(r"(?<!from )\b(\d{2,3}) ?(?:(?:-+|=)> ?|to (?=\d{2,3} (?:in \d|now\b)))(\d{2,3})\b")
_DIGITS = re.compile(r"(?<![\d.,:/] )(?<![\d.,:/])\b(\d) (\d) (\d)\b(?! ?[\d.,:/])")  # "1 9 0", one digit after the other
_SPACES = re.compile(r"[^\S\n]+")


def normalise(text: str) -> str:
    """`text` cut to LONGEST_READ characters, lower case, with only letters, digits, marks, spaces and newlines."""
    text = text[:LONGEST_READ].translate(_FRACTIONS).translate(_SAME)
    if not text.isascii() or not text.isprintable():
        text = "".join(map(_plain, unicodedata.normalize("NFKC", text)))
    text = _DIGITS.sub(r"\1\2\3", text.lower())
    return _SPACES.sub(" ", _MOVE.sub(r"from \1 to \2", text)).strip()


def bare_words(text: str, digits: bool = True) -> list[str]:
    """The words of `text` in lower case, marks taken for blanks; digits too where they are not wanted."""
    is_kept = str.isalnum if digits else str.isalpha
    return "".join(char if is_kept(char) else " " for char in text.lower()).split()


def _plain(char: str) -> str:
    """A letter, digit or mark as it stands; accents stay; anything that is not readable becomes a space."""
    if char.isascii():
        return char if char.isprintable() or char == "\n" else " "
    category = unicodedata.category(char)
    if category in ("Cf", "Mn"):
        return ""
    return char if category[0] == "L" or char == "°" else " "
