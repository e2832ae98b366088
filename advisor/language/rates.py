"""How fast the dome moves, from "gained 20 in the last 10 min" and "up 50 in 5 minutes"."""

from advisor.facts import Value
from advisor.language.message import Message
from advisor.units import difference_c_to_f

FALLS = {
    "drop",
    "dropped",
    "lost",
    "lose",
    "down",
    "fell",
    "fallen",
    "loses",
    "losing",
    "dropping",
    "falling",
    "come",
}
RISES = {
    "gained",
    "gain",
    "up",
    "climb",
    "rose",
    "risen",
    "climbed",
    "gaining",
    "jumped",
    "rising",
    "climbing",
    "put",
}
LINKS = {
    "in",
    "over",
    "the",
    "last",
    "past",
    "within",
    "about",
    "just",
    "only",
    "every",
    "each",
    "for",
    "inside",
}
LARGEST = 300


def rate_facts(message: Message, scale: str | None) -> dict[str, Value]:
    """rate_f_per_min, signed, where a change and its time stand side by side."""
    tokens = message.tokens
    for at, token in enumerate(tokens):
        quantity = token.quantity
        if (
            not quantity
            or quantity.kind not in ("number", "degrees")
            or message.moods[at] not in ("said", "maybe")
        ):
            continue
        time_at = _time_after(message, at)
        sign = _sign(message, at)
        if time_at is None or not sign or not 0 < quantity.value <= LARGEST:
            continue
        change = difference_c_to_f(quantity.value) if (quantity.unit or scale) == "C" else quantity.value
        return {"rate_f_per_min": round(sign * change / tokens[time_at].quantity.value, 2)}
    return {}


def _time_after(message: Message, at: int) -> int | None:
    for i in range(at + 1, min(at + 6, len(message.tokens))):
        token = message.tokens[i]
        if token.quantity:
            return i if token.quantity.kind == "minutes" and token.quantity.value > 0 else None
        if token.text not in LINKS:
            return None
    return None


def _sign(message: Message, at: int) -> int:
    """+1 or -1 from the word of change right before the figure; 0 where there is none."""
    fillers = message.lexicon.data["figures"]["fillers"]
    for i in range(at - 1, max(-1, at - 4), -1):
        text = message.tokens[i].text
        if text in FALLS:
            return -1
        if text in RISES:
            return 1
        if text not in fillers and text != "by":
            return 0
    return 0
