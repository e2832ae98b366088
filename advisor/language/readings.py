"""Temperatures settled: corrections applied, scales chosen, the later word kept, trend and rate drawn from them."""

import itertools
from dataclasses import dataclass, replace

from advisor.facts import Value
from advisor.language.answer_figures import asks_for_minutes, bare_minutes
from advisor.language.claims import Claim
from advisor.language.corrections import corrected_claims, redirected, rescaled, spoken_scale, turned_round
from advisor.language.differences import BATHS
from advisor.language.heard import Unclear
from advisor.language.message import Message
from advisor.language.phrase_figures import is_about_meat
from advisor.language.phrases import phrase_facts
from advisor.language.replies import corrects
from advisor.language.scales import HINT_OF_F, in_fahrenheit, left_open, scale_of
from advisor.language.temperatures import temperature_claims
from advisor.language.unread import WIDEST_READING

FEWEST_FOR_TREND = 3
# What dome and meat may move between two looks: judgement.
NEAR_DOME_F = 60.0
ROUND, ROUND_WHEN_HOT, HOT = 5, 25, 300   # people aim for 235, but above 300 only for every 25
NEAR_MEAT_F, FAR_FROM_DOME_F = 15.0, 50.0
MEAT_CLIMBS_F, HOTTEST_MEAT_F = 40.0, 212.0  # how far it may be on from the reading told last, and where water boils
FARTHEST_OUT_F = 40.0  # two thermometers that differ by more are not in the same water
WIDE_SWING = 40  # degrees of either scale between the ends of one reading: a needle that goes to and fro
COOLEST_TARGET_F = 180.0  # nobody aims a fire lower: common practice, no published source
WISHES = {"target_f", "meat_target_f"}
LOWEST_LUKEWARM, HIGHEST_LUKEWARM = 40, 140   # °F, the danger zone of the food-safety authorities

BATH_REACH = 5  # words after a figure: "182 in a pan of boiling"


@dataclass(frozen=True, slots=True)
class Readings:
    """Facts from figures; unclear where one stays open; scale where the words show it."""

    facts: dict[str, Value]
    unclear: Unclear | None
    scale: str | None


def reading_facts(message: Message) -> Readings:
    claims = corrected_claims(message, temperature_claims(message))
    claims = [_answering(message, claim, claims) for claim in claims]
    claims = _of_the_meat(message, _near_done(message, claims))
    claims = [_in_the_same_bath(message, claim, claims) for claim in claims]
    claims = _beside_its_bath(message, claims)
    if asks_for_minutes(message) and bare_minutes(message) is not None:
        claims = []
    scale, shown = scale_of(claims, message.context, spoken_scale(message))
    unclear = left_open(claims, scale, _hinted(message, claims))
    if unclear:
        return Readings({}, unclear, None)
    facts = _latest(message, claims, scale)
    if corrects(message) and not claims:
        facts |= turned_round(message)
    if corrects(message):
        facts = redirected(message, claims, facts)
        facts |= rescaled(message, facts)
    return Readings(_reached_now(facts), None, scale if shown else None)


def _reached_now(facts: dict[str, Value]) -> dict[str, Value]:
    """ "The chicken reached 79, I'd like 85": what was reached is where it stands, as it has yet to go on."""
    if {"meat_target_f", "peak_meat_f"} <= facts.keys() and "meat_f" not in facts:
        return facts | {"meat_f": facts["peak_meat_f"]}
    return facts


def _near_done(message: Message, claims: list[Claim]) -> list[Claim]:
    """ "188 now, pulling at 203": a figure that nobody owns, a little below the meat's target, is the meat's."""
    done = next((claim.value for claim in claims if claim.fact == "meat_target_f"), None)
    if done is None or any(match.means == "dome_f" for match in message.lexicon.owners.find(message.tokens)):
        return claims
    return [
        replace(claim, fact="meat_f")
        if claim.fact == "dome_f" and 0.75 * done <= claim.value <= done
        else claim
        for claim in claims
    ]


