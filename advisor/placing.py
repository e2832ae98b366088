"""Where the vents go next: the settings that hold, settle and bring back, from chart, readings and what a model foresees."""

import math
from collections.abc import Mapping
from dataclasses import dataclass

from advisor.airway import LEAK, LEAKY, SMALLEST_GAP, Airway
from advisor.book import holds, number
from advisor.bracket import bracket
from advisor.facts import Fact
from advisor.looks import BIG_OFF_F, COMES_BACK_F
from advisor.record import held, recorded
from advisor.response import PACE_FADES_MIN, USUAL_SWING, Foretold
from advisor.situation import Situation
from advisor.ventchart import Holding
from advisor.water import SEA_LEVEL_PA, pressure_pa

SETTLE_BELOW_F = 10.0       # common practice, no published source: "a little under the target, because it creeps up"
HOT_COOK_F = 400.0          # common practice, no published source: a searing fire wants its bottom vent wide
ALIVE = 0.4                 # of the air that the chart says holds the target: judgement
MOST_CHANGE, MOST_FAR, FAR_F = 1.1, 2.5, 60.0       # of the air's logarithm in one move; when so far off; judgement
FORESEEN = 0.5              # of a change, how much the thermal model is heard beside the readings: judgement
BREATH = 0.5                # of the air's logarithm: what a starved fire gets more, at least, up to the chart's; judgement
RUN_OUT_F, SHOWN_MIN = 40.0, 20.0   # no limit to a move against the last one from there; when that has shown: judgement
LARGEST_NUDGE = 0.08        # of full travel, for a small error: common practice, no published source - half an inch is too much
WIDE, WIDE_NUDGE = 0.4, 0.3     # a top open further answers so little that it goes by shares of where it stands: judgement
STAYS = 0.02                # a bottom vent this near where it should be is left alone: judgement
HOPE = 0.3                  # of what chart and setting let expect, what is believed before a reading shows it: judgement
MOST_HOPE, LONG_RUN = 2.0, 1.4  # °F/min of that; what a swing grows to once walls have followed: judgement
WARM_UP_F = 30.0            # what cold walls take out of a dome that is just held: judgement


@dataclass(frozen=True, slots=True)
class Stand:
    """How the vents stand: openings, the air they give (logarithm), and where the bottom should stand (`kept`)."""

    airway: Airway
    top: float
    bottom: float
    kept: float

    @property
    def way(self) -> float:
        return self.airway.way(self.top, self.bottom)


def stand(known: Mapping[str, Fact]) -> Stand | None:
    """None when the top is not known; a bottom nobody told of is taken to stand at an inch."""
    airway, top, told = airway_of(known), number(known, "top_vent"), number(known, "bottom_vent")
    bottom = airway.inch if told is None else told
    keeps = (number(known, "target_f") or 0.0) >= HOT_COOK_F or 0.5 * airway.inch <= bottom <= 2.0 * airway.inch
    return None if top is None else Stand(airway, top, bottom, bottom if keeps else airway.inch)


def settings(known: Mapping[str, Fact], prior: Holding, situation: Situation, now: float,
             foreseen: float | None = None) -> tuple[Foretold | None, dict[str, float]]:
    """What the readings foretell, and the openings of the vents by name. foreseen: the change of air a model finds best."""
    airway, target = airway_of(known), number(known, "target_f") or 0.0
    stands, over = stand(known), number(known, "over_f")
    chart = Airway(airway.inch).way(prior.opening, airway.inch) + (0.0 if prior.cooks else _thin_air(number(known, "altitude_ft")))
    hope = 0.0 if stands is None or over is None else _hope(stands.way - chart, over)
    record = recorded(situation, known, target, airway, hope, now)
    told = record.now.told(now, record.noise) if record.now else None
    level, _ = held(record, chart, prior.log_sd, now)
    level = bracket(record, level, now).within(level)
    names = _standing(airway, level, told.swing_f if told else USUAL_SWING)
    if stands:
        names["close_top"] = min(stands.top, names["settle_top"])
        names["revive_top"] = airway.top_for(max(level, min(chart, stands.way + BREATH)), airway.inch)
    if told and record.now and stands and over is not None:
        change = _unreversed(_change(told, over, chart - record.now.way), over, record.now.moves, now)
        change = change if foreseen is None else FORESEEN * foreseen + (1.0 - FORESEEN) * change
        names |= _next(stands, record.now.way + change, told, over, nudged=foreseen is None)
    return told, {name: round(value, 3) for name, value in names.items()}


