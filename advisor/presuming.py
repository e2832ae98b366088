"""Steps nobody reported done: when the dome is read again as asked, they are taken for done when they were told. Pure."""

from collections.abc import Iterable, Mapping

from advisor.changes import VENTS
from advisor.cook import Cook
from advisor.facts import Value
from advisor.reply import StepSaid

CLIMBED_F = 50.0   # no shut-in fire gains that much in the wait that was told: judgement
IN_TIME = 0.75   # of the wait told: a dome read sooner may come from somebody who has not begun yet; judgement
READINGS = {"dome_f", "over_f"}
OF_THE_FIRE = {"set_vent", "burp_lid", "clear_ash", "stir_fuel", "add_fuel", "light"}  # what a reading after it speaks of
OWN_WORDS = {*VENTS, "vents_moved_ago_min", "choked", "lid_open"}   # who tells these says himself what was done


def presumed_done(cook: Cook, told: Mapping[str, Value], now: float) -> tuple[int, ...]:
    """Numbers of the steps in hand that a fresh dome reading shows to be done, as nobody says otherwise.

    Somebody told to move a vent, wait ten minutes and read the dome, who then reads it, has moved the vent. Without this
    a fire that was choked and not reported would never be given air again.
    """
    waiting = cook.waiting
    if waiting is None or waiting.hands_off or not READINGS & set(told) or OWN_WORDS & set(told):
        return ()
    too_soon = now - waiting.since_min < IN_TIME * (waiting.until_min - waiting.since_min)
    if too_soon and not cook.situation.is_half_set:  # who has set one vent has set the other by the time the dome is read
        return ()
    in_hand = set(cook.steps_in_hand())
    due = [step for step in cook.steps if step.n in in_hand and not step.when]
    if _gainsays(cook, due, told):
        return ()
    return tuple(step.n for step in due) if OF_THE_FIRE & {step.act for step in due} else ()


def _gainsays(cook: Cook, due: Iterable[StepSaid], told: Mapping[str, Value]) -> bool:
    """Whether the dome climbs on as it would not had both vents been shut."""
    shut = [step for step in due if step.act == "set_vent" and step.parameters["opening"] == 0]
    before = cook.situation.facts.get("dome_f")
    climbed = bool(before and "dome_f" in told and float(told["dome_f"]) - float(before.value) >= CLIMBED_F)
    return bool(shut) and (climbed or told.get("trend") == "rising")
