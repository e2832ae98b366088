"""Numbers for a procedure that says `sized_by`: the settings the thermal model finds, weighed against the trade's chart.

The rules decide what is done and what is safe; here it is worked out how far. Chart and model are joined by their
precision in the opening's logarithm, so a model that the readings contradict counts for little.
"""

from collections.abc import Collection, Mapping, Sequence
from math import exp, log
from typing import TYPE_CHECKING

from advisor.airway import SMALLEST_GAP
from advisor.facts import Fact
from advisor.outlook.turning import closing, reopening
from advisor.placing import settings, stand
from advisor.situation import Situation
from advisor.ventchart import Holding

if TYPE_CHECKING:
    from advisor.thermal.ensemble import Ensemble
    from advisor.thermal.hold import Hold

LEAST_SD = 0.3     # of the opening's logarithm: no model of somebody's cooker is better than that
DOUBT = 2.0        # how much wider the model's answer is taken when the readings contradict it
LEAST_HELD = 0.2   # when fewer of the model's cookers can hold the target at all, the chart alone counts
TURNS = {"choke": reopening, "lift": closing}
EIGHTY = 2.563     # standard deviations between the tenth and the ninetieth percentile


def joined(chart: Holding, found: "Hold", doubted: bool) -> tuple[float, float]:
    """(opening that should hold the target, standard deviation of its logarithm) from chart and model.

    A chart that rests on cooks and a model that learned from the same ones are no surer together than the surer of them.
    """
    if found.held_share < LEAST_HELD:
        return chart.opening, chart.log_sd
    likely = max(found.likely, SMALLEST_GAP)
    spread = log(max(found.high, likely) / max(min(found.low, likely), 0.5 * SMALLEST_GAP)) / EIGHTY
    spread = max(LEAST_SD, spread) * (DOUBT if doubted else 1.0)
    known, model = chart.log_sd ** -2, spread ** -2
    level = (known * log(max(chart.opening, SMALLEST_GAP)) + model * log(likely)) / (known + model)
    together = (known + model) ** -0.5
    return exp(level), max(together, min(chart.log_sd, spread)) if chart.cooks else together


def sized(kinds: Collection[str], situation: Situation, facts: Mapping[str, Fact], chart: Holding, found: "Hold",
          ensemble: "Ensemble", origin: str, now: float) -> dict[str, Fact]:
    """The settings again with the model heard, and what else procedures of these kinds (SIZES) are sized by: facts that take
    the place of those that chart and pace gave.
    """
    hold, spread = joined(chart, found, ensemble.contradicted)
    _, openings = settings(facts, Holding(hold, spread), situation, now, best_change(ensemble, facts))
    numbers = {name: Fact(name, value, origin, now) for name, value in openings.items()}
    turns = [work(ensemble, facts, openings) for kind, work in TURNS.items() if kind in kinds]
    return numbers | {name: Fact(name, value, "forecast", now) for turn in turns for name, value in turn.items()}



CHANGES = (-2.4, -1.4, -0.8, -0.35, 0.0, 0.35, 0.8, 1.4)    # of the air's logarithm, tried: judgement


def best_change(ensemble: "Ensemble", facts: Mapping[str, Fact]) -> float | None:
    """The change of air (logarithm) after which the dome is expected nearest to its target; None without a top vent."""
    from advisor.thermal.choose import Setting, left_alone

    stands = stand(facts)
    if stands is None:
        return None
    places = list(dict.fromkeys(stands.airway.placed(stands.way + change, stands.kept) for change in CHANGES))
    changes = [stands.airway.way(top, bottom) - stands.way for top, bottom in places]
    return lowest(changes, left_alone(ensemble, [Setting(bottom, top) for top, bottom in places]))


def lowest(at: Sequence[float], heights: Sequence[float]) -> float:
    """Where the parabola through the lowest point and its neighbours is lowest; an end where that is the lowest."""
    k = min(range(len(at)), key=lambda n: heights[n])
    if k in (0, len(at) - 1):
        return at[k]
    (a, b, c), (fa, fb, fc) = at[k - 1:k + 2], heights[k - 1:k + 2]
    left, right = (b - a) * (fb - fc), (b - c) * (fb - fa)
    return b if left == right else b - 0.5 * ((b - a) * left - (b - c) * right) / (left - right)
