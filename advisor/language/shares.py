"""Shares and vague amounts: "1/2", "three quarters", "40%", "a couple of", "half an", "two and a half"."""

from advisor.language.joining import kind_at, merged, text_at
from advisor.language.tokens import Quantity, Token
from advisor.language.unit_words import FRACTIONS, PLURALS, VAGUE, is_unit
from advisor.language.units_joined import with_unit

LARGEST_PARTS = 16  # "1/16"; a larger bottom is no share of a vent


def fraction(tokens: list[Token], at: int) -> tuple[Token, int] | None:
    if (
        kind_at(tokens, at) == "number"
        and text_at(tokens, at + 1) == "/"
        and kind_at(tokens, at + 2) == "number"
    ):
        top, bottom = tokens[at].quantity.value, tokens[at + 2].quantity.value
        if top + bottom == 100:  # lean to fat, as the butcher writes it
            return merged(tokens, at, at + 3, kind="fraction", value=bottom / 100), at + 3
        if 0 < top < bottom <= LARGEST_PARTS:
            return merged(tokens, at, at + 3, kind="fraction", value=top / bottom), at + 3
    if kind_at(tokens, at) == "number" and text_at(tokens, at + 1) in ("%", "percent", "pct"):
        return merged(tokens, at, at + 2, kind="fraction", value=tokens[at].quantity.value / 100), at + 2
    if kind_at(tokens, at) == "number" and tokens[at].quantity.value in range(1, 10):
        after = at + 2 if text_at(tokens, at + 1) == "-" else at + 1
        part = FRACTIONS.get(text_at(tokens, after))
        if part and text_at(tokens, after) != "half" and part * tokens[at].quantity.value < 1:
            return merged(
                tokens, at, after + 1, kind="fraction", value=part * tokens[at].quantity.value
            ), after + 1
    if tokens[at].kind == "word" and text_at(tokens, at) in FRACTIONS and text_at(tokens, at) not in PLURALS:
        return merged(tokens, at, at + 1, kind="fraction", value=FRACTIONS[text_at(tokens, at)]), at + 1
    return None


def vague(tokens: list[Token], at: int) -> tuple[Token, int] | None:
    """ "a couple of hours", "an hour", "half an inch" begin with a number like any other."""
    word = text_at(tokens, at)
    if kind_at(tokens, at) == "fraction" and word not in ("third", "second"):
        unit_at = at + 1
        while text_at(tokens, unit_at) in ("an", "a", "of"):
            unit_at += 1
        if (is_unit(text_at(tokens, unit_at)) or text_at(tokens, unit_at) == "degree") and unit_at - at <= 3:
            return merged(tokens, at, unit_at, kind="number"), unit_at
    if word in ("a", "an", "last", "past"):
        if text_at(tokens, at + 1) in VAGUE:
            return vague(tokens, at + 1)
        if is_unit(text_at(tokens, at + 1)) and text_at(tokens, at + 1) not in (
            "g",
            "c",
            "f",
            "second",
            "day",
        ):
            return merged(tokens, at, at + 1, kind="number", value=1.0), at + 1
        if kind_at(tokens, at + 1) == "fraction" and is_unit(text_at(tokens, at + 2)):
            return merged(tokens, at, at + 2, kind="number"), at + 2
        if word in ("a", "an") and text_at(tokens, at + 1) in ("degree", "deg"):
            return merged(tokens, at, at + 1, kind="number", value=1.0), at + 1
    if word == "hour" and _is_bare_hour(tokens, at):
        return merged(tokens, at, at + 1, kind="minutes", value=60.0), at + 1
    if word == "inch" and _is_bare_inch(tokens, at):
        return merged(tokens, at, at + 1, kind="inches", value=1.0), at + 1
    if word in VAGUE:
        end = at + 2 if text_at(tokens, at + 1) == "of" else at + 1
        if is_unit(text_at(tokens, end)):
            return merged(tokens, at, end, kind="number", value=float(VAGUE[word])), end
    return None


def _is_bare_hour(tokens: list[Token], at: int) -> bool:
    """ "Hour and ten in", "hour ago" leave the "an" out."""
    before = tokens[at - 1] if at else None
    if before and (
        before.quantity or before.text in ("a", "an", "per", "every", "half", "quarter", "-", "/", "each")
    ):
        return False
    return text_at(tokens, at + 1) in ("in", "ago", "back") or (
        text_at(tokens, at + 1) == "and" and kind_at(tokens, at + 2) == "number"
    )


def _is_bare_inch(tokens: list[Token], at: int) -> bool:
    """ "Bottom inch open" leaves the "an" out."""
    before = tokens[at - 1] if at else None
    if (
        before is None
        or before.quantity
        or before.text in ("a", "an", "per", "every", "-", "/", "each", "last")
    ):
        return False
    return text_at(tokens, at + 1) in ("open", "wide", "", ",", ".")


def mixed(tokens: list[Token], at: int) -> tuple[Token, int] | None:
    """ "1 1/2", "two and a half", "an inch and a half", "hour and a quarter"."""
    if text_at(tokens, at) in ("a", "an") and text_at(tokens, at + 1) in ("hour", "inch"):
        return mixed(tokens, at + 1)
    if kind_at(tokens, at) == "number":
        whole, unit_at = tokens[at].quantity.value, at + 1
    elif text_at(tokens, at) in ("hour", "inch"):
        whole, unit_at = 1.0, at
    else:
        return None
    has_unit = is_unit(text_at(tokens, unit_at))
    and_at = unit_at + 1 if has_unit else unit_at
    part_at = and_at
    if text_at(tokens, and_at) in ("and", "&"):
        part_at = and_at + 2 if text_at(tokens, and_at + 1) in ("a", "an") else and_at + 1
    elif has_unit:
        return None
    if kind_at(tokens, part_at) != "fraction" or whole > 24 or (text_at(tokens, part_at).endswith("%")):
        return None
    value = whole + tokens[part_at].quantity.value
    if not has_unit and text_at(tokens, part_at + 1) == "hundred":
        return merged(tokens, at, part_at + 2, kind="number", value=100 * value), part_at + 2
    if not has_unit and not is_unit(text_at(tokens, part_at + 1)):
        return None
    if not has_unit:
        return merged(tokens, at, part_at + 1, kind="number", value=value), part_at + 1
    token = Token(f"{value:g} {text_at(tokens, unit_at)}", "number", quantity=Quantity("number", value))
    return with_unit(token, text_at(tokens, unit_at)), part_at + 1
