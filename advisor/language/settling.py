"""Facts of one message made to agree with each other and with what stood before."""

from advisor.facts import Value
from advisor.language.follow_ups import follow_ups
from advisor.language.message import Message

OF_THE_COOKER = {
    "dome",
    "pit",
    "temp",
    "temperature",
    "fire",
    "cooker",
    "grate",
    "coals",
    "thermometer",
    "gauge",
    "target",
}
CLOSER_TIMES = (
    "serve_in_min",
    "danger_zone_for_min",
    "out_of_fridge_min",
    "cooling_for_min",
    "smoke_for_min",
)
BURNS_F = 150.0  # a dome as warm as that has a fire under it: judgement
HOW = {"in", "with", "using", "on", "from"}
STUCK_PARTS = ("bottom_stuck", "top_stuck", "lid_stuck")
STAYS_OPEN = {"still", "left", "open", "ajar", "propped"}
NEAR_TARGET_F = 15.0  # common practice, no published source: off by 10-15 °F is near enough
SHUT_BOTH = {"bottom_vent": 0.0, "top_vent": 0.0}
OPENINGS = ("bottom_vent", "top_vent", "bottom_vent_in", "top_vent_in")


def settle(message: Message, facts: dict[str, Value]) -> dict[str, Value]:
    """`facts` with words that end an earlier fact applied, and what contradicts them taken out."""
    facts = _end_of_the_blaze(message, facts)
    facts = _the_blaze_goes_on(message, facts)
    facts = _pronoun_of_the_question(message, facts)
    facts = _lid_shut_again(message, facts)
    if facts.get("stage") == "lighting" and _tells_how_it_was_lit(message):
        facts = {name: value for name, value in facts.items() if name != "stage"}
    if any(facts.get(part) is True for part in STUCK_PARTS) and "dome_f" not in facts:
        facts = {name: value for name, value in facts.items() if name != "trend"}
    facts = _held_by_one(message, facts)
    facts = _not_over_yet(message, facts)
    facts = _stem_in_food(facts)
    facts = facts | {
        fact: value for fact, value in follow_ups(message, facts).items() if fact not in facts or value is False
    }
    facts = _rate_of_the_meat(facts)
    facts = _trend_of_the_meat(message, facts)
    if facts.get("food_on_for_min") in [facts[name] for name in CLOSER_TIMES if name in facts]:
        facts = {name: value for name, value in facts.items() if name != "food_on_for_min"}
    rate = facts.get("rate_f_per_min")
    if isinstance(rate, float) and rate and facts.get("trend", "steady") == "steady":
        facts = facts | {"trend": "rising" if rate > 0 else "falling"}
    if _stood_elsewhere(facts):
        facts = {name: value for name, value in facts.items() if name != "at_target_for_min"}
    if "food_on_for_min" in facts:
        facts = {"food_on": True} | facts
    if facts.get("food_on") is False:
        facts = {name: value for name, value in facts.items() if name != "food_on_for_min"}
    if message.context.facts.get("choked") is True and "choked" not in facts and _gives_air(message, facts):
        facts = facts | {"choked": False}
    return facts


def _stood_elsewhere(facts: dict[str, Value]) -> bool:
    """ "Flat at 230 for 40 minutes, going for 275": a time held, but not near the target."""
    dome, target = facts.get("dome_f"), facts.get("target_f")
    return isinstance(dome, float) and isinstance(target, float) and abs(dome - target) > NEAR_TARGET_F


def _lid_shut_again(message: Message, facts: dict[str, Value]) -> dict[str, Value]:
    """ "Opened the lid 3 minutes ago", "I keep opening the lid": a lid that was opened is not open for that."""
    told = facts.get("lid_opened_ago_min", 0.0) or facts.get("lid_opens_often") is True
    if facts.get("lid_open") is True and _is_shut_at_last(message):
        return facts | {"lid_open": False}
    if facts.get("lid_open") is True and message.lexicon.lid_shut_again.find(message.tokens):
        return {name: value for name, value in facts.items() if name != "lid_open"}
    if facts.get("lid_open") is not True or not told:
        return facts
    if any(token.text in STAYS_OPEN for token in message.tokens):
        return facts
    return {name: value for name, value in facts.items() if name != "lid_open"}


def _tells_how_it_was_lit(message: Message) -> bool:
    """ "Lit it in 3 places", said of a fire that has been read already: how, and not when."""
    words, known = {token.text for token in message.tokens}, message.context.facts
    burns = float(known.get("dome_f", 0.0)) >= BURNS_F and known.get("fire_out") is not True
    return burns and "lit" in words and bool(HOW & words) and not {"just", "now", "again"} & words


def _is_shut_at_last(message: Message) -> bool:
    """ "Left the lid up. Shut it and it is 460 now": a later clause shuts it, and names no vent."""
    lid = next((at for at, token in enumerate(message.tokens) if token.lemma == "lid"), len(message.tokens))
    shut = [match for match in message.lexicon.follow_ups.find(message.tokens)
            if match.means == ("lid_open", "lid_open", False) and match.start > lid]
    return any(message.moods[match.start] == "said" for match in shut)


