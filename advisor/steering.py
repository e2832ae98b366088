"""The numbers that plans steer by: where the vents go, when to open again, when to look, what was done lately.

Arithmetic on readings and moves; whether any of it is to be done belongs to the rules.
"""

import math
from collections.abc import Iterable, Mapping

from advisor.airway import LEAK, LEAKY, SMALLEST_GAP, Airway
from advisor.book import Book, holds, number
from advisor.facts import Fact, Origin
from advisor.pace import Readings
from advisor.profile import CookerProfile
from advisor.record import ONE_MOVE_MIN, held, recorded
from advisor.response import PACE_FADES_MIN, USUAL_SWING, Foretold
from advisor.rulebook.catalogue import VentChart
from advisor.situation import Situation
from advisor.ventchart import Holding, holding
from advisor.water import SEA_LEVEL_PA, pressure_pa

BURP_EVERY_MIN = 10.0       # common practice, no published source: burp, wait 10, burp again
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


def _ahead_by_pace(book: Book) -> None:
    """Where the dome heads by its pace alone, when the vents are not known."""
    if (over := book.number("over_f")) is not None:
        by_pace = AHEAD_MIN * (book.number("rate_f_per_min") or 0.0)
        book.put("ahead_f", over + (IN_GUSTS if holds(book.known, "windy") else 1.0) * max(-MOST_AHEAD_F, min(MOST_AHEAD_F, by_pace)))


def _reopening(book: Book) -> None:
    if (over := book.number("over_f")) is not None:
        shut = min(book.number("shut_in_for_min") or 0.0, LONGEST_SHUT_MIN)
        rate = book.number("rate_f_per_min")
        until = over - max(reopen_ahead(rate), AIR_AT_LAST_F if shut >= LONGEST_SHUT_MIN else 0.0)
        book.put("until_reopen_f", until)
        book.put("reopen_in_min", reopen_in(until, rate))
        below = -over - close_ahead(rate)
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


def settings(known: Mapping[str, Fact], prior: Holding, situation: Situation,
             now: float) -> tuple[Foretold | None, dict[str, float]]:
    """What the readings foretell, and the openings of the vents by name."""
    airway, target = _airway(known), number(known, "target_f") or 0.0
    top, over = number(known, "top_vent"), number(known, "over_f")
    stands = number(known, "bottom_vent")
    bottom = airway.inch if stands is None else stands
    chart = Airway(airway.inch).way(prior.opening, airway.inch) + (0.0 if prior.cooks else _thin_air(number(known, "altitude_ft")))
    hope = 0.0 if top is None or over is None else _hope(airway.way(top, bottom) - chart, over)
    record = recorded(situation, known, target, airway, hope, now)
    told = record.now.told(now, record.noise) if record.now else None
    level, _ = held(record, chart, prior.log_sd, now)
    swing = LONG_RUN * (told.swing_f if told else USUAL_SWING)
    names = {name: airway.top_for(level + by / swing, airway.inch)
             for name, by in (("hold_top", 0.0), ("settle_top", -SETTLE_BELOW_F), ("warm_top", WARM_UP_F))}
    names["close_top"] = names["settle_top"] if top is None else min(top, names["settle_top"])
    if told and record.now and top is not None and over is not None:
        keeps = target >= HOT_COOK_F or 0.5 * airway.inch <= bottom <= 2.0 * airway.inch
        wanted = record.now.way + _change(told, over, chart - record.now.way)
        names |= _next(airway, wanted, told, (top, bottom, over), bottom if keeps else airway.inch)
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


def _next(airway: Airway, wanted: float, told: Foretold, stands: tuple[float, float, float], kept: float) -> dict[str, float]:
    """Where top and bottom go next; no aim_bottom where the bottom stays. stands: top, bottom, °F over; kept: where the
    bottom should stand. For a small error the top alone moves, and not far, as long as it has anything to give.
    """
    top, bottom, over = stands
    small = max(abs(over), abs(told.ahead[1])) < BIG_OFF_F
    aim_top, aim_bottom = airway.placed(wanted, bottom if small else kept)
    if small and SMALLEST_GAP < top < 1.0:
        reach = LARGEST_NUDGE if top < WIDE else WIDE_NUDGE * top
        aim_top, aim_bottom = max(top - reach, min(top + reach, aim_top)), bottom
    names = {"aim_top": aim_top, "close_top": aim_top}
    return names if abs(aim_bottom - bottom) < STAYS else names | {"aim_bottom": aim_bottom}
