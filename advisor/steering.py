"""The numbers that plans steer by: where the vents go, when to open again, when to look, what was done lately.

Arithmetic on readings and moves; whether any of it is to be done belongs to the rules.
"""

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from advisor.airway import LEAK, LEAKY, SMALLEST_GAP, Airway
from advisor.book import Book, holds, number
from advisor.bracket import bracket
from advisor.facts import Fact, Origin
from advisor.pace import Readings
from advisor.profile import CookerProfile
from advisor.record import ONE_MOVE_MIN, held, recorded
from advisor.response import PACE_FADES_MIN, USUAL_SWING, Foretold
from advisor.rulebook.catalogue import VentChart
from advisor.situation import Situation
from advisor.starving import starved_min, starving_way
from advisor.ventchart import Holding, holding
from advisor.water import SEA_LEVEL_PA, pressure_pa

BURP_EVERY_MIN = 10.0       # common practice, no published source: burp, wait 10, burp again
MOST_BURPS = 3              # common practice, no published source: two or three
HANDS_OFF_MIN = 5.0         # common practice, no published source: no vent move sooner after the last
SETTLE_BELOW_F = 10.0       # common practice, no published source: "a little under the target, because it creeps up"
HOT_COOK_F = 400.0          # common practice, no published source: a searing fire wants its bottom vent wide
INCH_IN = 1.0               # common practice, no published source: the bottom vent about an inch open
LATELY_MIN = 120.0          # moves within this are counted: judgement
LEAST_OFF_F, FREE_MOVES, DEARER_F = 5.0, 3, 1.0     # an error worth a move, and by how much more after so many: judgement
MOST_MOVES, DEAREST_F = 6, 4.0       # beyond so many within LATELY_MIN it is chasing: judgement
QUIET_MIN, BIG_OFF_F, QUIET_FOR_F = 6.0, 25.0, 0.4  # hands off after a move: longer the smaller the error is; judgement
ALIVE = 0.4                 # of the air that the chart says holds the target: judgement
COMES_BACK_F = 8.0          # what a dome must come nearer by to count as coming back by itself: judgement
MOST_CHANGE, MOST_FAR, FAR_F = 1.1, 2.5, 60.0       # of the air's logarithm in one move; when so far off; judgement
FORESEEN = 0.5              # of a change, how much the thermal model is heard beside the readings: judgement
BREATH = 0.5                # of the air's logarithm: what a starved fire gets more, at least, up to the chart's; judgement
RUN_OUT_F, SHOWN_MIN = 40.0, 20.0   # no limit to a move against the last one from there; when that has shown: judgement
LARGEST_NUDGE = 0.08        # of full travel, for a small error: common practice, no published source - half an inch is too much
WIDE, WIDE_NUDGE = 0.4, 0.3     # a top open further answers so little that it goes by shares of where it stands: judgement
STAYS = 0.02                # a bottom vent this near where it should be is left alone: judgement
HOPE = 0.3                  # of what chart and setting let expect, what is believed before a reading shows it: judgement
MOST_HOPE, LONG_RUN = 2.0, 1.4  # °F/min of that; what a swing grows to once walls have followed: judgement
REOPEN_F = (10.0, 20.0, 45.0)   # least, usual and most by which a choked fire gets its air ahead of the target: judgement
CLOSE_F = (15.0, 50.0, 70.0)     # least, usual and most by which wide vents are closed ahead of it: common practice, 25 to 50
LONGEST_SHUT_MIN, AIR_AT_LAST_F = 30.0, 25.0  # a fire shut in for so long gets its air as soon as it is so near: judgement
ANSWERS_IN_MIN = 7.0        # after which the air given back shows: judgement, between dial lag and a fire's answer
AHEAD_MIN, MOST_AHEAD_F = 15.0, 30.0   # how far ahead a mere pace is followed, and how far it is believed: judgement
IN_GUSTS = 0.4              # how much of a pace is believed in wind, where gusts make most of it: judgement
NEAR_F, LAG_MIN = 12.0, 2.0     # a look is due before the dome comes nearer than this; lag of the dial and of a hand
LOOK_MIN = (4.0, 10.0)      # no look is asked for sooner or later than this on the way: judgement
ANSWERED_MIN = 15.0         # after a move the dome is looked at more often for so long: judgement
SLOW_F_PER_MIN = 1.0        # a dome slower than this needs no look of its own: judgement
WARM_UP_F = 30.0            # what cold walls take out of a dome that is just held: judgement


def steer(book: Book, chart: VentChart, profile: CookerProfile, situation: Situation) -> None:
    """Put all of them into the book."""
    book.put("inch_bottom", min(1.0, INCH_IN / profile.bottom_travel_in))
    book.put("inch_top", min(1.0, INCH_IN / profile.top_travel_in))
    _done_lately(book, situation)
    target = book.number("target_f")
    if target is not None:
        _towards(book, holding(chart, profile, target), situation, target)
    _ahead_by_pace(book)
    _reopening(book)


