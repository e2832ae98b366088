"""A number and its unit made one: "110 c", "-5 degrees", "8lb", "an inch", "20 min"."""

from dataclasses import replace

from advisor.language.joining import kind_at, text_at
from advisor.language.tokens import Token
from advisor.language.unit_words import (
    FEET,
    INCHES,
    KILOGRAMS,
    METRIC,
    MINUTES,
    NOT_AFTER_INCHES,
    is_unit,
    scale,
)

ORDINAL_BEFORE = ("one", "cooker", "pit", "kamado", "unit", "is", "'s")
LEAST_HEIGHT = 200  # "20m" is minutes, "1600 m" a height


def unit(tokens: list[Token], at: int) -> tuple[Token, int] | None:
    sign, number_at = _sign(tokens, at)
    if kind_at(tokens, number_at) not in ("number", "fraction"):
        return None
    token = tokens[number_at]
    signed = replace(token.quantity, value=sign * token.quantity.value)
    plus = "+" if sign > 0 and number_at > at else ""
    token = Token(
        plus + token.text if sign > 0 else f"-{token.text}", "number", glued=token.glued, quantity=signed
    )
    end = number_at + 1
    if text_at(tokens, end) == "-" and tokens[end].glued and is_unit(text_at(tokens, end + 1)):
        end += 1
    degrees = _degrees(tokens, token, end)
    if degrees:
        return degrees
    word = text_at(tokens, end)
    if word == '"' or (word == "in" and _in_is_inches(tokens, end, token.quantity.value)):
        return with_unit(token, "inch"), end + 1
    if word == "k" and tokens[end].glued and token.quantity.value < 20:
        return _thousands(tokens, token, end)
    if word == "m" and (tokens[end].glued or token.quantity.value >= LEAST_HEIGHT):
        return with_unit(token, "min" if token.quantity.value < LEAST_HEIGHT else "metres"), end + 1
    if word == "second" and text_at(tokens, end + 1) in ORDINAL_BEFORE:
        return None  # "first one's at 225, second one's at 350"
    if word in MINUTES or word in INCHES or word in KILOGRAMS or word in FEET:
        if word in ("g", "h") and not tokens[end].glued and token.quantity.value < 20 and word == "g":
            return None
        return with_unit(token, word), end + 1
    return (token, end) if number_at > at else None


def _thousands(tokens: list[Token], token: Token, end: int) -> tuple[Token, int]:
    """ "5k feet"."""
    token = replace(token, quantity=replace(token.quantity, value=1000 * token.quantity.value))
    after = text_at(tokens, end + 1)
    return (with_unit(token, after), end + 2) if after in FEET else (token, end + 1)


def _sign(tokens: list[Token], at: int) -> tuple[int, int]:
    word = text_at(tokens, at)
    if word == "minus" or (
        word == "-" and at + 1 < len(tokens) and tokens[at + 1].glued and not (tokens[at].glued and at > 0)
    ):
        return -1, at + 1
    if word in ("plus", "+"):
        return 1, at + 1
    return 1, at


def _degrees(tokens: list[Token], token: Token, at: int) -> tuple[Token, int] | None:
    end = at
    while text_at(tokens, end) in ("°", "degrees", "degree", "deg", "degs", "degress", "dergees", "ish", "'"):
        end += 1
    said = scale(text_at(tokens, end))
    if said and text_at(tokens, end) in ("c", "f") and text_at(tokens, end + 1) == "'":
        said = None
    if said is None and end == at:
        return None
    if said:
        end += 1
    if said is None and all(text_at(tokens, i) in ("ish", "'") for i in range(at, end)):
        return token, end
    quantity = replace(token.quantity, kind="degrees", unit=said or token.quantity.unit)
    return Token(token.text, "number", glued=token.glued, quantity=quantity), end


def _in_is_inches(tokens: list[Token], at: int, value: float) -> bool:
    return (
        value <= 8
        and (tokens[at].glued or text_at(tokens, at + 1) not in NOT_AFTER_INCHES)
        and (tokens[at].glued or not (at + 1 < len(tokens) and tokens[at + 1].kind == "number"))
    )


def with_unit(token: Token, unit: str) -> Token:
    for kind, table in (("minutes", MINUTES), ("inches", INCHES), ("kg", KILOGRAMS), ("feet", FEET)):
        if unit in table:
            quantity = replace(
                token.quantity,
                kind=kind,
                value=token.quantity.value * table[unit],
                metric=unit in METRIC or "met" in unit,
                said=f"{token.text} {unit}",
            )
            return Token(quantity.said, "number", glued=token.glued, quantity=quantity)
    return token
