"""A short answer to the question that was asked: "yep", "half", "about an hour", "white", "no idea"."""

from advisor.facts import Value
from advisor.language.message import Message
from advisor.language.patterns import Match
from advisor.language.phrase_figures import minutes_of
from advisor.language.tokens import Token
from advisor.vocabulary import FactDefinition

LONGEST_ANSWER = 8
EARLY_WORDS = 3
TEMPERATURES = ("temperature", "difference")
FILLERS = {
    "about",
    "around",
    "like",
    "maybe",
    "probably",
    "it",
    "is",
    "just",
    "a",
    "the",
    "say",
    "i",
    "think",
    "at",
    "be",
    "well",
    "um",
    "er",
    "roughly",
    "nearly",
    "almost",
    "now",
    "or",
    "so",
    "guess",
    "reckon",
    "'s",
    "still",
    ",",
    ".",
}


def answer(message: Message, heard: dict[str, Value]) -> dict[str, Value]:
    """What the message says about the fact in context.asked, where the words alone did not tell it."""
    asked = message.context.asked
    if not asked or asked not in message.lexicon.vocabulary or asked in heard:
        return {}
    fact = message.lexicon.vocabulary[asked]
    if fact.type == "flag":
        return _flag(message, asked)
    if len(message.tokens) > LONGEST_ANSWER:
        return {}
    if fact.type == "choice":
        return _choice(message, asked, fact)
    if fact.is_number:
        return _number(message, asked, fact) or _short(message, asked) or _offered(message, asked, fact)
    text = message.words()
    return {asked: text} if text and not heard else {}


def _reply(message: Message) -> Match | None:
    """The yes or no with which the message begins."""
    found = [
        match
        for match in message.lexicon.answers.find(message.tokens)
        if match.start <= EARLY_WORDS
        and match.means in ("yes", "no")
        and {token.text for token in message.tokens[: match.start]} <= FILLERS
    ]
    return min(found, key=lambda match: (match.start, -len(match)), default=None)


def _flag(message: Message, asked: str) -> dict[str, Value]:
    reply = _reply(message)
    if reply is None or _corrects(message):
        return _by_choice(message, asked) or _short(message, asked)
    return {asked: (reply.means == "yes") == _yes_means(message, asked)}


def _yes_means(message: Message, asked: str) -> bool:
    """What "yes" stands for: what the first thing offered means ("open air": not indoors)."""
    ask = message.lexicon.vocabulary[asked].ask
    if ask is None or not ask.choices or ask.choices[0] == "yes":
        return True
    first = [
        Token(word, "word", lemma=message.lexicon.lemmas.get(word, "")) for word in ask.choices[0].split()
    ]
    found = message.lexicon.loose_answers(asked).find(first)
    return bool(max(found, key=len).means) if found else True


def _short(message: Message, asked: str) -> dict[str, Value]:
    """A word or two that answer this question alone."""
    if len(message.tokens) > LONGEST_ANSWER:
        return {}
    found = message.lexicon.short_answers(asked).find(message.tokens)
    if not found:
        return {}
    value = max(found, key=len).means
    return {asked: value if isinstance(value, bool | str) else float(value)}


def _offered(message: Message, asked: str, fact: FactDefinition) -> dict[str, Value]:
    """One of the choices said in its own words, where each choice has its answer."""
    ask = fact.ask
    if ask is None or len(ask.choices) != len(ask.answers):
        return {}
    words = set(message.words().split())
    for choice, likely in zip(ask.choices, ask.answers, strict=True):
        if set(choice.split()) <= words:
            return {asked: likely.value if isinstance(likely.value, bool | str) else float(likely.value)}
    return {}


def _corrects(message: Message) -> bool:
    return any(match.means == "correction" for match in message.lexicon.intents.find(message.tokens))


def _by_choice(message: Message, asked: str) -> dict[str, Value]:
    """ "open" to "is the lid open or shut?": the first choice is true, the second false, as the question offers."""
    fact = message.lexicon.vocabulary[asked]
    choices = fact.ask.choices if fact.ask else ()
    words = set(message.words().split())
    first = _yes_means(message, asked)
    for value, choice in zip((first, not first), choices, strict=False):
        if words and set(choice.split()) <= words:
            return {asked: value}
    return {}


def _choice(message: Message, asked: str, fact: FactDefinition) -> dict[str, Value]:
    words = set(message.words().split())
    for value in fact.values:
        if set(value.split("_")) <= words:
            return {asked: value}
    offered = message.context.choices or (fact.ask.choices if fact.ask else ())
    for choice, value in zip(offered, fact.values, strict=False):
        if len(offered) == len(fact.values) and set(choice.split()) <= words:
            return {asked: value}
    loose = message.lexicon.loose_answers(asked).find(message.tokens)
    if loose:
        return {asked: max(loose, key=len).means}
    short = _short(message, asked)
    if short:
        return short
    reply = _reply(message)
    if reply and reply.means == "no" and "none" in fact.values:
        return {asked: "none"}
    return {}


def _number(message: Message, asked: str, fact: FactDefinition) -> dict[str, Value]:
    if fact.type == "fraction":
        return _opening(message, asked) if asked.endswith("_vent") else _share(message, asked)
    figures = [token.quantity for token in message.tokens if token.quantity]
    if fact.type == "minutes":
        return _minutes(message, asked)
    if fact.type == "kilograms":
        weights = [figure.value for figure in figures if figure.kind == "kg"]
        return {asked: round(weights[0], 2)} if weights else {}
    if fact.type == "difference" and len(figures) == 1 and figures[0].kind in ("number", "degrees"):
        value = figures[0].value * (1.8 if figures[0].unit == "C" else 1)
        low = any(token.text in ("under", "below", "low", "down", "cold") for token in message.tokens)
        return {asked: -value if low else value}
    return {}


def _opening(message: Message, asked: str) -> dict[str, Value]:
    found = message.lexicon.openings.find(message.tokens)
    if not found:
        reply = _reply(message)
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
    bare = [
        token.quantity.value for token in message.tokens if token.quantity and token.quantity.kind == "number"
    ]
    if len(bare) == 1:
        return {asked: bare[0]}
    if any(match.means == "just_now" for match in message.lexicon.answers.find(message.tokens)):
        return {asked: 0.0}
    loose = message.lexicon.loose_answers(asked).find(message.tokens)
    return {asked: float(max(loose, key=len).means)} if loose else {}


def is_refusal(message: Message) -> bool:
    """A "no" or "maybe" that leaves the question as open as it was ("no wood" to "how long ago?")."""
    reply = _reply(message)
    return bool(reply and reply.means == "no") or message.words() in (
        "maybe",
        "perhaps",
        "possibly",
        "both",
        "neither",
    )