def _towards(book: Book, hold: Holding, situation: Situation, target: float) -> None:
    book.put("over_for_min", over_for(situation.readings, target, book.now))
    book.put("settle_f", target - SETTLE_BELOW_F)
    told, numbers = settings(book.known, hold, situation, book.now)
    _starving(book, situation, hold.opening)
    origin: Origin = "learned" if hold.cooks else "derived"
    for name, value in numbers.items():
        book.put(name, value, origin)
    move = None
    if told:
        book.put("ahead_f", round(told.ahead[1], 1))
        move = move_in(left_over(told.ahead, book.number("over_f") or 0.0), book.number("moves_lately") or 0.0,
                       book.number("vents_moved_ago_min"))
        book.put("move_in_min", move)
    moved = book.number("vents_moved_ago_min")
    answering = moved is not None and moved < ANSWERED_MIN
    book.put("look_in_min", look_in(book.number("over_f"), book.number("rate_f_per_min"), QUIET_MIN if answering else move))
    if hold.cooks:
        book.put("chart_top", hold.opening, "learned")
        book.put("chart_cooks", str(hold.cooks), "learned")


def _starving(book: Book, situation: Situation, hold_top: float) -> None:
    """By the chart and not by this cook's readings: hot walls over a dying fire make a hair of air look enough."""
    airway = _airway(book.known)
    holds_way = airway.way(hold_top, airway.inch)
    starved = starved_min(situation, book.known, airway, holds_way, book.now)
    book.put("starved_min", starved)
    if starved is not None and (stands := stand(book.known)):
        book.put("starves_now", stands.way <= starving_way(airway, holds_way))


def _ahead_by_pace(book: Book) -> None:
    """Where the dome heads by its pace alone, when the vents are not known."""
    if (over := book.number("over_f")) is not None:
        by_pace = AHEAD_MIN * (book.number("rate_f_per_min") or 0.0)
        book.put("ahead_f", over + (IN_GUSTS if holds(book.known, "windy") else 1.0) * max(-MOST_AHEAD_F, min(MOST_AHEAD_F, by_pace)))


def _reopening(book: Book) -> None:
    if (over := book.number("over_f")) is not None:
        shut = max(book.number("shut_in_for_min") or 0.0, book.number("starved_min") or 0.0)
        rate = book.number("rate_f_per_min")
        reopen_over = in_fives(max(reopen_ahead(rate), AIR_AT_LAST_F * min(1.0, shut / LONGEST_SHUT_MIN)))
        until = over - reopen_over
        book.put("reopen_over_f", reopen_over)
        book.put("until_reopen_f", until)
        book.put("reopen_in_min", reopen_in(until, rate))
        close_over = -in_fives(close_ahead(rate))
        below = close_over - over
        book.put("close_over_f", close_over)
        book.put("until_close_f", below)
        book.put("close_in_min", reopen_in(below, None if rate is None else -rate))


def _done_lately(book: Book, situation: Situation) -> None:
    moved, opened = book.number("vents_moved_ago_min"), book.number("lid_opened_ago_min")
    if moved is not None:
        book.put("rest_of_hands_off_min", max(0.0, HANDS_OFF_MIN - moved))
    if opened is not None:
        book.put("rest_of_burp_min", max(0.0, BURP_EVERY_MIN - opened))
    vents = [move.at_min for move in situation.moves if move.top is not None or move.bottom is not None]
    book.put("moves_lately", float(_apart(minute for minute in vents if book.now - minute <= LATELY_MIN)))
    since = max((minute for minute in vents), default=book.now)
    burps = sum(move.lid and move.at_min >= since for move in situation.moves)
    book.put("burps_lately", float(burps) if burps else None)
    book.put("more_burps", float(burps < MOST_BURPS - 1))


def _apart(minutes: Iterable[float]) -> int:
    """How many moves there are, those made together counted as one."""
    count, last = 0, -math.inf
    for minute in sorted(minutes):
        if minute - last > ONE_MOVE_MIN:
            count, last = count + 1, minute
    return count


def look_in(over_f: float | None, rate: float | None, move_in_min: float | None = None) -> float | None:
    """Minutes until the dome needs the next look: when the vents may be worth moving, before it comes near the target, or
    soon when it runs away."""
    if over_f is None or rate is None and move_in_min is None:
        return None
    soonest, latest = LOOK_MIN
    if move_in_min is not None:
        latest = max(soonest, min(latest, move_in_min))
    if not rate or abs(rate) < SLOW_F_PER_MIN:
        return latest
    if over_f * rate > 0:
        return 0.5 * LOOK_MIN[1]
    return float(round(max(soonest, min(latest, (abs(over_f) - NEAR_F) / abs(rate) - LAG_MIN))))


def reopen_ahead(rate: float | None) -> float:
    """°F above the target at which a choked fire gets its air back, the dome moving at that rate."""
    least, usual, most = REOPEN_F
    return usual if rate is None or rate >= 0 else round(max(least, min(most, -rate * ANSWERS_IN_MIN)))


