"""Clock times in words and figures: "half past six", "quarter to seven", "3pm", "noon", "half seven"."""

from advisor.language.joining import kind_at, merged, text_at
from advisor.language.tokens import Token
from advisor.language.unit_words import NAMED_HOURS

AFTERNOON = 780  # minutes; a time from here on needs no "pm"
LAST_MINUTE = 1440
SAID_BEFORE = ("at", "since", "around", "about")
QUARTERS = {"half": 30, "quarter": 15}
HALF_BEFORE = ("at", "by", "till", "around", "about", "since", "is", "'s", "for", "now", "eating")  # "at half seven" is 7:30

Joined = tuple[Token, int] | None


def clock(tokens: list[Token], at: int) -> Joined:
    """The clock time that begins at `at`, as a quantity in minutes of the day."""
    word = text_at(tokens, at)
    if word in NAMED_HOURS:
        return merged(tokens, at, at + 1, kind="clock", value=NAMED_HOURS[word]), at + 1
    if _is_hour_of_the_day(tokens, at):
        return merged(tokens, at, at + 1, kind="clock"), at + 1
    if kind_at(tokens, at) == "clock":
        return _am_pm(tokens, at, at + 1, tokens[at].quantity.value)
    return _past_or_to(tokens, at) or _half(tokens, at) or _hour(tokens, at) or _minute_only(tokens, at)


def _minute_only(tokens: list[Token], at: int) -> Joined:
    """ "Since ten past", "it's 20 to now": minutes round an hour that nobody names."""
    kind, link, after = kind_at(tokens, at), text_at(tokens, at + 1), text_at(tokens, at + 2)
    quarter = QUARTERS.get(text_at(tokens, at)) if kind == "fraction" else None
    if link not in ("past", "after", "to") or not (quarter or kind in ("number", "minutes")):
        return None
    minutes = quarter or tokens[at].quantity.value
    at_the_end = at + 2 >= len(tokens) or tokens[at + 2].is_pause or after == "now"
    told = text_at(tokens, at - 1) in (*SAID_BEFORE, "is", "'s") or after == "now"
    if not (at_the_end and told and 0 < minutes < 60):
        return None
    value = minutes if link != "to" else 60 - minutes
    return merged(
        tokens, at, at + 2, kind="clock", value=float(value), minute_only=True, half_day=True
    ), at + 2


def _is_hour_of_the_day(tokens: list[Token], at: int) -> bool:
    """ "Ready at 19 h"."""
    return (
        kind_at(tokens, at) == "minutes"
        and text_at(tokens, at - 1) in ("at", "by", "till", "before")
        and text_at(tokens, at).endswith("h")
        and AFTERNOON <= tokens[at].quantity.value <= LAST_MINUTE
    )


def _is_hour(tokens: list[Token], at: int) -> bool:
    return kind_at(tokens, at) == "number" and tokens[at].quantity.value in range(1, 13)


def _past_or_to(tokens: list[Token], at: int) -> Joined:
    """ "Half past six", "quarter to seven", "five past six", "10 min to 4"."""
    kind, link = kind_at(tokens, at), text_at(tokens, at + 1)
    quarter = QUARTERS.get(text_at(tokens, at)) if kind == "fraction" else None
    if link not in ("past", "after", "to", "till") or not _is_hour(tokens, at + 2):
        return None
    if not quarter and kind not in ("number", "minutes"):
        return None
    minutes = quarter or tokens[at].quantity.value
    told = quarter or kind == "minutes" or tokens[at].quantity.spoken or link == "past"
    if minutes >= 60 or not told:
        return None
    hour = tokens[at + 2].quantity.value * 60
    return _am_pm(
        tokens, at, at + 3, (hour + minutes if link in ("past", "after") else hour - minutes) % 1440
    )


def _half(tokens: list[Token], at: int) -> Joined:
    """ "At half seven" is half past seven."""
    if (
        text_at(tokens, at) != "half"
        or text_at(tokens, at - 1) not in HALF_BEFORE
        or not _is_hour(tokens, at + 1)
    ):
        return None
    if text_at(tokens, at + 2) in ("inch", "inches"):
        return None
    return _am_pm(tokens, at, at + 2, tokens[at + 1].quantity.value * 60 + 30)


def _hour(tokens: list[Token], at: int) -> Joined:
    """ "3 pm", "six o'clock"."""
    if not _is_hour(tokens, at):
        return None
    link, after = text_at(tokens, at + 1), text_at(tokens, at + 2)
    if link in ("am", "pm", "oclock") or (link == "o" and after in ("clock", "'")):
        return _am_pm(tokens, at, at + 1, tokens[at].quantity.value * 60)
    return None


def _am_pm(tokens: list[Token], start: int, end: int, value: float) -> tuple[Token, int]:
    """The clock token; half_day where morning or evening is not said."""
    half_day = value < AFTERNOON
    while text_at(tokens, end) in ("o", "clock", "oclock", "'"):
        end += 1
    word = text_at(tokens, end)
    if word in ("am", "pm"):
        end, half_day = end + 1, False
        value = value % 720 + (720 if word == "pm" else 0)
    return merged(tokens, start, end, kind="clock", value=value, half_day=half_day), end
