"""Several cookers in one message: which words belong to whom, and what is said of all of them."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from advisor.cooknames import same_cooker
from advisor.facts import Value
from advisor.language.cooker_names import (
    has_its_reading,
    is_meant,
    is_named_bare,
    is_reading,
    named_at,
    resolved,
    side_at,
    small_number,
    text_of,
)
from advisor.language.message import Message
from advisor.language.tokens import Token

OPENINGS = {"and", "but", "ok", "so", "now", "on", "in", "for", "well", "right", ","}  # words before the name
AFTER_A_SIDE = {":", "not", "just", "has", "have", "now", "still", "lit", "smokes", "looks", "reads", "says"}
BEFORE_A_SIDE = {"", ",", ".", ";", "and", "but", "the", "while", "my"}
NAMING = {"pit", "cooker", "number", "kamado", "one", "the", "and", "at", "to"}  # words that only name a cooker
ALL = {"all", "both", "each", "every", "everything"}
OF_THE_DOME = {"dome_f", "target_f", "over_f", "trend"}  # what "all" of several cookers can share


@dataclass(frozen=True, slots=True)
class Part:
    """The words about one cooker; cooker None where none was named."""

    cooker: str | None
    message: Message


def parts_of(message: Message) -> list[Part]:
    """The message cut where it goes over to another cooker; words before the first name belong to it."""
    marks: list[tuple[int, str]] = []
    for at in range(len(message.tokens)):
        name = named_at(message, at)
        name = resolved(message, name)
        if name and not (marks and marks[-1][1] == name) and is_meant(message, at):
            marks.append((at, name))
    marks = _with_numbers(message, _with_sides(message, marks)) or _bare_numbers(message) or _at_the_head(message)
    if not marks:
        return [Part(None, message)]
    starts = [0, *(_clause_opening(message, at) for at, _ in marks[1:]), len(message.tokens)]
    return [Part(name, _about(name, message.part(starts[i], starts[i + 1]))) for i, (_, name) in enumerate(marks)]


def apart(message: Message) -> tuple[Message, Message | None]:
    """The message without a last clause about all its cookers ("..., all meant to be 275"), and that clause."""
    start, end = (message.clauses() or [(0, 0)])[-1]
    if start == 0 or text_of(message.tokens, start) not in ALL or end < len(message.tokens):
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
    of_all = text_of(tokens, at) in ALL and bool(facts) and facts.keys() <= OF_THE_DOME
    return others if of_all else ()


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
    if at < len(tokens) and side_at(message, at) and text_of(tokens, at + 1) in AFTER_A_SIDE and _has_sides(message):
        return [(at, tokens[at].text)]
    name = small_number(tokens[at]) if at < len(tokens) else None
    going = name is not None and any(same_cooker(name, known) for known in message.context.cookers)
    if not going or _reports_a_step(tokens, at + 1):
        return []
    says = text_of(tokens, at + 1) in (":", "-", "now", "has", "'s", "still") or at + 1 < len(tokens) and tokens[at + 1].lemma == "be"
    return [(at, name)] if says else []


def _has_sides(message: Message) -> bool:
    """Whether the cookers going are told apart by where they stand."""
    return any(name in message.lexicon.data["cookers"]["adjectives"] for name in message.context.cookers)


def _reports_a_step(tokens: list[Token], at: int) -> bool:
    """ "Two is done" speaks of a step, not of a cooker."""
    return any(token.text in ("done", "finished", "sorted", "complete") for token in tokens[at : at + 3])


def _bare_numbers(message: Message) -> list[tuple[int, str]]:
    """ "One is fine, but in two the fat is burning", "left is hot, right is cold": where two such names stand."""
    tokens = message.tokens
    marks = [
        (at, name)
        for at, token in enumerate(tokens)
        if (name := small_number(token) or side_at(message, at))
        and (is_named_bare(message, at) or has_its_reading(message, at))
    ]
    return marks if len({name for _, name in marks}) > 1 else []


def _with_numbers(message: Message, marks: list[tuple[int, str]]) -> list[tuple[int, str]]:
    """ "Number 1 250, 2 steady, 3 dropping": a cooker named by its number lends that to bare numbers beside it."""
    if not any(name.isdigit() for _, name in marks):
        return marks
    taken = {at for at, _ in marks}
    bare = [(at, str(small_number(message.tokens[at]))) for at in range(len(message.tokens))
            if at not in taken and has_its_reading(message, at)]
    return sorted(marks + bare)


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
        and (side := side_at(message, at))
        and text_of(tokens, at - 1) in BEFORE_A_SIDE
        and (tokens[at + 1].lemma == "be" or is_reading(tokens[at + 1]) or tokens[at + 1].text in AFTER_A_SIDE)
    ]
    return sorted(marks + sides)


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
