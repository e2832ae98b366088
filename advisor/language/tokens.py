"""Text cut into tokens: words, numbers and marks, each knowing whether a space came before it."""

import re
from dataclasses import dataclass, field
from typing import Literal

Kind = Literal["word", "number", "mark"]
MOST_TOKENS = 400
LARGEST = 1e9  # a longer row of digits means no more than this

_TOKEN = re.compile(
    r"""
    (?P<digit_word>(?<=[a-z]\s)[24](?=\s(?:be|get|eat|do|put|go|see|hold|cook)\b))
  | (?P<clock>\d{1,2}:\d{2}(?!\d))
  | (?P<recipe>\d(?:-\d){2,}(?!\d))
  | (?P<ordinal>\d{1,2}(?:st|nd|rd|th)\b)
  | (?P<number>(?:\d{1,2},\d{3}(?!\d)|\d+)(?:\.\d+)?(?:e\d{2,})?|\.\d+)
  | (?P<word>[^\W\d_]+)
  | (?P<short>'(?:s|re|m|ve|ll|d|t)\b)
  | (?P<mark>[.!?;,:()/+\-~"'°%\#=&\n])
""",
    re.VERBOSE,
)
BREAKS = frozenset(".!?;\n")  # end a sentence
PAUSES = BREAKS | {",", "(", ")", ":"}  # end a clause


@dataclass(slots=True)
class Quantity:
    """A figure with what its words make of it.

    kind: number (bare), degrees, minutes, ago, clock (minute of day), inches, fraction, kg, rate (per minute),
          feet, count, recipe; unit: "F" or "C" where it was said; said: the words;
          minute_only: "ten past", of an hour not named; span: (low, high) of a range
    """

    kind: str
    value: float
    unit: str | None = None
    said: str = ""
    metric: bool = False
    spoken: bool = False
    half_day: bool = False
    minute_only: bool = False
    span: tuple[float, float] | None = None


@dataclass(slots=True)
class Token:
    """text: as read; lemma: the form that patterns name; glued: no space before it.

    named: the lemma is a part or a food, and holds even where base forms do not count; names: the kinds of a food.
    """

    text: str
    kind: Kind
    lemma: str = ""
    glued: bool = False
    quantity: Quantity | None = None
    names: frozenset[str] = field(default_factory=frozenset)
    named: bool = False

    def __post_init__(self) -> None:
        self.lemma = self.lemma or self.text

    @property
    def is_break(self) -> bool:
        return self.kind == "mark" and self.text in BREAKS

    @property
    def is_pause(self) -> bool:
        return self.kind == "mark" and self.text in PAUSES


def tokenise(text: str) -> list[Token]:
    """The tokens of normalised text, at most MOST_TOKENS of them."""
    tokens: list[Token] = []
    end = 0
    for match in _TOKEN.finditer(text):
        if len(tokens) >= MOST_TOKENS:
            break
        tokens.append(_token(match, glued=match.start() == end and match.start() > 0))
        end = match.end()
    return tokens


def _token(match: re.Match[str], glued: bool) -> Token:
    kind, text = match.lastgroup, match.group()
    if kind == "number":
        return Token(
            text,
            "number",
            glued=glued,
            quantity=Quantity("number", min(float(text.replace(",", "")), LARGEST), said=text),
        )
    if kind == "clock":
        hours, minutes = map(int, text.split(":"))
        return Token(
            text, "number", glued=glued, quantity=Quantity("clock", hours % 24 * 60 + minutes % 60, said=text)
        )
    if kind == "digit_word":
        return Token("to" if text == "2" else "for", "word")
    if kind == "recipe":
        return Token(text, "number", glued=glued, quantity=Quantity("recipe", 0.0, said=text))
    return Token(text, "mark" if kind == "mark" else "word", glued=glued)
