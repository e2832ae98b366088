"""Punctuation that dictation wrote out as words: "comma", "full stop", "question mark"."""

import re

_MARKS = {"comma": ",", "full stop": ".", "question mark": "?", "exclamation mark": "!", "exclamation point": "!",
          "new line": "\n", "newline": "\n", "semicolon": ";", "open bracket": "(", "close bracket": ")"}
_WRITTEN_OUT = re.compile(rf"\s*\b({'|'.join(_MARKS)})\b")


def marks_for_words(text: str) -> str:
    """Normalised `text` with such words as the marks they stand for."""
    return _WRITTEN_OUT.sub(lambda word: _MARKS[word[1]], text)
