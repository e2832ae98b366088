"""Bare hours: in "lit it at 6" and "eating at 7, its 3 now" a small number is a clock time."""

from dataclasses import replace

from advisor.language.lexicon import Lexicon
from advisor.language.tokens import Token

LAST_HOUR = 24
LIT = ("lit", "fired", "started")
LEAST_DIGITS = 100


def mark_clock_times(tokens: list[Token], lexicon: Lexicon) -> list[Token]:
    """Small bare numbers that the words beside them make a clock time."""
    for match in lexicon.clock_cues.find(tokens):
        token = tokens[match.quantity] if match.quantity is not None else None
        value = token.quantity.value if token and token.quantity.kind == "number" else 0.0
        if tokens[match.start].text in LIT and LEAST_DIGITS <= value < 100 * LAST_HOUR:
            value /= 100  # "lit at 815"
        if _is_hour(value):
            hours = int(value)
            minutes = round(100 * (value - hours))
            token.quantity = replace(token.quantity, kind="clock", value=float(hours % 24 * 60 + minutes),
                                     half_day=hours <= 12)
    return tokens


def _is_hour(value: float) -> bool:
    minutes = round(100 * (value - int(value)))
    return 1 <= value < LAST_HOUR + 1 and minutes < 60