def close_ahead(rate: float | None) -> float:
    """°F below the target at which vents that were opened wide are closed down, the dome moving at that rate."""
    least, usual, most = CLOSE_F
    return usual if rate is None else max(least, min(most, least + rate * ANSWERS_IN_MIN))


def in_fives(degrees_f: float) -> float:
    """To the nearest 5 °F, as a dial is read."""
    return 5.0 * round(degrees_f / 5.0)


def over_for(readings: Readings, target_f: float, now: float) -> float | None:
    """Minutes since a reading was last no more than NEAR_F over the target; None when none was or nothing is over now."""
    near = [minute for minute, dome in readings if dome <= target_f + NEAR_F]
    return now - near[-1] if near and readings[-1][1] > target_f + NEAR_F else None


def reopen_in(until_f: float, rate: float | None) -> float | None:
    """Minutes until a choked fire needs the next look: about when it gets its air back; the same of wide vents, upside down."""
    if rate is None:
        return None
    soonest, latest = LOOK_MIN
    return float(round(max(soonest, min(latest, until_f / -rate)))) if rate < 0 else 0.5 * latest


def left_over(ahead: tuple[float, ...], over: float) -> float:
    """What is left to be taken away: a dome that comes back by itself is given the longest look ahead.

    Hot walls keep a dome up while the fire below them already shrinks; closing further then puts it out.
    """
    _, soon, late = ahead
    return late if over * soon > 0.0 and abs(late) < abs(over) - COMES_BACK_F else soon


def move_in(ahead_f: float, moves: float, moved_ago: float | None) -> float | None:
    """Minutes until the vents are worth moving again: 0 now, None when nothing is off.

    The smaller the error and the more moves were made, the longer the hands stay off.
    """
    dearer = DEARER_F * max(0.0, moves - FREE_MOVES) + DEAREST_F * max(0.0, moves - MOST_MOVES)
    if abs(ahead_f) < LEAST_OFF_F + dearer:
        return None
    quiet = QUIET_MIN + QUIET_FOR_F * max(0.0, BIG_OFF_F - abs(ahead_f))
    return 0.0 if moved_ago is None else float(max(0, round(quiet - moved_ago)))


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
    airway, top, told = _airway(known), number(known, "top_vent"), number(known, "bottom_vent")
    bottom = airway.inch if told is None else told
    keeps = (number(known, "target_f") or 0.0) >= HOT_COOK_F or 0.5 * airway.inch <= bottom <= 2.0 * airway.inch
    return None if top is None else Stand(airway, top, bottom, bottom if keeps else airway.inch)


def settings(known: Mapping[str, Fact], prior: Holding, situation: Situation, now: float,
             foreseen: float | None = None) -> tuple[Foretold | None, dict[str, float]]:
    """What the readings foretell, and the openings of the vents by name. foreseen: the change of air a model finds best."""
    airway, target = _airway(known), number(known, "target_f") or 0.0
    stands, over = stand(known), number(known, "over_f")
    top = stands and stands.top
    chart = Airway(airway.inch).way(prior.opening, airway.inch) + (0.0 if prior.cooks else _thin_air(number(known, "altitude_ft")))
    hope = 0.0 if stands is None or over is None else _hope(stands.way - chart, over)
    record = recorded(situation, known, target, airway, hope, now)
    told = record.now.told(now, record.noise) if record.now else None
    level, _ = held(record, chart, prior.log_sd, now)
    level = bracket(record, level, now).within(level)
    swing = LONG_RUN * (told.swing_f if told else USUAL_SWING)
    names = {name: airway.top_for(level + by / swing, airway.inch)
             for name, by in (("hold_top", 0.0), ("settle_top", -SETTLE_BELOW_F), ("warm_top", WARM_UP_F))}
    if stands is not None:
        names["revive_top"] = airway.top_for(max(level, min(chart, stands.way + BREATH)), airway.inch)
    names["close_top"] = names["settle_top"] if top is None else min(top, names["settle_top"])
    if told and record.now and stands and over is not None:
        change = _unreversed(_change(told, over, chart - record.now.way), over, record.now.moves, now)
        if foreseen is not None:
            change = FORESEEN * foreseen + (1.0 - FORESEEN) * change
        names |= _next(stands, record.now.way + change, told, over, nudged=foreseen is None)
    return told, {name: round(value, 3) for name, value in names.items()}


def _thin_air(altitude_ft: float | None) -> float:
    """How much wider the way must be at this height for the same oxygen, as a logarithm: the trade's chart is of low land."""
    return -math.log(pressure_pa(altitude_ft or 0.0) / SEA_LEVEL_PA)


def _airway(known: Mapping[str, Fact]) -> Airway:
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
        reach = LARGEST_NUDGE if top < WIDE else WIDE_NUDGE * top
        reach = reach if nudged else 1.0
        aim_top, aim_bottom = max(SMALLEST_GAP, top - reach, min(top + reach, aim_top, 1.0)), bottom
    names = {"aim_top": aim_top, "close_top": aim_top}
    return names if abs(aim_bottom - bottom) < STAYS else names | {"aim_bottom": aim_bottom}
