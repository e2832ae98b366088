"""What is being cooked: the food as said, its kind and weight."""

from advisor.facts import Value
from advisor.language.message import Message
from advisor.language.phrase_figures import is_of_wood

UNHEARD = ("elsewhere", "bygone", "suppose")
KINDS = {"beef": "beef", "pork": "pork", "lamb": "lamb", "poultry": "poultry", "fish": "fish"}
NOT_FOOD = {"lump", "wood", "bag", "chunk", "basket"}
GENERIC = {"bird", "birds", "joint", "roast", "poultry", "fish"}  # a closer word replaces them
GROUND_OF = {"beef": "beef", "pork": "pork", "turkey": "poultry", "chicken": "poultry", "lamb": "lamb"}
BIRDS = {
    "chicken": "chicken",
    "turkey": "turkey",
    "duck": "other",
    "goose": "other",
    "pheasant": "other",
    "quail": "other",
}


def food_facts(message: Message) -> dict[str, Value]:
    """food, and with it meat_kind, bird and intact where the word itself tells them."""
    facts: dict[str, Value] = {}
    for at, token in enumerate(message.tokens):
        if token.names and message.moods[at] not in UNHEARD:
            if "food" in facts and not (facts["food"] in GENERIC or _corrected(message, at)):
                continue
            facts = {"food": token.text} | _entailed(token.text, token.names)
    return facts | _weight(message, facts)


def _weight(message: Message, facts: dict[str, Value]) -> dict[str, Value]:
    """A weight beside a food, with no charcoal in its clause, is the food's."""
    for at, token in enumerate(message.tokens):
        if (
            token.quantity
            and token.quantity.kind == "kg"
            and "food" in facts
            and message.moods[at] not in UNHEARD
        ):
            start, end = message.clause(at)
            of_another = {other.lemma for other in message.tokens[start:end]} & NOT_FOOD
            if not of_another and not is_of_wood(message, at):
                return {"food_kg": round(token.quantity.value, 2)}
    return {}


def _corrected(message: Message, at: int) -> bool:
    """ "Meant ribs", "forget the ribs, its wings", "not ribs, wings"."""
    before = [token.text for token in message.tokens[:at]]
    if "meant" in before or (before[-1:] == [","] and "not" in before[-4:-1]):
        return True
    return bool({"forget", "scratch", "not", "scrap"} & set(before)) and before[-1] in ("is", "'s")


def _entailed(text: str, kinds: frozenset[str]) -> dict[str, Value]:
    facts: dict[str, Value] = {}
    if "ground" in kinds:
        facts["intact"] = False
    kind = GROUND_OF.get(next((word for word in text.split() if word in GROUND_OF), ""))
    if kind or "ground" not in kinds:
        kind = kind or next(
            (KINDS[kind] for kind in ("poultry", "lamb", "beef", "fish", "pork") if kind in kinds), None
        )
        if kind:
            facts["meat_kind"] = kind
    bird = next((bird for word, bird in BIRDS.items() if word in text.split()), None)
    return facts | {"bird": bird} if bird else facts
