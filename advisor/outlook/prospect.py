"""What comes of the plan and what of doing nothing: figures for programs, and words that say what waiting costs."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from advisor.reply import ForecastSaid
from advisor.wording import Wording, minutes

if TYPE_CHECKING:
    from advisor.thermal.forecast import Forecast

HORIZON_MIN = 120.0
THERE_MIN = 1.0  # a dome that is back sooner than this is there already
WORTH_SAYING_F = 25.0  # a drift that a cook would mind


@dataclass(frozen=True, slots=True)
class Prospect:
    """planned: when the dome is back if the plan is followed; says: that, and what leaving it alone would bring."""

    planned: ForecastSaid | None
    says: tuple[str, ...] = ()


def prospect_of(now_f: float, planned: "Forecast", idle: "Forecast", phrases: Mapping[str, str],
                wording: Wording) -> Prospect:
    """The two forecasts as a reply carries them; no time when the dome reads near its goal already."""
    if abs(now_f - planned.goal_f) <= planned.band_f:
        return Prospect(None, _drift(idle, phrases, wording))
    said = _figures(planned)
    lines = [planned_line(said, planned.goal_f, planned.confidence, phrases, wording), _idle_line(idle, phrases)]
    if planned.contradicted:
        lines.append(phrases["forecast_in_doubt"])
    return Prospect(said, (" ".join(lines),))


def _drift(idle: "Forecast", phrases: Mapping[str, str], wording: Wording) -> tuple[str, ...]:
    """Where a dome that is near its goal would go by itself, when that is far."""
    low, likely, high = idle.settles_f
    if abs(likely - idle.goal_f) < WORTH_SAYING_F or low < idle.goal_f < high:
        return ()
    return (wording.fill(phrases["forecast_drift"], {"settles": wording.temperature(round(likely, -1))}),)


def _figures(forecast: "Forecast") -> ForecastSaid | None:
    """low and high hold it with `confidence`; a time beyond the horizon is cut there and the confidence with it."""
    if forecast.likely_min is None or forecast.low_min is None:
        return None
    high, confidence = forecast.high_min, forecast.confidence
    if high is None or high > HORIZON_MIN:
        high, confidence = HORIZON_MIN, max(0.4, min(confidence, forecast.back_share - 0.1))
    return ForecastSaid(goal_f=forecast.goal_f, likely_min=round(forecast.likely_min),
                        low_min=round(forecast.low_min), high_min=round(high), confidence=round(confidence, 2))


def planned_line(said: ForecastSaid | None, goal_f: float, confidence: float, phrases: Mapping[str, str],
                 wording: Wording) -> str:
    """When the dome is back if the plan is followed; confidence: what a whole interval would hold with."""
    words = {"goal": wording.temperature(goal_f)}
    if said is None:
        return wording.fill(phrases["forecast_not_soon"], words)
    within_the_hour = max(said.likely_min, said.high_min) < 60 and said.low_min < 60
    say = (lambda number: f"{number:.0f}") if within_the_hour else minutes  # "34 minutes (26 to 45)"
    words |= {"likely": minutes(said.likely_min), "low": say(said.low_min), "high": say(said.high_min)}
    sure = said.confidence >= confidence
    return wording.fill(phrases["forecast" if sure else "forecast_open"], words)


def _idle_line(idle: "Forecast", phrases: Mapping[str, str]) -> str:
    if idle.likely_min is None:
        return phrases["forecast_idle_not"]
    if idle.likely_min < THERE_MIN:
        return phrases["forecast_idle_there"]
    return phrases["forecast_idle"].replace("{likely}", minutes(idle.likely_min))