def _rate_of_the_meat(facts: dict[str, Value]) -> dict[str, Value]:
    """A rate beside the meat's figure alone ("181 inside, gaining one every ten minutes") is not the dome's."""
    rate = facts.get("rate_f_per_min")
    if not isinstance(rate, float) or not {"meat_f", "meat_trend"} & facts.keys() or "dome_f" in facts:
        return facts
    rest = {name: value for name, value in facts.items() if name not in ("rate_f_per_min", "trend")}
    return rest | ({"meat_trend": "rising" if rate > 0 else "falling"} if rate else {})


def _trend_of_the_meat(message: Message, facts: dict[str, Value]) -> dict[str, Value]:
    """ "Pork 150, stalled": where nothing of the cooker is named, the trend is the meat's."""
    if "meat_f" not in facts or "dome_f" in facts or facts.get("trend") in (None, "swinging"):
        return facts
    if _names_the_cooker(message):
        return facts
    rest = {name: value for name, value in facts.items() if name != "trend"}
    return {"meat_trend": facts["trend"]} | rest


def _names_the_cooker(message: Message) -> bool:
    return any(token.lemma in OF_THE_COOKER for token in message.tokens)


def _not_over_yet(message: Message, facts: dict[str, Value]) -> dict[str, Value]:
    """ "Shut it all down 40 minutes ago, it was too hot, want 250": who names what is wanted shut the vents and is not done;
    who is shutting it down is."""
    if any(token.text == "shutting" for token in message.tokens):
        return facts
    shut = all(facts.get(vent) == opening for vent, opening in SHUT_BOTH.items())
    if facts.get("stage") == "shutting_down" and shut and "target_f" in facts:
        return {name: value for name, value in facts.items() if name != "stage"}
    return facts


def _held_by_one(message: Message, facts: dict[str, Value]) -> dict[str, Value]:
    """A time held belongs to the meat where its figure is the meat's, else to the dome."""
    meat = "meat_f" in facts or ("dome_f" not in facts and "meat_f" in message.context.facts)
    other = "at_target_for_min" if meat else "meat_held_for_min"
    if other in facts and "meat_f" in facts and "dome_f" not in facts and not _names_the_cooker(message):
        return {name: value for name, value in facts.items() if name != "at_target_for_min"}
    if not {"at_target_for_min", "meat_held_for_min"} <= facts.keys():
        return facts
    return {name: value for name, value in facts.items() if name != other}


def _stem_in_food(facts: dict[str, Value]) -> dict[str, Value]:
    """A dome thermometer whose stem touches the food is still the dome's."""
    if facts.get("stem_in_food") is not True or "meat_f" not in facts or "dome_f" in facts:
        return facts
    return {("dome_f" if name == "meat_f" else name): value for name, value in facts.items()}


def _end_of_the_blaze(message: Message, facts: dict[str, Value]) -> dict[str, Value]:
    """ "The fire is out" after burning fat, flames or clothes means those, not the charcoal."""
    if facts.get("clothes_burn") is True and facts.get("fire_out") is True and not _names_the_fire(message):
        facts = {name: value for name, value in facts.items() if name != "fire_out"} | {"clothes_burn": False}
    if facts.get("fire_out") is True and message.context.facts.get("fire_spreads") is True:
        return {name: value for name, value in facts.items() if name != "fire_out"} | {"fire_spreads": False}
    burning = [name for name in ("grease_fire", "flames") if message.context.facts.get(name) is True]
    if facts.get("grease_fire") is False and "flames" in burning and "flames" not in facts:
        facts = facts | {"flames": False}  # "the grease fire is out": its flames too
    if facts.get("fire_out") is not True or not burning:
        return facts
    ended = dict.fromkeys(burning, False)
    return {name: value for name, value in facts.items() if name != "fire_out"} | ended


def _the_blaze_goes_on(message: Message, facts: dict[str, Value]) -> dict[str, Value]:
    """ "Still burning" after burning fat or flames speaks of those too."""
    burning = [name for name in ("grease_fire", "flames") if message.context.facts.get(name) is True]
    goes_on = facts.get("fire_out") is False or facts.get("fire_grows") is True
    return {**dict.fromkeys(burning, True), **facts} if goes_on else facts


def _pronoun_of_the_question(message: Message, facts: dict[str, Value]) -> dict[str, Value]:
    """ "No, it's out" to a question about a part speaks of that part, not of the fire."""
    asked = message.context.asked
    if asked in (None, "fire_out") or "fire_out" not in facts or asked not in facts:
        return facts
    if _names_the_fire(message):
        return facts
    return {name: value for name, value in facts.items() if name != "fire_out"}


def _names_the_fire(message: Message) -> bool:
    return any(
        token.lemma in ("lump", "ember", "coals", "embers")
        or (token.lemma == "fire" and message.words(at - 1, at) not in ("caught", "on", "catch"))
        for at, token in enumerate(message.tokens)
    )


def _gives_air(message: Message, facts: dict[str, Value]) -> bool:
    """Whether a vent was opened: by some amount told, or "opened the vents"."""
    if any(isinstance(facts.get(name), float) and facts[name] > 0 for name in OPENINGS):
        return True
    return any(
        token.text in ("opened", "reopened")
        and message.moods[at] == "said"
        and {other.lemma for other in message.tokens[at + 1 : at + 4]} & {"vent", "both", "top", "bottom"}
        for at, token in enumerate(message.tokens)
    )
