"""How far each vent is open: subjects and amounts of one clause paired off."""

from dataclasses import dataclass
from typing import Any

from advisor.facts import Value
from advisor.language.message import Message
from advisor.language.patterns import Match, longest_first
from advisor.language.vent_words import is_a_size, is_a_starter, is_filled, is_told

SUBJECTS = {
    "bottom": ("bottom",),
    "top": ("top",),
    "on_top": ("top",),
    "top_off": ("top",),
    "lower": ("bottom",),
    "both": ("bottom", "top"),
    "vents": ("bottom", "top"),
    "neither": ("bottom", "top"),
    "everything": ("bottom", "top"),
    "doors": ("bottom", "top"),
    "all": ("bottom", "top"),
}
OTHER_SUBJECTS = {
    "lid",
    "basket",
    "garage_door",
    "door",
    "gasket",
    "shed",
    "garage",
    "fridge",
    "bag",
    "food",
    "meat",
    "lump",
    "fire",
    "hood",
    "window",
    "windows",
    "dome",
}
SHORT_CLAUSE = 3
CORRECTING = {"no", "nope", "actually", "wait", "sorry", "oops", "meant", "mean"}
CORRECTING_CLAUSE = 6
AFTER_A_STATE = {"and", "but", "for", "since", "now", "up", "off", "down", "tight", "again", "it", "still", "already"}
ABOUT = {"about", "like", "around", "roughly", "maybe", "just", "say", "only", "nearly"}  # words before an amount
AMOUNTS = ("fraction", "inches")  # "lower" before one of these is the lower vent


@dataclass(frozen=True, slots=True)
class Opening:
    """An amount in a clause: a fraction, inches, or None where it moved by nobody knows how much."""

    match: Match
    fraction: float | None = None
    inches: float | None = None


def vent_facts(message: Message) -> dict[str, Value | None]:
    """bottom_vent, top_vent and their inches; None marks a vent that was moved by an unknown amount."""
    openings = [
        _opening(message, match)
        for match in longest_first(message.lexicon.openings.find(message.tokens))
        if not is_filled(message, match)
    ]
    facts: dict[str, Value | None] = {}
    dangling: list[int] = []
    latest: list[int] = []
    homeless: list[Opening] = []
    for start, end in message.clauses():
        subjects = [at for at in range(start, end) if _is_subject(message, at)]
        inside = _told_amounts(message, [one for one in openings if start <= one.match.start < end])
        if not subjects and inside and (dangling or _is_news(message, start, end)):
            subjects = dangling or latest
        latest = [at for at in subjects if message.tokens[at].lemma in SUBJECTS] or latest
        if subjects and not inside and homeless and end - start <= SHORT_CLAUSE:
            inside = homeless[-1:]  # "a quarter. the bottom one"
        homeless = [] if subjects else inside or homeless
        if subjects or inside:
            told = any(is_told(message, opening.match) for opening in inside)
            dangling = [] if told else [at for at in subjects if message.tokens[at].lemma in SUBJECTS]
        for opening, vents in _paired(message, subjects, inside):
            _set(facts, message, opening, vents)
    return facts | _same_again(message, facts)


def _same_again(message: Message, facts: dict[str, Value | None]) -> dict[str, Value | None]:
    """ "... and so is the top": the other vent's opening once more."""
    again: dict[str, Value | None] = {}
    for match in message.lexicon.same_again.find(message.tokens):
        other = "bottom" if match.means == "top" else "top"
        if message.moods[match.start] in ("said", "ask") and not any(
            name.startswith(match.means) for name in facts
        ):
            again |= {
                name.replace(other, match.means): value
                for name, value in facts.items()
                if name.startswith(other)
            }
    return again


def _told_amounts(message: Message, openings: list[Opening]) -> list[Opening]:
    """Openings without a bare verb whose amount follows: "opened the bottom (to) 2 inches" says 2 inches alone."""
    kept = []
    for place, opening in enumerate(openings):
        after = openings[place + 1].match.start if place + 1 < len(openings) else opening.match.end
        between = [token.text for token in message.tokens[opening.match.end : after] if token.text not in ABOUT]
        start = opening.match.start
        said_of = start > 0 and bool(_vents(message, start - 1) or message.tokens[start - 1].lemma == "be")
        is_verb = opening.match.quantity is None and len(opening.match) == 1
        told_next = place + 1 < len(openings) and openings[place + 1].fraction is not None
        onto_its_amount = between[-1:] in (["to"], ["at"]) or _is_one_vent(message, opening.match.end, after, told_next)
        if said_of or not is_verb or not onto_its_amount or place + 1 == len(openings):
            kept.append(opening)
    return kept


def _is_one_vent(message: Message, start: int, end: int, told_next: bool) -> bool:
    """Whether nothing but a vent's name stands there ("opened top 5 mm", "opened the top a crack")."""
    names = [at for at in range(start, end) if message.tokens[at].text not in ("the", "my")]
    amount = message.tokens[end].quantity if end < len(message.tokens) else None
    return len(names) == 1 and bool(_vents(message, names[0])) and (amount is not None or told_next)


def _is_news(message: Message, start: int, end: int) -> bool:
    """ "..., now shut", "... well no it's open": the vents named last, in another state."""
    words = {token.text for token in message.tokens[start:end]}
    corrects = bool(CORRECTING & words) and not words & message.lexicon.lemmas.keys() & OTHER_SUBJECTS
    return (end - start <= SHORT_CLAUSE and "now" in words) or (corrects and end - start <= CORRECTING_CLAUSE)


