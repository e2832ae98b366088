"""Flags, choices, shares and times that stand in the words as phrases, with the reach of "no" and "not"."""

from dataclasses import dataclass

from advisor.facts import Value
from advisor.language.message import Message
from advisor.language.moods import denied
from advisor.language.patterns import Match, longest_first
from advisor.language.phrase_figures import figure_in, is_about_meat, is_of_another, is_of_the_lid
from advisor.language.tokens import Token

HEARD_AS = {"said", "maybe"}
DOUBTED = {"maybe", "ask", "unsure", "later", "was", "plan"}  # moods in which an alarm is still heard
STILL_TRUE_OF_THE_PAST = {
    "fire_out",
    "choked",
    "lid_was_open",
    "air_blocked",
    "wood_state",
    "lighter_fluid",
    "charcoal_state",
    "lit_spots",
    "fire_died_ago_min",
    "burnt_skin",
    "leftover",
    "intact",
}
COVERS = {
    "clothes_burn": {"flames", "fire_spreads"},
    "stand_unsafe": {"trend"},
    "coals_loose": {"indoors", "trend", "fire_out", "wood_state"},
    "gas_near": {"trend"},
    "gas_fire": {"flames", "smell"},
    "raw_touched": {"trend"},
    "fire_spreads": {"burn_pattern", "indoors", "trend"},
    "tastes_bitter": {"smell"},
    "indoors": {"fire_out"},
    "raining": {"trend"},
    "smoke_blows_down": {"trend"},
    "windy": {"trend"},
    "lit_ago_min": {"food_on_for_min", "flames"},
    "burn_pattern": {"fire_out"},
    "fuel_level": {"stage"},
    "near_combustible": {"charcoal_state"},
    "gauge_suspect": {"fire_out"},
    "smoke": {"fire_out"},
    "ash": {"choked"},
    "smell": {"choked", "grease_fire", "flames", "lighter_fluid", "wood_state"},
    "grease_fire": {"fire_out", "trend", "smoke_blows_down"},
    "trend": {"fire_out", "smoke_blows_down", "gauge_suspect"},
    "gasket_leaks": {"smoke_amount"},
    "fire_out": {"lit_spots", "trend", "unattended", "choked"},
    "flames": {"trend"},
    "out_of_fridge_min": {"fire_died_ago_min", "fire_out"},
    "cooling_for_min": {"trend"},
    "at_target_for_min": {"food_on_for_min", "lit_ago_min"},
    "lid_opens_often": {"vents_moved_every_min"},
    "wood_share": {"fuel_level"},
    "food_thrown": {"stage"},
    "charcoal_state": {"raining"},
    "food_on_for_min": {"lit_ago_min", "stage"},
    "wood_added_ago_min": {"wood_amount", "food_on_for_min", "at_target_for_min", "food_on"},
    "danger_zone_for_min": {"food_on_for_min"},
    "wants_more_smoke": {"smoke", "smoke_amount"},
}
COVERS_SHORTER = {"smell": {"tastes_bitter"}}  # "bitter smell" is no taste, but "tastes of fluid" is one
COVERED = set().union(*COVERS.values())
LEFT_FROM_LAST_TIME = {"leftover", "charcoal_state", "wood_state", "ash", "ceramic_cracked", "dirty_inside"}
AUXILIARIES = {"be", "have", "do", "does", "did", "will"}
ASKED = {"ask", "plan", "later", "was"}
OF_THE_FIRE = {"fire_out", "fire_died_ago_min"}
FIRE = {"fire", "lump", "coals", "embers", "ember"}
JOINS = {"before", "when", "after", "since", "as", "and", "then", "once"}
PRONOUNS = {"it", "she", "he"}
LEAST_READING = 30  # a smaller figure is a count
HEARD_LATER = {"serve_in_min", "unattended", "cook_style"}
HEARD_IN_QUESTIONS = {"food_kg", "charcoal_kg", "altitude_ft", "fluid_meant", "water_meant"}


@dataclass(frozen=True, slots=True)
class Said:
    """A phrase found: the fact, its value, the token where it begins, and how many tokens it has."""

    fact: str
    value: Value
    at: int
    size: int = 1


def phrase_facts(message: Message) -> dict[str, Value]:
    """Facts that phrases state; of two words on one fact the later wins."""
    heard: dict[str, Value] = {}
    for said in sorted(phrases_in(message), key=lambda found: found.at):
        heard[said.fact] = said.value
    return heard