def _standing(airway: Airway, level: float, swing_f: float) -> dict[str, float]:
    """The top settings that hold the target, a little under it, and while the walls are cold; the bottom at an inch."""
    hold, settle, warm = (airway.top_for(level + by / (LONG_RUN * swing_f), airway.inch) for by in (0.0, -SETTLE_BELOW_F, WARM_UP_F))
    return {"hold_top": hold, "settle_top": settle, "warm_top": warm, "close_top": settle}


def _thin_air(altitude_ft: float | None) -> float:
    """How much wider the way must be at this height for the same oxygen, as a logarithm: the trade's chart is of low land."""
    return -math.log(pressure_pa(altitude_ft or 0.0) / SEA_LEVEL_PA)


def airway_of(known: Mapping[str, Fact]) -> Airway:
    usual = Airway()
    return Airway(number(known, "inch_bottom") or usual.inch, number(known, "inch_top") or usual.top_inch,
                  LEAKY if holds(known, "gasket_leaks") else LEAK)


def _hope(above: float, over: float) -> float:
    """°F per minute: where the chart says that a setting so far above the holding one leads, believed a little."""
    return max(-MOST_HOPE, min(MOST_HOPE, HOPE * (USUAL_SWING * LONG_RUN * above - over) / PACE_FADES_MIN))


def _change(told: Foretold, over: float, to_chart: float) -> float:
    """The change of air of one move, within bounds. to_chart: the change that leads to what the chart says holds the target.

    A dome that comes down by itself is kept up by hot walls: less than ALIVE of the chart's air would put the fire out.
    """
    most = MOST_FAR if abs(over) >= FAR_F else MOST_CHANGE
    change = max(-most, min(most, told.change))
    falls = told.ahead[1] < over - COMES_BACK_F
    return max(change, min(0.0, to_chart + math.log(ALIVE))) if falls and change < 0.0 else change


def _unreversed(change: float, over: float, moves: tuple[tuple[float, float], ...], now: float) -> float:
    """A move against the last one, no larger than what of that one can have shown by now: the rest is still to come.

    Unless the dome has run out far on the other side.
    """
    if not moves or abs(over) >= RUN_OUT_F:
        return change
    minute, last = moves[-1]
    most = abs(last) * min(1.0, (now - minute) / SHOWN_MIN)
    return change if change * last >= 0.0 else max(-most, min(most, change))


def _next(stands: Stand, wanted: float, told: Foretold, over: float, nudged: bool) -> dict[str, float]:
    """Where top and bottom go next for the wanted air; no aim_bottom where the bottom stays.

    For a small error the top alone moves, as long as it has anything to give; `nudged`: and not far, as nothing but this
    cook's few readings tells how far.
    """
    top, bottom = stands.top, stands.bottom
    small = max(abs(over), abs(told.ahead[1])) < BIG_OFF_F
    aim_top, aim_bottom = stands.airway.placed(wanted, bottom if small else stands.kept)
    if small and SMALLEST_GAP < top < 1.0:
        reach = 1.0 if not nudged else LARGEST_NUDGE if top < WIDE else WIDE_NUDGE * top
        aim_top, aim_bottom = max(SMALLEST_GAP, top - reach, min(top + reach, aim_top, 1.0)), bottom
    names = {"aim_top": aim_top, "close_top": aim_top}
    return names if abs(aim_bottom - bottom) < STAYS else names | {"aim_bottom": aim_bottom}