def _is_subject(message: Message, at: int) -> bool:
    token = message.tokens[at]
    word = token.lemma if token.lemma in SUBJECTS else token.text
    if at and message.tokens[at - 1].text == "no" or is_a_starter(message, at):
        return False
    if token.text == "lower":
        return any(one.quantity and one.quantity.kind in AMOUNTS for one in message.tokens[at + 1 : at + 2])
    if message.words(at - 1, at + 1) == "it all" and at > 1 and message.tokens[at - 2].lemma in ("shut", "open"):
        return True
    if token.text == "all":
        return at + 1 < len(message.tokens) and _stands_alone(message, at + 1)
    return word in SUBJECTS or token.lemma in OTHER_SUBJECTS or token.text in OTHER_SUBJECTS


def _stands_alone(message: Message, at: int) -> bool:
    """Whether the token is a bare "shut" or "open" ("with all shut since noon", but not "all open questions")."""
    after = message.tokens[at + 1 : at + 2]
    is_state = message.tokens[at].lemma in ("shut", "open")
    return is_state and (not after or after[0].kind != "word" or after[0].text in AFTER_A_STATE)


def _vents(message: Message, at: int) -> tuple[str, ...]:
    token = message.tokens[at]
    return SUBJECTS.get(token.lemma) or SUBJECTS.get(token.text, ())


def _paired(
    message: Message, subjects: list[int], openings: list[Opening]
) -> list[tuple[Opening, list[str]]]:
    """Each amount with the vents it belongs to."""
    pairs = []
    taken: set[int] = set()
    for place, opening in enumerate(openings):
        group = _group_for(message, subjects, openings, place, taken)
        taken |= set(group)
        vents = [vent for at in group for vent in _vents(message, at)]
        if vents:
            pairs.append((opening, vents))
    return pairs


def _group_for(
    message: Message, subjects: list[int], openings: list[Opening], place: int, taken: set[int]
) -> list[int]:
    match = openings[place].match
    inside = [at for at in subjects if match.start <= at < match.end]
    if inside:
        return inside
    earliest = openings[place - 1].match.end if place else -1
    latest = openings[place + 1].match.start if place + 1 < len(openings) else len(message.tokens)
    left = [at for at in subjects if earliest <= at < match.start and at not in taken]
    right = [at for at in subjects if match.end <= at < latest]
    if left and not _reaches_forward(message, match):
        return _last_group(message, left)
    if right:
        return _first_group(message, right)
    return _last_group(message, left or [at for at in subjects if at < match.start][-1:])


def _reaches_forward(message: Message, match: Match) -> bool:
    """ "... and shut the top": a verb right before its object takes that object."""
    after = match.end + (
        match.end < len(message.tokens) and message.tokens[match.end].text in ("the", "my", "on")
    )
    verb = message.tokens[match.start].lemma in ("shut", "open", "cracked")
    joined = match.start and message.tokens[match.start - 1].text in (
        "and",
        "i",
        "then",
        "we",
        "but",
        "just",
        "have",
    )
    return bool(verb and joined and after < len(message.tokens) and _vents(message, after))


def _last_group(message: Message, subjects: list[int]) -> list[int]:
    """The last subject, with those joined to it by "and"."""
    group = subjects[-1:]
    for at in reversed(subjects[:-1]):
        if {token.text for token in message.tokens[at + 1 : group[0]]} <= {"and", "the", "&"}:
            group.insert(0, at)
        else:
            break
    return group


def _first_group(message: Message, subjects: list[int]) -> list[int]:
    group = subjects[:1]
    for at in subjects[1:]:
        if {token.text for token in message.tokens[group[-1] + 1 : at]} <= {"and", "the", "&"}:
            group.append(at)
        else:
            break
    return group


def _is_open_of_all(message: Message, match: Match) -> bool:
    """ "Both open", "opened every vent"."""
    said = message.tokens[match.end - 1].text
    named = [token.text.split()[0] for token in message.tokens if SUBJECTS.get(token.lemma) or SUBJECTS.get(token.text)]
    return said == "open" or said == "opened" and bool({"every", "everything", "all"} & set(named))


def _opening(message: Message, match: Match) -> Opening:
    means: Any = match.means
    quantity = message.tokens[match.quantity].quantity if match.quantity is not None else None
    if means == "open_by" and quantity:
        if quantity.kind == "inches":
            return Opening(match, inches=round(quantity.value, 3))
        return Opening(match, fraction=round(quantity.value, 2))
    if means == "closed_by" and quantity:
        return Opening(match, fraction=round(1 - quantity.value, 2))
    return Opening(match, fraction=float(means) if isinstance(means, int | float) else None)


def _set(facts: dict[str, Value | None], message: Message, opening: Opening, vents: list[str]) -> None:
    match = opening.match
    if not is_told(message, match) or (opening.inches is not None and is_a_size(message, match)):
        return
    fraction = opening.fraction
    if match.means == "moved" and len(vents) == 2 and _is_open_of_all(message, match):
        fraction = 1.0  # "both open", "everything open"
    for vent in vents:
        for name in (f"{vent}_vent", f"{vent}_vent_in"):
            facts.pop(name, None)
        if opening.inches is not None:
            facts[f"{vent}_vent_in"] = opening.inches
        else:
            facts[f"{vent}_vent"] = fraction
