"""What the watcher says of invented domes, and what it keeps quiet about."""

import math
import random

import pytest

from advisor.watching.lines import line_through
from advisor.watching.swing import turning_points
from advisor.watching.thinning import Thinner
from advisor.watching.watcher import Watcher


def after(start, change):
    """250 until `start`, then 250 + change(minutes since)."""
    return lambda minute: 250.0 + (change(minute - start) if minute > start else 0.0)


def lid(minute, opened, deep=60.0, up=2.0):
    """The dip of a lid that is up for `up` minutes."""
    since = minute - opened
    if since < 0:
        return 0.0
    return -deep * (min(1.0, since) if since < up else math.exp(-(since - up) / 1.5))


@pytest.mark.parametrize("noise, mark, every", [(1.0, 0.1, 0.25), (2.0, 5.0, 0.25), (1.0, 1.0, 1.0), (2.0, 5.0, 1.0)])
def test_a_steady_cook_is_left_in_peace(alarms, noise, mark, every):
    wander = lambda minute: 250.0 + 6.0 * math.sin(minute / 37.0) + 3.0 * math.sin(minute / 11.0)
    assert alarms(wander, 12 * 60, noise=noise, mark=mark, every=every) == []


@pytest.mark.parametrize("change, kind", [
    (lambda t: 1.5 * t, "overshoot"), (lambda t: 0.6 * t, "overshoot"), (lambda t: -1.5 * t, "dying"), (lambda t: -0.6 * t, "dying"),
    (lambda t: min(22.0, 3.0 * t), "drift_up"), (lambda t: max(-22.0, -3.0 * t), "drift_down")])
@pytest.mark.parametrize("mark", [1.0, 5.0])
def test_a_dome_on_its_way_out_is_told_before_it_is_out(alarms, change, kind, mark):
    said = alarms(after(60, change), 140, mark=mark, noise=1.5)
    out = next((t for t in range(80) if abs(change(t)) >= 25.0), 80)
    assert said and 60 < said[0][1] < 60 + out
    assert kind in [what for what, _ in said] or said[0][0] in ("overshoot", "dying")


def test_it_is_said_once_and_again_only_when_worse(alarms):
    held = alarms(after(60, lambda t: min(35.0, 2.0 * t)), 400)
    assert len(held) == 1
    worse = alarms(after(60, lambda t: min(200.0, 2.0 * t)), 200)
    assert 3 <= len(worse) <= 6


def test_it_says_when_it_is_over_and_then_begins_anew(seen):
    def dome(minute):
        return 250.0 + (35.0 if 60 < minute < 120 or minute > 220 else 0.0)

    said = [(event.what, event.family) for event in seen(dome, 280) if event.family == "hot"]
    assert said == [("alarm", "hot"), ("over", "hot"), ("alarm", "hot")]


@pytest.mark.parametrize("deep", [30.0, 60.0, 120.0])
@pytest.mark.parametrize("up", [1.0, 3.0])
def test_a_lifted_lid_is_known_for_what_it_is(seen, deep, up):
    events = seen(lambda minute: 250.0 + lid(minute, 60, deep, up), 140)
    assert [event.what for event in events] == ["lid_opened", "lid_closed"]


def test_a_fall_that_does_not_come_back_is_no_lid(alarms):
    said = alarms(after(60, lambda t: -min(35.0, 15.0 * t)), 140)
    assert said and said[0][0] in ("dying", "drift_down") and said[0][1] <= 75


def test_a_swinging_dome(alarms):
    swinging = alarms(lambda minute: 250.0 + 21.0 * math.sin(minute / 5.0), 120)
    assert "swing" in [kind for kind, _ in swinging]


def test_a_climb_from_cold_is_told_before_it_runs_past_and_a_good_one_is_not(alarms):
    assert [kind for kind, at in alarms(lambda m: 80 + 8.0 * m, 30) if at < (250 + 25 - 80) / 8][:1] == ["overshoot"]
    good = lambda minute: 250.0 - 170.0 * math.exp(-minute / 15.0)
    assert alarms(good, 180) == []


def test_without_a_target_what_it_has_held_is_what_is_wanted(alarms):
    assert alarms(after(60, lambda t: 1.5 * t), 90, target_f=None)[0][0] == "overshoot"
    assert alarms(lambda minute: 80 + 3.0 * minute, 60, target_f=None) == []


@pytest.mark.parametrize("dome, kind, minutes", [
    (lambda m: 250.0 if m < 60 else 72.0, "probe_out", 80), (lambda m: 251.0 + math.sin(m) if m < 60 else 250.0, "probe_flat", 120)])
def test_a_probe_that_lies(alarms, dome, kind, minutes):
    said = alarms(dome, minutes, noise=0.0)
    assert [what for what, _ in said] == [kind]


def test_a_coarse_thermometer_may_stand_still(alarms):
    assert alarms(lambda minute: 250.0, 180, mark=5.0, noise=0.0) == []


def test_a_probe_that_goes_silent_while_others_read(alarms):
    watcher, said = Watcher(250.0), []
    for at in range(240):
        values = {"dome": 250.0 + at % 3} | ({"meat": 100.0 + at / 10} if at < 120 else {})
        said += [event for event in watcher.feed(at * 0.5, values) if event.what == "alarm"]
    assert [(event.family, event.seen.kind) for event in said] == [("meat", "probe_silent")]


@pytest.mark.parametrize("meat", [lambda m: 160.0 - m / 10, lambda m: 155.0 + (m % 3) / 10, lambda m: 40.0 + m / 2])
def test_meat_that_falls_or_stalls_is_not_the_fire(alarms, meat):
    assert alarms(lambda minute: 250.0, 180, meat=meat) == []


def test_wild_readings_among_good_ones_change_nothing(alarms):
    dice = random.Random(5)
    spiky = lambda minute: 250.0 if dice.random() > 0.1 else dice.choice([32.0, 999.0])
    assert alarms(spiky, 240, every=0.05) == []


def test_bursts_are_thinned_to_medians():
    thinner, closed = Thinner(), []
    for at in range(30_000):  # five minutes at a hundred a second
        if slot := thinner.add(at / 6000, 250.0 if at % 10 else 900.0):
            closed.append(slot)
    assert len(closed) == 9 and {value for _, value in closed} == {250.0}


def test_memory_stays_bounded():
    watcher = Watcher(250.0)
    for at in range(4000):
        watcher.feed(at * 0.5, {"dome": 250.0 + at % 40})
    assert len(watcher.dome) <= 190 and len(watcher.dips) <= 8


def test_a_line_is_not_bent_by_bad_readings():
    points = [(minute, 250.0 + 2.0 * minute) for minute in range(12)]
    points[3], points[7] = (3, 900.0), (7, 32.0)
    line = line_through(points, 12.0, 11.0)
    assert line.slope == pytest.approx(2.0, abs=0.2) and line.level_f == pytest.approx(272.0, abs=2.0)
    assert line_through(points[:3], 12.0, 11.0) is None


def test_turning_points_are_peaks_and_troughs():
    wave = [(minute, 20.0 * math.sin(minute * math.pi / 10)) for minute in range(60)]
    assert [round(minute) for minute, _ in turning_points(wave, 15.0)] == [5, 15, 25, 35, 45]
    assert turning_points([(0.0, 1.0), (1.0, 2.0)], 15.0) == [] == turning_points([], 15.0)