def phrases_in(message: Message) -> list[Said]:
    """All phrases said, of overlapping ones on the same fact the longest."""
    by_fact: dict[str, list[Match]] = {}
    for match in message.lexicon.phrases.find(message.tokens):
        by_fact.setdefault(match.means[0], []).append(match)
    covers = [match for fact in COVERS for match in by_fact.get(fact, ())]
    longer = [match for fact in COVERS_SHORTER for match in by_fact.get(fact, ())]
    found = [_said(message, match) for matches in by_fact.values() for match in longest_first(matches)]
    found += _denied_inside(message, set(by_fact))
    return [said for said in found if said and not _is_covered(said, covers) and not _is_inside(said, longer)]


def _denied_inside(message: Message, heard: set[str]) -> list[Said | None]:
    """ "The lid is not open": flags whose phrase would stand there but for the "not" in its middle."""
    tokens = message.tokens
    for at in range(1, len(tokens)):
        if tokens[at].text != "not" or tokens[at - 1].lemma not in AUXILIARIES or message.moods[at] != "said":
            continue
        without = Message(
            tokens[:at] + tokens[at + 1 :],
            message.moods[:at] + message.moods[at + 1 :],
            message.lexicon,
            message.context,
        )
        flags = [
            match
            for match in message.lexicon.phrases.find(without.tokens)
            if match.start < at < match.end
            and isinstance(match.means[1], bool)
            and match.means[0] not in heard
        ]
        return [
            Said(said.fact, not said.value, said.at)
            for match in longest_first(flags)
            if (said := _said(without, match))
        ]
    return []


def _is_covered(said: Said, covers: list[Match]) -> bool:
    """Whether the word is part of a longer phrase about something else, as in "smells of burning fat"."""
    return said.fact in COVERED and any(
        said.fact in COVERS[match.means[0]]
        and match.start <= said.at < match.end
        and not (said.at <= match.start and match.end <= said.at + said.size and len(match) < said.size)
        and (len(match) >= said.size or match.means[0] not in COVERED)
        for match in covers
    )


def _is_inside(said: Said, longer: list[Match]) -> bool:
    return any(
        said.fact in COVERS_SHORTER[match.means[0]] and match.start <= said.at < match.end and len(match) > said.size for match in longer
    )


def _said(message: Message, match: Match) -> Said | None:
    fact, value = match.means
    definition = message.lexicon.vocabulary[fact]
    if not _is_meant(message, match, fact, definition.type == "flag", value) or _is_ruled_out(
        message, match, fact
    ):
        return None
    if _lacks_companion(message, match, fact):
        return None
    is_denied = _is_denied(message, match)
    if definition.type == "flag":
        return Said(fact, bool(value) != is_denied, match.start, len(match))
    if is_denied:
        return None
    if value is None:
        figure = figure_in(message, match, fact)
        return None if figure is None else Said(fact, figure, match.start, len(match))
    if fact == "trend" and is_about_meat(message, match.start):
        return Said("meat_trend", str(value), match.start, len(match)) if value != "swinging" else None
    return Said(fact, float(value) if definition.is_number else str(value), match.start, len(match))


def _is_meant(message: Message, match: Match, fact: str, is_flag: bool, value: Value | None) -> bool:
    lexicon = message.lexicon
    moods = {message.moods[at] for at in range(match.start, match.end)}
    if fact in lexicon.alarms and value is True and not _is_denied(message, match):
        unheard = moods - HEARD_AS - DOUBTED
        return not unheard or (fact in lexicon.alarms_of_anybody and unheard == {"elsewhere"})
    if is_flag and "maybe" in moods:
        return False
    if fact in LEFT_FROM_LAST_TIME:
        moods.discard("bygone")
    allowed = (
        HEARD_AS
        | (ASKED if fact in HEARD_IN_QUESTIONS else set())
        | ({"was"} if fact in STILL_TRUE_OF_THE_PAST or value is None else set())
    )
    if fact in HEARD_LATER or value == "laying":
        moods.discard("later")  # "want to be eating by 7", "about to light it"
    return moods <= allowed


