"""What a situation knows of a cook, in the thermal model's terms. Concludes nothing; loads no numpy."""

from collections.abc import Mapping
from typing import Any

from advisor.changes import Move, in_openings
from advisor.facts import Fact
from advisor.profile import CookerProfile
from advisor.situation import Situation
from advisor.thermal.known import Known, Reading, VentMove

OLDEST_MIN = 45.0        # a dome not read for longer says nothing about now
SAME_MINUTE = 0.25       # readings closer than this are one; the newer counts
BEYOND = ("lid_open", "flames", "grease_fire", "open_fire", "fire_out", "indoors", "co_symptoms")
NOT_COOKING = ("laying", "lighting", "shutting_down")


def known_of(situation: Situation, facts: Mapping[str, Fact], profile: CookerProfile, now: float) -> Known | None:
    """The cook as the model takes it; None when it can't be forecast (no target, no reading, lid up, fire out)."""
    told = {name: fact.value for name, fact in facts.items()}
    readings = _readings(situation, told, now)
    if "target_f" not in told or not readings or readings[-1].at_min < -OLDEST_MIN:
        return None
    if any(told.get(name) is True for name in BEYOND) or told.get("stage") in NOT_COOKING:
        return None
    made = tuple(in_openings(move, 1.0 / profile.bottom_travel_in, 1.0 / profile.top_travel_in) for move in situation.moves)
    moves = tuple(VentMove(move.at_min - now, move.bottom, move.top, move.lid) for move in made)
    return Known(
        target_f=float(told["target_f"]), readings=readings, moves=moves,
        bottom=_before(made, "bottom", told.get("bottom_vent")),
        top=_before(made, "top", told.get("top_vent")),
        lit_ago_min=told.get("lit_ago_min"), soaked=_soaked(told), fuel_share=told.get("fuel_level"),
        ash_heavy={"heavy": True, "light": False}.get(told.get("ash")), gasket_leaks=told.get("gasket_leaks"),
        windy=told.get("windy"), ambient_f=told.get("ambient_f"), deflector_in=told.get("deflector_in"),
        food_kg=_food(told), food_on=told.get("food_on"), core_f=told.get("meat_f"), kind=profile.kind,
    )


def _readings(situation: Situation, told: Mapping[str, Any], now: float) -> tuple[Reading, ...]:
    """Readings in minutes from now; a dome that follows from a distance counts as read now."""
    kept: list[Reading] = []
    for minute, dome in situation.readings:
        if kept and minute - now - kept[-1].at_min < SAME_MINUTE:
            kept.pop()
        kept.append(Reading(minute - now, dome))
    dome = told.get("dome_f")
    if dome is not None and (not kept or "dome_f" not in situation.facts):
        over = situation.facts.get("over_f")
        kept.append(Reading(over.at_min - now if over else 0.0, float(dome)))
    return tuple(kept)


def _before(moves: tuple[Move, ...], vent: str, stands: Any) -> float | None:
    """Where a vent stood before the first move of it; where it stands when it never moved; None when unknown."""
    for move in moves:
        stands_now, stood = (move.bottom, move.bottom_was) if vent == "bottom" else (move.top, move.top_was)
        if stands_now is not None:
            return stood
    return None if stands is None else float(stands)


def _soaked(told: Mapping[str, Any]) -> bool | None:
    """Whether the ceramic is hot through: as told, or as the rules concluded."""
    if isinstance(told.get("heat_soaked"), bool):
        return told["heat_soaked"]
    return {"hot": True, "cold": False, "warming": False}.get(told.get("walls"))


def _food(told: Mapping[str, Any]) -> float | None:
    return told.get("food_kg") if told.get("food_on") is not False else 0.0
