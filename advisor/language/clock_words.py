"""Clock times in words and figures: "half past six", "quarter to seven", "3pm", "noon", "half seven"."""

from advisor.language.joining import kind_at, merged, text_at
from advisor.language.tokens import Token
from advisor.language.unit_words import NAMED_HOURS

AFTERNOON = 780  # minutes; a time from here on needs no "pm"


def clock(tokens: list[Token], at: int) -> tuple[Token, int] | None:
    kind, word = kind_at(tokens, at), text_at(tokens, at)
    if word in NAMED_HOURS:
        return merged(tokens, at, at + 1, kind="clock", value=NAMED_HOURS[word]), at + 1
    shift = {"half": 30, "quarter": 15}.get(word) if kind == "fraction" else None
    link = {"after": "past"}.get(text_at(tokens, at + 1), text_at(tokens, at + 1))
    if (
        (shift or kind in ("number", "minutes"))
        and link in ("past", "to", "till", "til")
        and kind_at(tokens, at + 2) == "number"
        and tokens[at + 2].quantity.value in range(1, 13)
    ):
        minutes = shift or tokens[at].quantity.value
        if minutes >= 60 or not (shift or kind == "minutes" or tokens[at].quantity.spoken or link == "past"):
            return None
        hour = tokens[at + 2].quantity.value * 60
        value = hour + minutes if link == "past" else hour - minutes
        return am_pm(tokens, at, at + 3, value % 1440)
    if (
        word == "half"
        and text_at(tokens, at - 1) in ("at", "by", "till", "around", "about", "since", "is", "for")
        and kind_at(tokens, at + 1) == "number"
        and tokens[at + 1].quantity.value in range(1, 13)
        and text_at(tokens, at + 2) not in ("inch", "inches")
    ):
        return merged(
            tokens, at, at + 2, kind="clock", value=tokens[at + 1].quantity.value * 60 + 30, half_day=True
        ), at + 2
    if (
        kind == "number"
        and tokens[at].quantity.value == int(tokens[at].quantity.value)
        and 0 < tokens[at].quantity.value <= 12
    ):
        if link in ("am", "pm", "o", "oclock") and (link != "o" or text_at(tokens, at + 2) in ("clock", "'")):
            return am_pm(tokens, at, at + 1, tokens[at].quantity.value * 60)
    if kind == "clock":
        return am_pm(tokens, at, at + 1, tokens[at].quantity.value)
    return None


def am_pm(tokens: list[Token], start: int, end: int, value: float) -> tuple[Token, int]:
    """The clock token, minute of day; half_day where morning or evening is not said."""
    half_day = value < AFTERNOON
    while text_at(tokens, end) in ("o", "clock", "oclock", "'"):
        end += 1
    word = text_at(tokens, end)
    if word in ("am", "pm"):
        end, half_day = end + 1, False
        value = value % 720 + (720 if word == "pm" else 0)
    return merged(tokens, start, end, kind="clock", value=value, half_day=half_day), end
