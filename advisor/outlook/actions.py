"""A plan's steps as deeds of the thermal model: what is done to the air, after which waits, due at which dome."""

from collections.abc import Iterable

from advisor.reply import StepSaid
from advisor.thermal.known import Deed

BEYOND = {"add_fuel", "light", "stir_fuel", "clear_ash", "open_lid_slowly", "take_food_off", "put_food_on", "shut_down",
          "move_outdoors", "remove_wood", "add_wood", "mend"}


def deeds_of(steps: Iterable[StepSaid], target_f: float) -> list[Deed] | None:
    """The deeds in order; None when a step does what the model does not play."""
    deeds: list[Deed] = []
    wait = 0.0
    for step in steps:
        if step.act in BEYOND:
            return None
        if step.act in ("set_vent", "burp_lid"):
            deeds += _deeds(step, wait, target_f)
            wait = 0.0
        wait += step.wait_min or 0.0
    if wait:
        deeds.append(Deed(wait))
    return deeds


def _deeds(step: StepSaid, wait: float, target_f: float) -> list[Deed]:
    """One step: a vent moved, or burps with their waits in between."""
    low, high = _due(step, target_f)
    if step.act == "burp_lid":
        again = step.wait_min or 0.0
        times = range(int(step.parameters["times"]))
        return [Deed(again if n else wait, burp=True, at_most_f=high, at_least_f=low, or_never=True) for n in times]
    opening = {step.parameters["vent"]: float(step.parameters["opening"])}
    return [Deed(wait, at_most_f=high, at_least_f=low, **opening)]


def _due(step: StepSaid, target_f: float) -> tuple[float | None, float | None]:
    """(at least, at most) of the dome at which a step is due, a distance counted from the target."""
    when = step.when or {}
    bounds = when.get("dome_f") or {test: bound + target_f for test, bound in when.get("over_f", {}).items()}
    return bounds.get("at_least"), bounds.get("at_most")