def _answering(message: Message, claim: Claim, claims: list[Claim]) -> Claim:
    """A lone figure without an owner answers the question that was asked."""
    asked = message.context.asked
    if (
        len(claims) != 1
        or claim.fact != "dome_f"
        or asked
        not in ("target_f", "grate_f", "meat_f", "meat_target_f", "ambient_f", "meat_was_f", "peak_meat_f")
    ):
        return claim
    if any(match.means == "dome_f" for match in message.lexicon.owners.find(message.tokens)) or claim.before:
        return claim
    if asked in WISHES and (_is_a_report(message) or _is_no_round_wish(message, claim) or _is_no_heat_to_cook_at(message, claim)):
        return claim
    return Claim(asked, claim.value, claim.unit, claim.at, claim.said)


def _in_the_same_bath(message: Message, claim: Claim, claims: list[Claim]) -> Claim:
    """ "212 on the probe" in boiling water, "and 230 on the dome one": the second one's turn."""
    first = message.context.facts.get("boiling_reads_f")
    goes_on = message.context.recent == {"boiling_reads_f"} and message.tokens[0].text == "and"
    if not (goes_on and len(claims) == 1 and claim.fact == "dome_f" and isinstance(first, float)):
        return claim
    near = abs(in_fahrenheit(claim, None) - first) <= FARTHEST_OUT_F
    return replace(claim, fact="boiling_reads_f") if near else claim


def _beside_its_bath(message: Message, claims: list[Claim]) -> list[Claim]:
    """ "182 in boiling water, dome 255, want 250": the figure that stands before the bath is the bath's, no other is."""
    baths = [_bath_after(message, claim) for claim in claims]
    if not any(baths):
        return claims
    return [replace(claim, fact=bath or ("dome_f" if claim.fact in BATHS else claim.fact))
            for claim, bath in zip(claims, baths, strict=True)]


def _bath_after(message: Message, claim: Claim) -> str | None:
    """The bath that a figure was read in, by the few words right after it."""
    if "in" not in {token.text for token in message.tokens[claim.at + 1:claim.at + 3]}:
        return None
    return next((match.means for match in message.lexicon.owners.find(message.tokens)
                 if match.means in BATHS and claim.at < match.start <= claim.at + BATH_REACH), None)


def _is_a_report(message: Message) -> bool:
    """Whether it says how things stand ("now 255 and climbing"), which is no wish."""
    return any(token.text == "now" for token in message.tokens) or "trend" in phrase_facts(message)


def _is_no_round_wish(message: Message, claim: Claim) -> bool:
    """Nobody aims for 273, or for 380; it is the next reading of a dome that stood near it."""
    dome = message.context.facts.get("dome_f")
    if claim.value >= HOT:
        return claim.value % ROUND_WHEN_HOT != 0 and isinstance(dome, float)
    return claim.value % ROUND != 0 and isinstance(dome, float) and abs(in_fahrenheit(claim, None) - dome) < NEAR_DOME_F


def _is_no_heat_to_cook_at(message: Message, claim: Claim) -> bool:
    """ "75" in a talk in Celsius with meat at 72: no fire is run that low; it is the meat's next reading."""
    meat = message.context.facts.get("meat_f")
    scale = message.context.units.temperature if message.context.units else None
    return message.context.asked == "target_f" and isinstance(meat, float) and in_fahrenheit(claim, scale) < COOLEST_TARGET_F


def _of_the_meat(message: Message, claims: list[Claim]) -> list[Claim]:
    """A bare figure near the meat's last one and far from the dome's is the meat's."""
    meat, dome = (message.context.facts.get(name) for name in ("meat_f", "dome_f"))
    if len(claims) != 1 or claims[0].fact != "dome_f" or not (isinstance(meat, float) and isinstance(dome, float)):
        return claims
    if any(match.means == "dome_f" for match in message.lexicon.owners.find(message.tokens)):
        return claims
    scale = message.context.units.temperature if message.context.units else None
    value = in_fahrenheit(claims[0], scale)
    near = abs(value - meat) <= NEAR_MEAT_F and abs(value - dome) > FAR_FROM_DOME_F
    if "meat_f" in message.context.recent and "dome_f" not in message.context.recent:
        near = near or meat - NEAR_MEAT_F <= value <= HOTTEST_MEAT_F and abs(value - meat) < MEAT_CLIMBS_F and value < dome
    return [replace(claims[0], fact="meat_f")] if near else claims


