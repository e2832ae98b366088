"""Figures inside phrases: minutes since or until, rates and shares; and the clock time that is "now"."""

from advisor.language.message import Message
from advisor.language.patterns import Match
from advisor.units import difference_c_to_f

LOWEST_HEIGHT = 100  # feet; nobody tells a height above the sea below this
DAY, HALF_DAY = 1440, 720
OF_THE_FIRE = {"at_target_for_min", "vents_moved_ago_min"}  # times that a stalled meat does not tell
MEAT_WORDS = {"meat", "food", "internal", "inside", "core", "centre", "center", "probe"}
NOW_IS = (["it", "is"], ["time", "is"], ["it", "'s"], ["now", "is"])
SPEAKS_ANEW = {"she", "it", "he", "when", "and", "but", "while", "because", "so", "then"}
VENTS = {"both", "bottom", "top", "vent"}
DOME_WORDS = {"dome", "pit", "fire", "cooker", "thermometer"}


def figure_in(message: Message, match: Match, fact: str) -> float | None:
    """The value that the figure of a phrase gives to `fact`; None where it gives none."""
    quantity = message.tokens[match.quantity].quantity if match.quantity is not None else None
    if quantity is None:
        return None
    if fact in ("food_kg", "charcoal_kg") and (
        is_of_wood(message, match.quantity) or is_of_wood(message, match.end - 1)
    ):
        return None
    if fact == "wood_share" and (parts := _parts(message, match)):
        return parts
    if message.lexicon.vocabulary[fact].type == "minutes":
        return _minutes_in(message, match, fact)
    if fact == "rate_f_per_min":
        kelvins = (quantity.unit or _scale(message)) == "C"
        rate = difference_c_to_f(quantity.value) if kelvins else quantity.value
        return round(rate * _direction(message, match.start), 2)
    if fact == "altitude_ft" and quantity.value < LOWEST_HEIGHT:
        return None  # "flames 4 feet high"
    return round(quantity.value, 2)


def is_of_wood(message: Message, at: int) -> bool:
    """ "150 gram of beech": a weight that is the wood's."""
    after = [token.text for token in message.tokens[at + 1 : at + 3] if token.text != "of"]
    return bool(set(after[:1]) & set(message.lexicon.data["groups"]["wood"]))


def _parts(message: Message, match: Match) -> float | None:
    """ "One part cherry to five parts lump"."""
    counts = [
        token.quantity.value
        for token in message.tokens[match.start : match.end]
        if token.quantity and token.quantity.kind == "number"
    ]
    return round(counts[0] / counts[1], 2) if len(counts) == 2 and 0 < counts[0] <= counts[1] else None


def _minutes_in(message: Message, match: Match, fact: str) -> float | None:
    inner = [at for at in range(match.start, match.end) if message.tokens[at].quantity]
    timed = [at for at in inner if message.tokens[at].quantity.kind in ("minutes", "ago", "clock")]
    if not timed or (fact in OF_THE_FIRE and is_about_meat(message, inner[0])):
        return None
    minutes = minutes_of(message, timed[-1], message.lexicon.vocabulary[fact].clock == "falls")
    counts = [
        message.tokens[at].quantity.value for at in inner if message.tokens[at].quantity.kind == "number"
    ]
    if fact == "vents_moved_every_min" and minutes and counts and counts[0]:
        return round(minutes / counts[0], 1)  # "6 times in the last hour"
    return minutes


def _scale(message: Message) -> str | None:
    said = [token.quantity.unit for token in message.tokens if token.quantity and token.quantity.unit]
    if said:
        return said[0]
    return message.context.units.temperature if message.context.units else None


def _direction(message: Message, at: int) -> float:
    """-1 where the words before a rate say that it goes down."""
    start, end = message.clause(at)
    falling = message.lexicon.loose_answers("trend").find(message.tokens[start:end])
    lost = any(
        token.text in ("lose", "losing", "lost", "down", "loses") for token in message.tokens[start:end]
    )
    return -1.0 if lost or any(match.means == "falling" for match in falling) else 1.0


def minutes_of(message: Message, at: int, ahead: bool) -> float | None:
    """Minutes from now to (or since) the figure at `at`; None for a clock time when nobody knows the time."""
    quantity = message.tokens[at].quantity
    if quantity.kind != "clock":
        return quantity.value
    now, now_is_half, in_the_hour = clock_now(message, at)
    if now is None:
        return None
    gap = (quantity.value - now) if ahead else (now - quantity.value)
    if quantity.minute_only or in_the_hour:
        return float(gap % 60)
    return float(gap % (HALF_DAY if quantity.half_day or now_is_half else DAY))


def clock_now(message: Message, but_not: int) -> tuple[float | None, bool, bool]:
    """(minute of day now, whether of half a day, of an hour): as said ("its 6:50 now"), else the context's."""
    for at, token in enumerate(message.tokens):
        if at == but_not or token.quantity is None or token.quantity.kind != "clock":
            continue
        words = {other.text for other in message.tokens[at + 1 : at + 2]}
        ahead = [other.text for other in message.tokens[max(0, at - 2) : at]]
        start, end = message.clause(at)
        told = "now" in words or ahead[-1:] == ["now"] or ahead in NOW_IS
        if told or end - start == 1:  # "..., quarter past one, eating half six"
            return token.quantity.value, token.quantity.half_day, token.quantity.minute_only
    known = message.context.minute_of_day
    return (None if known is None else float(known)), False, False


def is_about_meat(message: Message, at: int) -> bool:
    """Whether the words before, in its sentence, name the meat last; a food only in the same clause."""
    start, _ = message.clause(at)
    for i in range(at - 1, -1, -1):
        token = message.tokens[i]
        if token.is_break or token.lemma in DOME_WORDS or token.text in DOME_WORDS:
            return False
        if token.lemma in MEAT_WORDS and (i >= start or token.lemma in ("meat", "internal", "core")):
            return not message.is_laid_by(i + 1, at)
    return False


def is_of_another(message: Message, start: int, at: int) -> bool:
    """Whether the thing named last in tokens[start:at] is not the fire: the meat, the gasket."""
    for token in reversed(message.tokens[start:at]):
        if token.lemma in DOME_WORDS or token.text in SPEAKS_ANEW:
            return False
        if token.lemma in message.lexicon.data["not_the_fire"]:
            return True
    return False


def is_of_the_lid(message: Message, match: Match) -> bool:
    """ "The lid isn't open, I shut it ten minutes ago": no vent is named, and the part named last in the sentence is the lid."""
    if any(token.lemma in VENTS for token in message.tokens[match.start : match.end]):
        return False
    begins = max((at + 1 for at in range(match.start) if message.tokens[at].is_break), default=0)
    named = [token.lemma for token in message.tokens[begins : match.start] if token.lemma in VENTS | {"lid"}]
    return named[-1:] == ["lid"]
