"""Corrections: "no, I meant 250", "250 not 350", "sorry, celsius", "180, sorry, 160"."""

import itertools

from advisor.facts import Value
from advisor.language.claims import Claim
from advisor.language.message import Message
from advisor.language.tokens import Token
from advisor.language.unit_words import CELSIUS, FAHRENHEIT
from advisor.units import c_to_f, f_to_c

CORRECTABLE = ("dome_f", "target_f", "grate_f", "meat_f", "meat_target_f", "over_f")
NEAR_F = 1.5
ABOVE, BELOW = {"over", "above", "high", "hot"}, {"under", "below", "low", "cold"}


def corrected_claims(message: Message, claims: list[Claim]) -> list[Claim]:
    """Claims after "180, sorry, 160" (the later stands) and "250 not 350" (the denied one goes)."""
    kept: list[Claim] = []
    for claim in claims:
        if _follows(message, claim.at, ("not",)) and not _follows(message, claim.at - 1, ("but",)):
            continue
        if kept and _is_retracted(message, kept[-1], claim):
            earlier = kept.pop()
            claim = Claim(
                earlier.fact if claim.fact == "dome_f" else claim.fact,
                claim.value,
                claim.unit,
                claim.at,
                claim.said,
                claim.is_difference,
                claim.before,
            )
        kept.append(claim)
    return kept


def _follows(message: Message, at: int, words: tuple[str, ...]) -> bool:
    return at > 0 and message.tokens[at - 1].text in words


def _is_retracted(message: Message, earlier: Claim, later: Claim) -> bool:
    between = message.tokens[earlier.at + 1 : later.at]
    return (
        len(between) <= 6
        and not {"meant to", "meant for", "rather than"} & set(_pairs(between))
        and any(
            token.text
            in ("sorry", "meant", "mean", "oops", "rather", "correction", "typo", "scratch", "wait")
            for token in between
        )
        and (later.fact in (earlier.fact, "dome_f") or later.fact == "target_f" and not _is_named(message, later))
    )


def _is_named(message: Message, claim: Claim) -> bool:
    """Whether the clause itself says that the figure is the target."""
    start, end = message.clause(claim.at)
    return any(token.text in ("target", "goal", "aim", "want") for token in message.tokens[start:end])


def _pairs(tokens: list[Token]) -> list[str]:
    return [f"{token.text} {after.text}" for token, after in itertools.pairwise(tokens)]


def redirected(message: Message, claims: list[Claim], facts: dict[str, Value]) -> dict[str, Value]:
    """A bare "I meant 250" given to the fact that it corrects: the denied value's, the asked one's, the nearest."""
    bare = [claim for claim in claims if claim.fact == "dome_f" and "dome_f" in facts]
    known = {
        name: value
        for name, value in message.context.facts.items()
        if name in CORRECTABLE and isinstance(value, float)
    }
    if not bare or not known or len(claims) != 1 or _names_an_owner(message):
        return facts
    value = facts["dome_f"]
    same = [name for name, old in known.items() if bare[0].unit and abs(old - bare[0].value) < NEAR_F]
    fact = same[0] if same else _denied_fact(message, known) or _just_told(message, known) or _nearest_slip(value, known)
    if not fact or fact == "dome_f":
        return facts
    return {name: old for name, old in facts.items() if name != "dome_f"} | {fact: value}


def _just_told(message: Message, known: dict[str, float]) -> str | None:
    """The one temperature of the last telling: "no, sorry, 200" puts that right."""
    recent = [name for name in known if name in message.context.recent]
    return recent[0] if len(recent) == 1 else None


def _names_an_owner(message: Message) -> bool:
    return any(match.means in CORRECTABLE for match in message.lexicon.owners.find(message.tokens))


def _denied_fact(message: Message, known: dict[str, float]) -> str | None:
    for at, token in enumerate(message.tokens):
        if (
            token.quantity
            and token.quantity.kind in ("number", "degrees")
            and _follows(message, at, ("not", "than"))
        ):
            return next(
                (
                    name
                    for name, old in known.items()
                    if min(abs(old - token.quantity.value), abs(old - c_to_f(token.quantity.value))) < NEAR_F
                ),
                None,
            )
    return None


def _nearest_slip(value: Value, known: dict[str, float]) -> str:
    """The fact whose figure differs in the fewest digits, then by the least."""

    def distance(name: str) -> tuple[int, float]:
        old, new = f"{known[name]:.0f}", f"{value:.0f}"
        digits = sum(a != b for a, b in zip(old, new, strict=False)) + abs(len(old) - len(new))
        return digits, abs(known[name] - float(value))

    return min(known, key=distance)


def rescaled(message: Message, facts: dict[str, Value]) -> dict[str, Value]:
    """Earlier readings read again after "sorry, celsius"; figures of this message are left alone."""
    scale = spoken_scale(message)
    before = message.context.units.temperature if message.context.units else "F"
    if not scale or scale == before:
        return {}
    turn = c_to_f if scale == "C" else f_to_c
    turned = {
        name: float(round(turn(value)))
        for name, value in message.context.facts.items()
        if name in CORRECTABLE and name != "over_f" and isinstance(value, float) and name not in facts
    }
    return {name: value for name, value in turned.items() if _is_believable(message, name, value)}


def turned_round(message: Message) -> dict[str, Value]:
    """ "Wait, no, it's under" after "100 over": the same distance on the other side."""
    over, words = message.context.facts.get("over_f"), {token.text for token in message.tokens}
    if "over_f" not in message.context.recent or not isinstance(over, float):
        return {}
    side = bool(words & ABOVE) - bool(words & BELOW)
    return {"over_f": side * abs(over)} if side * over < 0 else {}


def _is_believable(message: Message, name: str, value: float) -> bool:
    low, high = message.lexicon.vocabulary[name].bounds
    return low <= value <= high


def spoken_scale(message: Message) -> str | None:
    """The scale named on its own, as in "sorry, celsius not fahrenheit"; the first one not denied."""
    for at, token in enumerate(message.tokens):
        if (
            token.text in CELSIUS | FAHRENHEIT
            and len(token.text) > 1
            and not _follows(message, at, ("not", "than"))
        ):
            return "C" if token.text in CELSIUS else "F"
    return None
