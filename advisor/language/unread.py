"""Figures that are no reading of the cooker: asked about, an instrument's error, the danger zone, the weather.

And what a figure may be at most to be of meat, of the air, of boiling water.
"""

from advisor.language.message import Message
from advisor.language.tokens import Quantity

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
HOTTEST_MEAT = {"F": 212, "C": 100, None: 212}
HOTTEST_AIR = {"F": 140, "C": 60, None: 140}
COLDEST_BOIL_C = 60  # no thermometer worth the name shows less in boiling water
HOTTEST_BOIL_F, HOTTEST_BOIL_C = 215.0, 102.0  # 212 °F and 100 °C at sea level, and a little for the reading
READS_NOW = {"is", "'s", "now", "it", "sitting", "still", "reading"}
DISTANCES = {"off", "over", "under", "above", "short", "shy"}  # after a figure that is no weather
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
    is_distance = message.words(at + 1, at + 2) in DISTANCES
    return quantity.kind == "degrees" and quantity.value < coldest and not is_distance


def is_bare_wish(message: Message, at: int) -> bool:
    """ "Will 2 kg see me through 9 hours at 110": nothing says that it reads so now."""
    before = {token.text for token in message.tokens[max(0, at - 3) : at]}
    return bool(before & {"at", "for", "@"}) and not before & READS_NOW


def may_be_meat(quantity: Quantity, scale: str | None) -> bool:
    return quantity.value <= HOTTEST_MEAT[quantity.unit or scale]


def may_be_air(quantity: Quantity, scale: str | None) -> bool:
    return quantity.value <= HOTTEST_AIR[quantity.unit or scale]


def is_heat_to_cook_at(quantity: Quantity) -> bool:
    """Whether it lies above where water boils in either scale, so that no thermometer's test is meant."""
    return quantity.value > HOTTEST_BOIL_F if quantity.unit != "C" else quantity.value > HOTTEST_BOIL_C


def may_be_boiling(quantity: Quantity) -> bool:
    """ "Reads 10 high in boiling water" tells an error, no reading."""
    return quantity.value >= COLDEST_BOIL_C
