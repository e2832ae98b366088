"""Figures that are differences: "40 over", "+12", "off by 50, too hot", and what only tells an instrument's error."""

from advisor.language.claims import Claim
from advisor.language.cues import Cues
from advisor.language.message import Message
from advisor.language.patterns import Match
from advisor.language.tokens import Quantity

HIGHEST_ADJECTIVE = 200  # "20 hot" is a difference, "400 hot" a reading
A_LITTLE = 30  # "a bit hot, maybe 10"
SIGNS = {1: 1.0, -1: -1.0, "by_over": 1.0, "by_under": -1.0}
ERRORS = {"low", "high", "out", "off", "lower", "higher", "hotter", "colder", "cooler", "hot", "cold"}
INSTRUMENTS = {"thermometer", "gauge", "probe"}
BATHS = ("boiling_reads_f", "ice_reads_f")
HOT = {"hot", "high", "over", "above", "hotter", "higher"}
COLD = {"cold", "low", "under", "below", "colder", "lower", "cool", "cooler"}
_PLAIN = {"over", "above", "under", "below", "past", "beneath"}


def difference_at(message: Message, cues: Cues, offsets: list[Match], at: int) -> Claim | None:
    """The figure at `at` as a difference, where a sign or the words beside it make it one."""
    quantity = message.tokens[at].quantity
    sign = _sign(message, at)
    if sign:
        return Claim(
            "over_f", sign * abs(quantity.value), quantity.unit, at, quantity.said, is_difference=True
        )
    for match in offsets:
        after = match.start == at + 1 and match.means in (1, -1) and _is_offset(message, match, quantity)
        if after and _tells_error(message, cues, match, at):
            return None
        led = match.means == "by_off" and cues.lead_to(match, at)
        led = led or (match.means == "by_side" and match.start == at + 1)
        if led and (side := _side(message)):
            return Claim(
                "over_f", side * quantity.value, quantity.unit, at, quantity.said, is_difference=True
            )
        before = match.means in ("by_over", "by_under") and cues.lead_to(match, at)
        if before and message.tokens[match.end - 1].text == "," and quantity.value > A_LITTLE:
            continue  # "a bit hot, 290"
        if after and message.words(match.end, match.end + 1) in ("outside", "zero", "out"):
            return Claim("ambient_f", -quantity.value, quantity.unit, at, quantity.said)
        if (after or before) and quantity.value > 0 and message.moods[at] != "was":
            return Claim(
                "over_f",
                SIGNS[match.means] * quantity.value,
                quantity.unit,
                at,
                quantity.said,
                is_difference=True,
            )
    return None


def _side(message: Message) -> int:
    """+1 where the message says too hot, -1 too cold, 0 where neither or both."""
    words = {token.text for token in message.tokens}
    return bool(words & HOT) - bool(words & COLD)


def _tells_error(message: Message, cues: Cues, match: Match, at: int) -> bool:
    """ "My thermometer reads 5 low", "10 low in boiling water": how far the instrument is out."""
    start, _ = message.clause(at)
    behind = {token.text for token in message.tokens[match.end : match.end + 4]}
    if "what" in behind and behind & INSTRUMENTS:
        return True  # "40 over what the probe says"
    if any(cue.means in BATHS for cue in cues.owners):
        return message.tokens[match.start].text in ERRORS
    words = [word for token in message.tokens[start:at] for word in (token.text, token.lemma)]
    return (
        bool((INSTRUMENTS | {"lid", "dial"}) & set(words))
        and message.tokens[at - 1].lemma == "say"
        and message.tokens[match.start].text in ERRORS
    )


def _sign(message: Message, at: int) -> int:
    """+1 for a figure written "+12", -1 for "-15" beside talk of a target; 0 where there is no sign."""
    value = message.tokens[at].quantity.value
    if message.tokens[at].text.startswith("+") and value < HIGHEST_ADJECTIVE:
        return 1
    wished = any(token.text in ("target", "goal", "setpoint") for token in message.tokens)
    return -1 if wished and message.tokens[at].text.startswith("-") and value < 0 else 0


def _is_offset(message: Message, match: Match, quantity: Quantity) -> bool:
    word = message.tokens[match.start].text
    if match.start + 1 < len(message.tokens) and message.tokens[match.end - 1].text == "than":
        return False  # "25 lower than the old probe"
    if message.words(match.end, match.end + 1) == "than" and len(match) == 1:
        return False
    return word in _PLAIN or quantity.value < HIGHEST_ADJECTIVE or (len(match) > 1 and quantity.value <= 250)
