"""Bare hours: in "lit it at 6" and "eating at 7, its 3 now" a small number is a clock time."""

from dataclasses import replace

from advisor.language.lexicon import Lexicon
from advisor.language.tokens import Token

LAST_HOUR = 24
HALF_DAY, SOON = 720, 180  # minutes
LIT = (
    "lit",
    "fired",
    "started",
    "dinner",
    "lunch",
    "supper",
    "tea",
    "service",
    "serving",
    "guests",
    "eat",
    "eating",
    "serve",
    "ready",
    "open",
    "woke",
)
PARTS_OF_DAY = {
    "morning": 0,
    "afternoon": HALF_DAY,
    "evening": HALF_DAY,
    "night": HALF_DAY,
    "tonight": HALF_DAY,
}
BETWEEN = {"tomorrow", "in", "the", "at", "this", "last"}
LEAST_DIGITS = 100
BEFORE_A_TIME = {"at", "by", "till", "until", "about", "around", "is", "'s", "now", "for", "before", "after"}
BEFORE_A_YEAR = {"in", "of", "since", "from"}
AFTER_A_TIME = {"and", "now", "but", "so", "hours", "hrs", "today", "tonight", "or", "then", "sharp"}
HOTTEST = 1300  # °F, beyond any dial
FEWEST_MINUTES, MOST_MINUTES = 5, 240  # "in 3" may be hours


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
            token.quantity = replace(
                token.quantity, kind="clock", value=float(hours % 24 * 60 + minutes), half_day=hours <= 12
            )
    for at, token in enumerate(tokens):
        if token.quantity and _is_four_digits(token) and _tells_the_time(tokens, at):
            hours, minutes = divmod(int(token.quantity.value), 100)
            token.quantity = replace(token.quantity, kind="clock", value=float(60 * hours + minutes))
    return _mark_time_now(_with_part_of_day(_mark_minutes(tokens, lexicon)))


def _is_four_digits(token: Token) -> bool:
    """ "1830": a time of the afternoon, for no thermometer reads so much."""
    value = token.quantity.value
    return (
        token.quantity.kind == "number"
        and len(token.text) == 4
        and value == int(value)
        and HOTTEST <= value < 100 * LAST_HOUR
        and value % 100 < 60
    )


def _tells_the_time(tokens: list[Token], at: int) -> bool:
    """Not a year ("in 2019") and not a count ("1800 quid")."""
    before = tokens[at - 1].text if at else ""
    behind = tokens[at + 1] if at + 1 < len(tokens) else None
    followed = behind is not None and behind.kind == "word" and behind.text not in AFTER_A_TIME
    return before in BEFORE_A_TIME or not followed and before not in BEFORE_A_YEAR


def _mark_minutes(tokens: list[Token], lexicon: Lexicon) -> list[Token]:
    """ "Dinner in 90": minutes that nobody calls so."""
    for match in lexicon.minute_cues.find(tokens):
        quantity = tokens[match.quantity].quantity if match.quantity is not None else None
        if quantity and quantity.kind == "number" and FEWEST_MINUTES <= quantity.value <= MOST_MINUTES:
            tokens[match.quantity].quantity = replace(quantity, kind="minutes")
    return tokens


def _with_part_of_day(tokens: list[Token]) -> list[Token]:
    """ "1 tomorrow afternoon", "9 at night": morning or evening told in words."""
    for at, token in enumerate(tokens):
        if not token.quantity or token.quantity.kind != "clock" or not token.quantity.half_day:
            continue
        for word in [other.text for other in tokens[at + 1 : at + 5]]:
            if word in PARTS_OF_DAY:
                value = token.quantity.value % HALF_DAY + PARTS_OF_DAY[word]
                token.quantity = replace(token.quantity, value=value, half_day=False)
            if word not in BETWEEN:
                break
    return tokens


def _mark_time_now(tokens: list[Token]) -> list[Token]:
    """ "Lit at half past four, its five fifteen": 515 is a clock time where it lies soon after the other one."""
    times = [token.quantity.value for token in tokens if token.quantity and token.quantity.kind == "clock"]
    for at in range(2, len(tokens)):
        quantity = tokens[at].quantity
        if not times or not quantity or quantity.kind != "number":
            continue
        if tokens[at - 1].text == "now" and _ends_clause(tokens, at) and quantity.value in range(1, 13):
            tokens[at].quantity = replace(
                quantity, kind="clock", value=quantity.value * 60, half_day=True
            )  # "now 3"
        if at + 1 < len(tokens) and tokens[at + 1].text == "now" and tokens[at - 1].is_pause and quantity.value in range(1, 13):
            tokens[at].quantity = replace(quantity, kind="clock", value=quantity.value * 60, half_day=True)  # ", 4 now"
        if not quantity.spoken:
            continue
        value = quantity.value / 100
        is_now = at + 1 < len(tokens) and tokens[at + 1].text == "now"
        if (
            (tokens[at - 2].text == "it" and tokens[at - 1].text in ("is", "'s") or is_now or tokens[at - 1].text == "now")
            and _is_hour(value)
            and value < 13
            and quantity.value > 100
        ):
            now = int(value) * 60 + round(100 * (value - int(value)))
            if 0 < (now - times[0]) % HALF_DAY <= SOON:
                tokens[at].quantity = replace(quantity, kind="clock", value=float(now), half_day=True)
    return tokens


def _ends_clause(tokens: list[Token], at: int) -> bool:
    return at + 1 >= len(tokens) or tokens[at + 1].is_pause


def _is_hour(value: float) -> bool:
    minutes = round(100 * (value - int(value)))
    return 1 <= value < LAST_HOUR + 1 and minutes < 60
