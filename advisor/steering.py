"""The numbers that plans steer by, put in the book: settings of the vents, looks, turns, what was done lately.

Arithmetic on readings and moves; whether any of it is to be done belongs to the rules.
"""

import math
from collections.abc import Iterable

from advisor.book import Book, holds
from advisor.facts import Origin
from advisor.looks import (
    QUIET_MIN,
    close_ahead,
    in_fives,
    left_over,
    look_in,
    move_in,
    over_for,
    reopen_ahead,
    reopen_in,
)
from advisor.placing import SETTLE_BELOW_F, airway_of, settings, stand
from advisor.profile import CookerProfile
from advisor.record import ONE_MOVE_MIN
from advisor.rulebook.catalogue import VentChart
from advisor.situation import Situation
from advisor.starving import starved_min, starving_way
from advisor.ventchart import Holding, holding

BURP_EVERY_MIN = 10.0       # common practice, no published source: burp, wait 10, burp again
MOST_BURPS = 3              # common practice, no published source: two or three
HANDS_OFF_MIN = 5.0         # common practice, no published source: no vent move sooner after the last
INCH_IN = 1.0               # common practice, no published source: the bottom vent about an inch open
LATELY_MIN = 120.0          # moves within this are counted: judgement
LONGEST_SHUT_MIN, AIR_AT_LAST_F = 30.0, 25.0  # a fire shut in for so long gets its air as soon as it is so near: judgement
AHEAD_MIN, MOST_AHEAD_F = 15.0, 30.0   # how far ahead a mere pace is followed, and how far it is believed: judgement
IN_GUSTS = 0.4              # how much of a pace is believed in wind, where gusts make most of it: judgement
ANSWERED_MIN = 15.0         # after a move the dome is looked at more often for so long: judgement


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
    airway = airway_of(book.known)
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
