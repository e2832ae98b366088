"""Several cookers in one message: who is meant, and which words belong to whom."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from advisor.cooknames import same_cooker
from advisor.facts import Value
from advisor.language.message import Message
from advisor.language.spoken import ONES
from advisor.language.tokens import Token

OPENINGS = {"and", "but", "ok", "so", "now", "on", "in", "for", "well", "right", ","}  # words before the name
BEFORE_A_SIDE = {"", ",", ".", ";", "and", "but", "the", "while", "my"}
NAMING = {"pit", "cooker", "number", "kamado", "one", "the", "and", "at", "to"}  # words that only name a cooker
ALL = {"all", "both", "each", "every", "everything"}
OF_THE_FIRE = {"trend", "fire_out", "flames", "smoke", "smoke_amount", "grease_fire", "stage"}
OF_THE_DOME = {"dome_f", "target_f", "over_f", "trend"}  # what "all" of several cookers can share
LEAST_READING = 60  # a smaller figure after "first" is a count
_NUMBER_WORDS = {word: str(value) for word, value in ONES.items() if 1 <= value <= 9}


@dataclass(frozen=True, slots=True)
class Part:
    """The words about one cooker; cooker None where none was named."""

    cooker: str | None
    message: Message


def parts_of(message: Message) -> list[Part]:
    """The message cut where it goes over to another cooker; words before the first name belong to it."""
    marks: list[tuple[int, str]] = []
    for at in range(len(message.tokens)):
        name = _named_at(message, at)
        name = _resolved(message, name)
        if name and not (marks and marks[-1][1] == name) and not _is_denied(message, at):
            marks.append((at, name))
    marks = _with_numbers(message, _with_sides(message, marks)) or _bare_numbers(message) or _at_the_head(message)
    if not marks:
        return [Part(None, message)]
    starts = [0, *(_clause_opening(message, at) for at, _ in marks[1:]), len(message.tokens)]
    return [Part(name, _about(name, message.part(starts[i], starts[i + 1]))) for i, (_, name) in enumerate(marks)]


def _about(name: str, part: Message) -> Message:
    """The part as words about the cooker `name`: what was asked and known of another one says nothing about it."""
    context = part.context
    if not context.cookers or same_cooker(name, context.current or "1"):
        return part
    facts = next((facts for known, facts in context.elsewhere.items() if same_cooker(known, name)), {})
    return replace(part, context=replace(context, asked=None, choices=(), facts=facts, recent=frozenset()))


def _at_the_head(message: Message) -> list[tuple[int, str]]:
    """ "Two: fire's been dead 20 minutes", "two is 230": a cooker already going, by its bare number at the very head."""
    tokens = message.tokens
    at = next((at for at, token in enumerate(tokens) if token.text not in OPENINGS), len(tokens))
    name = _small_number(tokens[at]) if at < len(tokens) else None
    going = name is not None and any(same_cooker(name, known) for known in message.context.cookers)
    if not going or _reports_a_step(tokens, at + 1):
        return []
    says = _text(tokens, at + 1) in (":", "-", "now", "has", "'s", "still") or at + 1 < len(tokens) and tokens[at + 1].lemma == "be"
    return [(at, name)] if says else []


def _reports_a_step(tokens: list[Token], at: int) -> bool:
    """ "Two is done" speaks of a step, not of a cooker."""
    return any(token.text in ("done", "finished", "sorted", "complete") for token in tokens[at : at + 3])


def _bare_numbers(message: Message) -> list[tuple[int, str]]:
    """ "One is fine, but in two the fat is burning", "left is hot, right is cold": where two such names stand."""
    tokens = message.tokens
    marks = [
        (at, name)
        for at, token in enumerate(tokens)
        if (name := _small_number(token) or _side(message, at))
        and (_is_named_bare(message, at) or _has_its_reading(message, at))
    ]
    return marks if len({name for _, name in marks}) > 1 else []


def _with_numbers(message: Message, marks: list[tuple[int, str]]) -> list[tuple[int, str]]:
    """ "Number 1 250, 2 steady, 3 dropping": a cooker named by its number lends that to bare numbers beside it."""
    if not any(name.isdigit() for _, name in marks):
        return marks
    taken = {at for at, _ in marks}
    bare = [(at, str(_small_number(message.tokens[at]))) for at in range(len(message.tokens))
            if at not in taken and _has_its_reading(message, at)]
    return sorted(marks + bare)


def _resolved(message: Message, name: str | None) -> str | None:
    """ "The other one": of two cookers going, the one that is not in hand; of more, nobody knows which."""
    if name != "other":
        return name
    others = [known for known in message.context.cookers if not same_cooker(known, message.context.current or "1")]
    return others[0] if len(others) == 1 else None


def _is_denied(message: Message, at: int) -> bool:
    """ "Not the left one, the right one": a cooker that is not meant."""
    ahead = [token.text for token in message.tokens[max(0, at - 2) : at] if token.text not in ("the", "my", "on")]
    return ahead[-1:] == ["not"]


def _with_sides(message: Message, marks: list[tuple[int, str]]) -> list[tuple[int, str]]:
    """ "Left one is 400, middle is 250": a cooker named in full lends its kind to bare sides beside it."""
    if not any(name in message.lexicon.data["cookers"]["adjectives"] for _, name in marks):
        return marks
    named = {at for at, _ in marks}
    tokens = message.tokens
    sides = [
        (at, side)
        for at in range(len(tokens) - 1)
        if at not in named
        and (side := _side(message, at))
        and _text(tokens, at - 1) in BEFORE_A_SIDE
        and (tokens[at + 1].lemma == "be" or _is_reading(tokens[at + 1]))
    ]
    return sorted(marks + sides)


def apart(message: Message) -> tuple[Message, Message | None]:
    """The message without a last clause about all its cookers ("..., all meant to be 275"), and that clause."""
    start, end = (message.clauses() or [(0, 0)])[-1]
    if start == 0 or _text(message.tokens, start) not in ALL or end < len(message.tokens):
        return message, None
    if len({part.cooker for part in parts_of(message.part(0, start))}) < 2:
        return message, None
    return message.part(0, start), message.part(start, end)


def carried_over(parts: list[Part], read: list[tuple]) -> list[tuple]:
    """ "Pit 1 should be 275, pit 2 275": a cooker with nothing but a figure takes the wish of the one before it."""
    wished = False
    carried = []
    for part, (name, (facts, *rest)) in zip(parts, read, strict=True):
        if wished and set(facts) == {"dome_f"} and _is_a_bare_figure(part.message):
            facts = {"target_f": facts["dome_f"]}
        wished = set(facts) == {"target_f"}
        carried.append((name, (facts, *rest)))
    return carried


def _is_a_bare_figure(message: Message) -> bool:
    """Whether nothing but names and figures is said."""
    words = [token.text for token in message.tokens if token.kind == "word" and not token.quantity]
    return all(word in NAMING or word in message.lexicon.data["cookers"]["adjectives"] for word in words)


def meant_by_all(message: Message, facts: Mapping[str, Value]) -> tuple[str, ...]:
    """The other cookers of "all should be 300", "both at 250"; () where it is about one, or about its two vents."""
    context, tokens = message.context, message.tokens
    at = next((at for at, token in enumerate(tokens) if token.text not in OPENINGS), len(tokens))
    others = tuple(name for name in context.cookers if not same_cooker(name, context.current or "1"))
    of_all = _text(tokens, at) in ALL and bool(facts) and facts.keys() <= OF_THE_DOME
    return others if of_all else ()


def _is_named_bare(message: Message, at: int) -> bool:
    tokens, before = message.tokens, _text(message.tokens, at - 1)
    if before not in ("", ",", ".", "and", "but", "in", "on", ";", "while") or at + 1 >= len(tokens):
        return False
    reads = _side(message, at) is not None and _is_reading(tokens[at + 1])
    return tokens[at + 1].lemma == "be" or before == "in" or reads


def _has_its_reading(message: Message, at: int) -> bool:
    """ "1 at 275 2 at 290", "2 steady": a small number with a reading, or a known one with a word on its fire."""
    tokens, name = message.tokens, _small_number(message.tokens[at])
    if name is None or at + 1 >= len(tokens):
        return False
    if _text(tokens, at + 1) in ("at", ":", "=", "reads", "on") and at + 2 < len(tokens):
        return _is_reading(tokens[at + 2])
    known = any(same_cooker(name, cooker) for cooker in message.context.cookers)
    begins = _text(tokens, at - 1) in ("", ",", ".", ";", "and", "but")
    return known and begins and any(match.start == at + 1 and match.means[0] in OF_THE_FIRE
                                    for match in message.lexicon.phrases.find(tokens))


def _side(message: Message, at: int) -> str | None:
    """ "Left is at 350, right is at 240": a bare adjective as a name."""
    text = message.tokens[at].text
    return text if text in message.lexicon.data["cookers"]["adjectives"] else None


def _clause_opening(message: Message, at: int) -> int:
    while at > 0 and message.tokens[at - 1].text in (
        "the",
        "and",
        "but",
        "on",
        "my",
        "cooker",
        "pit",
        "while",
    ):
        at -= 1
    return at


def _named_at(message: Message, at: int) -> str | None:
    tokens, rules = message.tokens, message.lexicon.data["cookers"]
    token, before, after = tokens[at], _text(tokens, at - 1), _text(tokens, at + 1)
    if (
        before in ("number", "#", "cooker", "pit", "kamado")
        or before in ("p", "c", "k", "nr") and token.glued
        or before == "no"
        and _text(tokens, at - 2) == "cooker"
    ):
        value = _small_number(token)
        if value and not (
            after in ("degrees", "°") or before == "number" and _text(tokens, at - 2) in ("what", "step")
        ):
            return value
    if _text(tokens, at - 2) in ("did", "done", "finished") or before in ("did", "step", "done"):
        return None
    if before == "no":
        return None  # "no second one"
    if before in ("my", "our") and token.text == "first" and not _is_subject(tokens, at + 1):
        return None  # "picked up my first cooker"
    if token.text in rules["ordinals"] and (after in rules["kinds"] or _is_subject(tokens, at)):
        return rules["ordinals"][token.text]
    if (
        token.text in rules["adjectives"]
        and after in rules["kinds"]
        and before not in ("a", "another", "each", "this", "which", "no")
    ):
        return token.text
    return _known_name(message, at) or _known_number(message, at)


def _known_number(message: Message, at: int) -> str | None:
    """ "The chicken on 2", "the lid on 2": a cooker already going, by its number."""
    name = _small_number(message.tokens[at])
    is_place = _text(message.tokens, at - 1) in ("on", "in") and at > 1 and message.tokens[at - 2].named
    going = name is not None and any(same_cooker(name, known) for known in message.context.cookers)
    return name if is_place and going else None


def _text(tokens: list[Token], at: int) -> str:
    return tokens[at].text if 0 <= at < len(tokens) else ""


def _small_number(token: Token) -> str | None:
    if token.text in _NUMBER_WORDS:
        return _NUMBER_WORDS[token.text]
    quantity = token.quantity
    if (
        quantity
        and quantity.kind == "number"
        and 1 <= quantity.value <= 20
        and quantity.value == int(quantity.value)
    ):
        return str(int(quantity.value))
    return None


def _is_subject(tokens: list[Token], at: int) -> bool:
    """ "the second is at 300": an ordinal that something is said of."""
    return (
        _text(tokens, at - 1) in ("the", "", ",", ".", ";", "and", "but")
        and at + 1 < len(tokens)
        and (tokens[at + 1].lemma == "be" or _is_reading(tokens[at + 1]))
    )


def _is_reading(token: Token) -> bool:
    """ "Second cooker 300 F, first 225 F"."""
    quantity = token.quantity
    return bool(quantity and quantity.kind in ("number", "degrees") and quantity.value >= LEAST_READING)


def _known_name(message: Message, at: int) -> str | None:
    """A cooker already going, called by its name."""
    for name in message.context.cookers:
        words = name.lower().split()
        if (
            words
            and not words[0].isdigit()
            and [token.text for token in message.tokens[at : at + len(words)]] == words
        ):
            return name
    return None
