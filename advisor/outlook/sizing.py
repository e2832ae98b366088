"""Numbers for a procedure that says `sized_by`: the settings the thermal model finds, weighed against the trade's chart.

The rules decide what is done and what is safe; here it is worked out how far. Chart and model are joined by their
precision in the opening's logarithm, so a model that the readings contradict counts for little.
"""

from collections.abc import Mapping
from math import exp, log
from typing import TYPE_CHECKING

from advisor.airway import SMALLEST_GAP
from advisor.facts import Fact
from advisor.situation import Situation
from advisor.steering import settings
from advisor.ventchart import Holding

if TYPE_CHECKING:
    from advisor.thermal.hold import Hold

LEAST_SD = 0.3     # of the opening's logarithm: no model of somebody's cooker is better than that
DOUBT = 2.0        # how much wider the model's answer is taken when the readings contradict it
LEAST_HELD = 0.2   # when fewer of the model's cookers can hold the target at all, the chart alone counts
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


def sized(situation: Situation, facts: Mapping[str, Fact], chart: Holding, found: "Hold", doubted: bool, origin: str,
          now: float) -> dict[str, Fact]:
    """The settings again, with the model heard: facts that take the place of those the chart gave."""
    hold, spread = joined(chart, found, doubted)
    _, openings = settings(facts, Holding(hold, spread), situation, now)
    return {name: Fact(name, value, origin, now) for name, value in openings.items()}
