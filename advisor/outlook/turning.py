"""When a choked fire gets its air back, after how many burps, and when vents that stand wide are closed again.

The pace of the readings tells it for a dome that goes on as it does; the thermal model tells it for a fire that shrinks,
walls that hold heat and vents that answer late. Both are heard, within what the trade allows, and the model never makes a turn
later than the pace does: a fire that is out costs an hour.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import product
from typing import TYPE_CHECKING

from advisor.book import number
from advisor.facts import Fact
from advisor.looks import CLOSE_F, REOPEN_F, close_ahead, in_fives, look_before, reopen_ahead
from advisor.placing import stand

if TYPE_CHECKING:
    from advisor.thermal.choose import Tried, Turn
    from advisor.thermal.ensemble import Ensemble

MODEL = 0.5             # how much the model is heard, beside the pace: judgement, as for openings
# °F from the target, within REOPEN_F and CLOSE_F, and the opening of wide vents: judgement
REOPEN_TRIED_F = (10.0, 20.0, 32.0, 45.0)
CLOSE_TRIED_F = (15.0, 30.0, 50.0, 70.0)
WIDE = 1.0


def reopening(ensemble: "Ensemble", facts: Mapping[str, Fact], openings: Mapping[str, float]) -> dict[str, float]:
    """Facts of a choke: reopen_over_f, until_reopen_f, reopen_in_min; more_burps: 1 when a second burp is worth its lid."""
    from advisor.thermal.choose import Setting, Turn

    over, stands = number(facts, "over_f"), stand(facts)
    if over is None or stands is None:
        return {}
    burps = (0, 2) if number(facts, "more_burps") else (0,)
    then = Setting(stands.airway.inch, openings["settle_top"])
    plans = [Turn(Setting(0.0, 0.0), lead, then, burps) for lead, burps in product(REOPEN_TRIED_F, burps)]
    best = _best(ensemble, plans)
    lead = _heard(best.plan.lead_f, reopen_ahead(number(facts, "rate_f_per_min")), REOPEN_F)
    return {"reopen_over_f": lead, "until_reopen_f": over - lead, "more_burps": float(best.plan.burps > 1),
            **_when("reopen_in_min", best, over - lead)}


def closing(ensemble: "Ensemble", facts: Mapping[str, Fact], openings: Mapping[str, float]) -> dict[str, float]:
    """Facts of vents that stand wide, or are about to: close_over_f, until_close_f, close_in_min."""
    from advisor.thermal.choose import Setting, Turn

    over, stands = number(facts, "over_f"), stand(facts)
    if over is None or stands is None:
        return {}
    first = Setting(WIDE, WIDE)
    then = Setting(stands.airway.inch, openings["hold_top"])
    best = _best(ensemble, [Turn(first, -lead, then) for lead in CLOSE_TRIED_F])
    lead = _heard(-best.plan.lead_f, close_ahead(number(facts, "rate_f_per_min")), CLOSE_F)
    return {"close_over_f": -lead, "until_close_f": -over - lead, **_when("close_in_min", best, -over - lead)}


@dataclass(frozen=True, slots=True)
class _Best:
    plan: "Turn"
    tried: "Tried"


def _best(ensemble: "Ensemble", plans: "list[Turn]") -> _Best:
    from advisor.thermal.choose import turned

    return min((_Best(*pair) for pair in zip(plans, turned(ensemble, plans), strict=True)), key=lambda one: one.tried.error_f)


def _heard(model: float, pace: float, bounds: tuple[float, float, float]) -> float:
    least, _, most = bounds
    return in_fives(max(least, min(most, max(pace, MODEL * model + (1.0 - MODEL) * pace))))


def _when(name: str, best: _Best, until: float) -> dict[str, float]:
    """The next look: about when the turn is due, within what a look may wait; nothing when it is due now or never comes."""
    if until <= 0.0 or best.tried.turned_min is None:
        return {}
    return {name: look_before(best.tried.turned_min)}