def _is_ruled_out(message: Message, match: Match, fact: str) -> bool:
    """Words that give the phrase another sense: feeling sick after eating is no gas from the fire."""
    data = message.lexicon.data
    start, _ = message.clause(match.start)
    before = [token.lemma for token in message.tokens[max(start, match.start - 2) : match.start]]
    is_of_a_part = set(before[-1:]) & set(data["ruled_out_right_before"].get(fact, ()))
    if is_of_a_part or (
        before[-1:] == ["be"] and set(before[:1]) & set(data["ruled_out_just_before"].get(fact, ()))
    ):
        return True
    if message.tokens[match.end - 1].lemma == "move" and _moves_a_part(message, match, fact):
        return True
    if _acts_on_something(message, match) or (fact == "vents_moved_ago_min" and is_of_the_lid(message, match)):
        return True
    if fact == "lit_spots" and any(_is_food_or_figure(token) for token in message.tokens[start : match.start]):
        return True  # "chicken thighs read 175 in the middle"
    if fact in OF_THE_FIRE and _speaks_of_another(message, match, start):
        return True
    return any(token.text in data["ruled_out_by"].get(fact, ()) for token in message.tokens) or any(
        token.text in data["ruled_out_in_clause"].get(fact, ())
        for token in message.tokens[start : match.start]
    )


def _is_food_or_figure(token: Token) -> bool:
    figure = token.quantity
    return token.lemma == "food" or bool(figure and figure.kind in ("number", "degrees") and figure.value >= LEAST_READING)


def _acts_on_something(message: Message, match: Match) -> bool:
    """ "Stuck the probe in": a deed, where "stuck at 200" is a state."""
    verb = message.tokens[match.end - 1].text
    objects = message.lexicon.data["deeds_with"].get(verb, ())
    behind = message.tokens[match.end : match.end + 2]
    timed = len(behind) == 2 and bool(behind[1].quantity)  # "fell in ten minutes"
    return len(match) == 1 and not timed and any(token.text in objects for token in behind[:1])


def _moves_a_part(message: Message, match: Match, fact: str) -> bool:
    """ "Not moved the vents": said of a part, not of the needle."""
    at = match.end + (message.words(match.end, match.end + 1) in ("the", "my", "either", "any"))
    parts = message.lexicon.data["ruled_out_right_after"].get(fact, ())
    return any(token.lemma in parts for token in message.tokens[at : at + 1])


def _speaks_of_another(message: Message, match: Match, start: int) -> bool:
    """ "The pork's been out two hours", "the gasket is burnt out": said of something else than the fire."""
    ahead = message.tokens[max(start, match.start - 1) : match.start]
    if ahead and ahead[0].text in JOINS and message.tokens[match.start].text in PRONOUNS:
        return False  # "the pork was at 160 before it died"
    named = {token.lemma for token in message.tokens[match.start : match.end]}
    return not named & FIRE and is_of_another(message, start, match.start)


def _lacks_companion(message: Message, match: Match, fact: str) -> bool:
    """A bare colour needs smoke in the message, or nothing but plain talk round it."""
    companions = message.lexicon.data["companions"].get(fact)
    if companions and message.words(match.end, match.end + 1) in message.lexicon.data["cookers"]["kinds"]:
        return True  # "the brown one is at 300" is the colour of a cooker
    if not companions or len(match) > 1 or message.context.asked == fact or _is_talk_besides(message, match):
        return False
    if message.tokens[match.start].text not in companions["single"]:
        return False
    return not any(
        at != match.start and {token.text, token.lemma} & set(companions["near"])
        for at, token in enumerate(message.tokens)
    )


def _is_talk_besides(message: Message, match: Match) -> bool:
    """Whether nothing but plain talk stands round the word ("its white now"); in its clause, where the fact stands."""
    known = any(name.startswith(match.means[0].split("_")[0]) for name in message.context.facts)
    start, end = message.clause(match.start) if known else (0, len(message.tokens))
    rest = message.tokens[start : match.start] + message.tokens[match.end : end]
    return all(token.kind != "word" or token.text in message.lexicon.talk for token in rest)


def _is_denied(message: Message, match: Match) -> bool:
    """Whether "not" reaches the phrase; one that is itself a denial stays one."""
    if message.tokens[match.start].text in message.lexicon.negators:
        return False  # "not no smoke" says no more than "no smoke"
    return denied(message.tokens, match.start, message.lexicon)