def _hinted(message: Message, claims: list[Claim]) -> bool:
    """Whether anything besides the bare figure is said; then it is Fahrenheit as usual."""
    return any(claim.value >= HINT_OF_F for claim in claims) or any(
        token.kind == "word" and token.text not in message.lexicon.talk for token in message.tokens
    )


def _latest(message: Message, claims: list[Claim], scale: str | None) -> dict[str, Value]:
    facts: dict[str, Value] = {}
    earlier: dict[str, list[float]] = {}
    for claim in claims:
        value = in_fahrenheit(claim, scale)
        if claim.before:
            if claim.fact == "meat_f" and _fire_died(message):
                facts["meat_was_f"] = value
            earlier.setdefault(claim.fact, []).append(value)
            continue
        if claim.fact in facts:
            earlier.setdefault(claim.fact, []).append(float(facts[claim.fact]))
        facts[claim.fact] = value
    moved = any(claim.moves for claim in claims)
    trend = _trend(earlier.get("dome_f", []), facts.get("dome_f"), moved) or _from_side_to_side(message, claims)
    return facts | trend | _danger_zone(message)


def _from_side_to_side(message: Message, claims: list[Claim]) -> dict[str, Value]:
    """ "50 over, 20 under, 40 over" swings, and so does "goes 230 to 290"."""
    spans = [message.tokens[claim.at].quantity.span for claim in claims if claim.fact == "dome_f" and claim.wide]
    doubted = any(token.text == "or" or " or " in (token.quantity.said if token.quantity else "") for token in message.tokens)
    if not doubted and any(high - low >= WIDE_SWING for low, high in spans):
        return {"trend": "swinging"}
    signs = [claim.value > 0 for claim in claims if claim.fact == "over_f"]
    return {"trend": "swinging"} if len(set(signs)) > 1 else {}


def _danger_zone(message: Message) -> dict[str, Value]:
    """ "Between 40 and 140 for six hours": the time in the clause of a span too wide for a reading."""
    for at, token in enumerate(message.tokens):
        span = token.quantity.span if token.quantity else None
        if span and (span[1] > WIDEST_READING * span[0] or _is_of_lukewarm_meat(message, at)) and message.moods[at] in ("said", "was"):
            start, end = message.clause(at)
            for other in message.tokens[start:end]:
                if other.quantity and other.quantity.kind == "minutes":
                    return {"danger_zone_for_min": other.quantity.value}
    return {}


def _is_of_lukewarm_meat(message: Message, at: int) -> bool:
    """ "The core sat between 70 and 110 for 5 hours": a span inside the danger zone, of the meat, for a time."""
    low, high = message.tokens[at].quantity.span
    return LOWEST_LUKEWARM <= low and high <= HIGHEST_LUKEWARM and is_about_meat(message, at)


def _fire_died(message: Message) -> bool:
    return any(match.means == ("fire_out", True) for match in message.lexicon.phrases.find(message.tokens))


def _trend(earlier: list[float], now: Value | None, moved: bool) -> dict[str, Value]:
    """Three readings or more show a trend: swinging where they turn round, else rising or falling."""
    values = [*earlier, float(now)] if now is not None else earlier
    if len(values) == 2 and moved and values[0] != values[1]:
        return {"trend": "rising" if values[1] > values[0] else "falling"}
    steps = [b - a for a, b in itertools.pairwise(values) if b != a]
    if any(a * b < 0 for a, b in itertools.pairwise(steps)):
        return {"trend": "swinging"}
    if len(steps) >= FEWEST_FOR_TREND - 1:
        return {"trend": "rising" if steps[0] > 0 else "falling"}
    return {}
