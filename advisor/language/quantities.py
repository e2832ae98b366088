"""Number tokens joined with their units: "20 min ago", "110 c", "an inch and a half", "1 degree a minute".

Each rule looks at one place and may join some tokens there. Nothing here knows a fact.
"""

from advisor.language.clock_words import clock
from advisor.language.joining import kind_at, merged, rewrite, text_at
from advisor.language.shares import fraction, mixed, vague
from advisor.language.tokens import Token
from advisor.language.unit_words import CELSIUS, FAHRENHEIT, MINUTES, scale
from advisor.language.units_joined import unit

DECADES = {"low": 20.0, "lower": 20.0, "mid": 50.0, "middle": 50.0, "high": 80.0, "upper": 80.0}
PAST = {"ago", "back", "earlier", "previous", "elapsed", "passed", "gone"}
MOVED = {
    "went",
    "gone",
    "rose",
    "climbed",
    "crept",
    "dropped",
    "fell",
    "jumped",
    "moved",
    "slid",
    "risen",
    "slipped",
}


def join_quantities(tokens: list[Token]) -> list[Token]:
    """The tokens with figures and their units merged."""
    for rule in (_odd, _decade, fraction, mixed, vague, _range, unit, _hours_and_minutes, clock, _rate, _ago):
        tokens = rewrite(tokens, rule)
    return tokens


def _range(tokens: list[Token], at: int) -> tuple[Token, int] | None:
    """ "between 380 and 400", "380-400", "380 to 400", "two or three" become their middle."""
    start = at
    between = text_at(tokens, at) == "between"
    if between:
        at += 1
    if kind_at(tokens, at) != "number":
        return None
    link_at = at + 1
    while text_at(tokens, link_at) in ("degrees", "deg", "°", *CELSIUS, *FAHRENHEIT) and link_at < at + 3:
        link_at += 1
    link = text_at(tokens, link_at)
    low, high = (
        tokens[at].quantity.value,
        kind_at(tokens, link_at + 1) == "number" and tokens[link_at + 1].quantity.value,
    )
    if not high or high <= low or high > 3 * low and not between:
        return None
    if not (
        between
        and link in ("and", "to", "-")
        or link in ("or", "to", "-")
        and text_at(tokens, at - 1) != "from"
    ):
        return None
    if link == "to" and not between and (high - low > 60 or _is_movement(tokens, at, link_at + 2)):
        return None  # "went 250 to 350" is a movement
    named = next(
        (text_at(tokens, i) for i in range(at + 1, link_at) if text_at(tokens, i) in CELSIUS | FAHRENHEIT), ""
    )
    return merged(
        tokens, start, link_at + 2, value=(low + high) / 2, span=(low, high), unit=scale(named)
    ), link_at + 2


def _decade(tokens: list[Token], at: int) -> tuple[Token, int] | None:
    """ "High 200s", "mid 300s": a round figure inside the hundred."""
    part = DECADES.get(text_at(tokens, at))
    if part is None or kind_at(tokens, at + 1) != "number":
        return None
    hundreds = tokens[at + 1].quantity.value
    if hundreds % 100 or hundreds <= 0 or text_at(tokens, at + 2) not in ("s", "'s"):
        return None
    low = hundreds + part
    return merged(tokens, at, at + 3, kind="number", value=low, span=(low - 20, low + 15)), at + 3


def _odd(tokens: list[Token], at: int) -> tuple[Token, int] | None:
    """ "Fifty-odd": about as many."""
    if kind_at(tokens, at) != "number":
        return None
    end = at + 2 if text_at(tokens, at + 1) == "-" else at + 1
    return (tokens[at], end + 1) if text_at(tokens, end) in ("odd", "something", "plus") else None


def _is_movement(tokens: list[Token], at: int, end: int) -> bool:
    """ "Went 120 to 150", "265 to 280 in 10 minutes"."""
    before = {token.text for token in tokens[max(0, at - 2) : at]}
    return (
        bool(before & MOVED)
        or text_at(tokens, end) in ("in", "over", "within")
        and kind_at(tokens, end + 1) in ("number", "minutes", "fraction")
    )


def _hours_and_minutes(tokens: list[Token], at: int) -> tuple[Token, int] | None:
    if kind_at(tokens, at) != "minutes" or tokens[at].quantity.value < 60:
        return None
    next_at = at + 2 if text_at(tokens, at + 1) == "and" else at + 1
    kind = kind_at(tokens, next_at)
    glued = next_at < len(tokens) and tokens[next_at].glued
    minutes_only = kind == "number" and next_at == at + 2 and 5 <= tokens[next_at].quantity.value < 60
    if (
        kind == "minutes"
        and tokens[next_at].quantity.value < 60
        or kind == "number"
        and glued
        or minutes_only
    ):
        value = tokens[at].quantity.value + tokens[next_at].quantity.value
        return merged(tokens, at, next_at + 1, value=value), next_at + 1
    return None


def _rate(tokens: list[Token], at: int) -> tuple[Token, int] | None:
    """ "1 degree a minute", "5 per min", "20 degrees every 5 minutes", "60 an hour"."""
    if kind_at(tokens, at) not in ("number", "degrees"):
        return None
    if text_at(tokens, at + 1) in ("a", "per", "/", "each", "every", "an"):
        time_at = at + 2
    elif kind_at(tokens, at + 1) == "minutes" and text_at(tokens, at + 1).startswith(("a ", "an ")):
        time_at = at + 1
    else:
        return None
    minutes = MINUTES.get(text_at(tokens, time_at))
    if minutes is None and kind_at(tokens, time_at) == "minutes":
        minutes = tokens[time_at].quantity.value
    if not minutes or minutes > 60 or tokens[at].quantity.value > 200 or text_at(tokens, time_at + 1) == "ago":
        return None
    return merged(
        tokens, at, time_at + 1, kind="rate", value=tokens[at].quantity.value / minutes
    ), time_at + 1


def _ago(tokens: list[Token], at: int) -> tuple[Token, int] | None:
    if kind_at(tokens, at) == "number" and text_at(tokens, at + 1) == "ago":
        return merged(tokens, at, at + 2, kind="ago"), at + 2
    if text_at(tokens, at) == "before" and kind_at(tokens, at + 1) == "minutes" and _ends(tokens, at + 2):
        return merged(tokens, at, at + 2, kind="ago"), at + 2
    if kind_at(tokens, at) != "minutes":
        return None
    end = at + 1
    while text_at(tokens, end) in ("or", "so", "ish", "about", "maybe"):
        end += 1
    if text_at(tokens, end) in PAST or (text_at(tokens, end) == "before" and _ends(tokens, end + 1)):
        return merged(tokens, at, end + 1, kind="ago"), end + 1
    return None


def _ends(tokens: list[Token], at: int) -> bool:
    return at >= len(tokens) or tokens[at].is_pause
