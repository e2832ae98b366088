"""Figures that are no reading of the cooker: asked about, an instrument's error, the danger zone, the weather."""

from advisor.language.message import Message

WIDEST_READING = 2  # "between 40 and 140" is no reading that wavers
ASKING = ("ask", "plan", "later")
WEATHER = {
    "windy",
    "raining",
    "rain",
    "snowing",
    "snow",
    "humid",
    "sunny",
    "cloudy",
    "overcast",
    "freezing",
    "breezy",
}
HOTTEST_DAY = 120  # a lone marked figure below this beside talk of the weather is the weather's
HOTTEST_DAY_C = 49
COLDEST_COOKER = 25  # a marked figure below this is the weather's


def spans_the_danger_zone(message: Message, at: int) -> bool:
    """ "Between 40 and 140" is no reading."""
    span = message.tokens[at].quantity.span
    return bool(span and span[1] > WIDEST_READING * span[0])


def is_error(message: Message, at: int, roles: set[str]) -> bool:
    """ "20 out" is an error, "95 out" on a hot day the weather."""
    quantity = message.tokens[at].quantity
    bare_out = message.words(at + 1, at + 3) in ("out", "out of") or message.clause(at)[1] == at + 2
    return bool(
        message.tokens[at + 1].text == "out"
        and bare_out
        and quantity.kind == "number"
        and "ambient_f" not in roles
    )


def is_asked_of(message: Message, at: int) -> bool:
    """ "Is 250 ok for ribs": a figure that is asked about, not read."""
    asked = message.moods[at] in ASKING or any(token.text == "?" for token in message.tokens)
    before = message.tokens[at - 1].text if at else ""
    _, end = message.clause(at)
    after = [token.text for token in message.tokens[at + 1 : end]]
    return asked and before in ("is", "would", "will", "are", "should", "does") and "for" in after


def is_weather(message: Message, at: int, alone: bool) -> bool:
    """A marked figure too cold for a cooker, or one that stands `alone` beside talk of the weather."""
    quantity = message.tokens[at].quantity
    coldest = 0 if quantity.unit == "C" else COLDEST_COOKER
    if alone and WEATHER & {token.text for token in message.tokens}:
        coldest = HOTTEST_DAY_C if quantity.unit == "C" else HOTTEST_DAY
    return quantity.kind == "degrees" and quantity.value < coldest
