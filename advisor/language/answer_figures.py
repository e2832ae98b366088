"""Figures in answer to the question that was asked: minutes, openings, shares, weights, differences.

A figure that the message gives to another fact answers nothing here.
"""

from advisor.facts import Value
from advisor.language.message import Message
from advisor.language.phrase_figures import minutes_of
from advisor.language.replies import FILLERS, reply_of
from advisor.language.vents import OTHER_SUBJECTS
from advisor.vocabulary import FactDefinition

OF_A_READING = {"now", "still", "at", "it", "is", "'s"}  # "now 275" is no time, whatever was asked
MOST_BARE_MINUTES = {"F": 120, "C": 60, None: 120}
LEAST_READING = 32


def number_answer(message: Message, fact: FactDefinition) -> dict[str, Value]:
    """The asked fact from the figure of the message."""
    asked = str(message.context.asked)
    if fact.type == "fraction":
        return _opening(message, asked) if asked.endswith("_vent") else _share(message, asked)
    if fact.type == "minutes":
        return _minutes(message, asked)
    figures = [token.quantity for token in message.tokens if token.quantity]
    if fact.type == "kilograms":
        weights = [figure.value for figure in figures if figure.kind == "kg"]
        return {asked: round(weights[0], 2)} if weights else {}
    if fact.type == "difference" and len(figures) == 1 and figures[0].kind in ("number", "degrees"):
        return _difference(message, asked)
    return {}


def is_spoken_for(message: Message, heard: dict[str, Value], wanted: str) -> bool:
    """Whether another fact has taken the time, share or opening that is said."""
    taken = {message.lexicon.vocabulary[name].type for name in heard}
    if wanted == "fraction":
        return bool(taken & {"fraction", "inches"})
    if wanted == "difference":
        return "temperature" in taken and "dome_f" in heard and not _is_bare(message)
    return wanted == "minutes" and bool(taken & {"minutes", "rate"})


def speaks_of_another(message: Message) -> bool:
    """Whether a part that is no vent is named ("lid shut")."""
    return any(token.lemma in OTHER_SUBJECTS or token.text in OTHER_SUBJECTS for token in message.tokens)


def _difference(message: Message, asked: str) -> dict[str, Value]:
    quantity = next(token.quantity for token in message.tokens if token.quantity)
    words = {token.text for token in message.tokens}
    if OF_A_READING & words and quantity.value > 100:
        return {}
    value = quantity.value * (1.8 if quantity.unit == "C" else 1)
    return {asked: -value if words & {"under", "below", "low", "down", "cold", "short", "shy"} else value}


def _opening(message: Message, asked: str) -> dict[str, Value]:
    if speaks_of_another(message):
        return {}
    found = message.lexicon.openings.find(message.tokens)
    if not found:
        reply = reply_of(message)
        return {asked: 0.0} if reply and reply.means == "no" else {}
    match = max(found, key=len)
    quantity = message.tokens[match.quantity].quantity if match.quantity is not None else None
    if quantity and quantity.kind == "inches":
        return {f"{asked}_in": round(quantity.value, 3)}
    if quantity:
        return {asked: round(1 - quantity.value if match.means == "closed_by" else quantity.value, 2)}
    if match.means in ("moved",):
        return {asked: 1.0} if len(match) == 1 else {}
    return {asked: float(match.means)}


def _share(message: Message, asked: str) -> dict[str, Value]:
    for token in message.tokens:
        if token.quantity and token.quantity.kind == "fraction":
            return {asked: round(token.quantity.value, 2)}
    loose = message.lexicon.loose_answers(asked).find(message.tokens)
    return {asked: float(max(loose, key=len).means)} if loose else {}


def _minutes(message: Message, asked: str) -> dict[str, Value]:
    falls = message.lexicon.vocabulary[asked].clock == "falls"
    for at, token in enumerate(message.tokens):
        if token.quantity and token.quantity.kind in ("minutes", "ago", "clock"):
            value = minutes_of(message, at, falls)
            return {} if value is None else {asked: value}
    bare = bare_minutes(message)
    if bare is not None:
        return {asked: bare}
    if any(match.means == "just_now" for match in message.lexicon.answers.find(message.tokens)):
        return {asked: 0.0}
    loose = message.lexicon.loose_answers(asked).find(message.tokens)
    return {asked: float(max(loose, key=len).means)} if loose else {}


def bare_minutes(message: Message) -> float | None:
    """A lone number that answers "how long ago?" and is no reading; None otherwise ("now 275", "170")."""
    figures = [token.quantity for token in message.tokens if token.quantity]
    if len(figures) != 1 or figures[0].kind != "number" or figures[0].unit or not _is_bare(message):
        return None
    value = figures[0].value
    words = {token.text for token in message.tokens}
    if value < LEAST_READING:
        return value
    scale = message.context.units.temperature if message.context.units else None
    return None if words & OF_A_READING or value > MOST_BARE_MINUTES[scale] else value


def asks_for_minutes(message: Message) -> bool:
    asked = message.context.asked
    return bool(
        asked and asked in message.lexicon.vocabulary and message.lexicon.vocabulary[asked].type == "minutes"
    )


def _is_bare(message: Message) -> bool:
    return all(token.text in FILLERS or token.quantity or token.kind == "mark" for token in message.tokens)
