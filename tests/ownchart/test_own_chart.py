"""The chart as a whole: found again on invented cookers, honest in its range, out of a logbook and into a profile."""

import numpy as np
import plain_cooks as plain
import pytest

from advisor.logbook.opening import open_logbook
from advisor.ownchart import saying
from advisor.ownchart.chart import Chart, Line, chart_of
from advisor.ownchart.fromlogbook import past_cook
from advisor.ownchart.pastcook import Moved, PastCook
from advisor.ownchart.upkeep import bring_up_to_date, chart_now, model_cook
from advisor.profile import CookerProfile
from advisor.ventchart import holding

COUNT = 24


@pytest.fixture(scope="module")
def maps():
    return plain.Maps.drawn(COUNT, np.random.default_rng(8))


@pytest.fixture(scope="module")
def cooks(maps):
    return [plain.past_cooks(maps, 40 + k) for k in range(6)]


def errors(maps, charts, dome):
    right = plain.soaked(maps, np.full(COUNT, dome), 0)
    usual = np.log(right.right) - right.day.shift
    found = np.log([next(line.opening for line in chart.lines if line.dome_f == dome) for chart in charts])
    return np.abs(found - usual)[right.held]


def test_it_nears_the_truth_with_each_cook(rulebook, maps, cooks):
    trade = rulebook.catalogue.vent_chart
    off = [np.median(errors(maps, [chart_of([cook[i] for cook in cooks[:count]], trade) for i in range(COUNT)], 275.0))
           for count in (0, 2, 6)]
    assert off[2] < off[1] < 0.5 * off[0] and off[2] < 0.15


def test_ranges_hold_about_what_they_say(rulebook, maps, cooks):
    """80 % of unseen days; with 24 cookers and 6 settings the share strays by four points, and the cookers by as much."""
    charts = [chart_of([cook[i] for cook in cooks[:4]], rulebook.catalogue.vent_chart) for i in range(COUNT)]
    inside = []
    for number, dome in enumerate((225.0, 250.0, 275.0, 300.0, 325.0, 350.0)):
        there = plain.soaked(maps, np.full(COUNT, dome), 900 + number)
        for i in np.flatnonzero(there.held):
            line = next(line for line in charts[i].lines if line.dome_f == dome)
            inside.append(line.low <= there.right[i] <= line.high)
    assert 0.68 < np.mean(inside) < 0.92


def test_lines_never_fall_and_lie_in_their_ranges(rulebook, cooks):
    for chart in (chart_of([cook[i] for cook in cooks], rulebook.catalogue.vent_chart) for i in range(6)):
        openings = [line.opening for line in chart.lines]
        assert openings == sorted(openings)
        assert all(0.02 <= line.low <= line.opening <= line.high <= 1.0 for line in chart.lines)


def test_a_profile_takes_it_and_the_advice_goes_by_it(rulebook, cooks):
    trade = rulebook.catalogue.vent_chart
    chart = chart_of([cook[0] for cook in cooks], trade)
    profile = CookerProfile(chart=chart.to_profile())
    found = holding(trade, profile, 275.0)
    line = next(line for line in chart.lines if line.dome_f == 275.0)
    assert found.opening == pytest.approx(line.opening, abs=1e-3) and found.cooks == 6 == chart.cooks


# -- the logbook ----------------------------------------------------------------------------------------------------------

MINUTE, START = 60_000, 1_764_000_000_000


@pytest.fixture
def logbook(tmp_path):
    book = open_logbook(tmp_path)
    yield book
    book.close()


def entered(logbook, cook, cooker="grill", ended=True, day=0):
    start = START + day * 86_400_000
    number = logbook.begin_cook(cooker, start, 275.0)
    logbook.add_readings(number, [(start + int(at * MINUTE), "dome", f) for at, f in cook.readings], "said")
    logbook.add_readings(number, [(start, "ambient", 50.0), (start + MINUTE, "meat", 120.0)], "measured")
    logbook.add_moves(number, [(start + int(move.at_min * MINUTE), move.vent, move.opening, move.was) for move in cook.moves])
    logbook.add_lids(number, [start + 100 * MINUTE])
    if ended:
        logbook.end_cook(number, start + 300 * MINUTE)
    return number


def test_a_cook_comes_back_as_it_was_entered(logbook, cooks):
    cook = cooks[0][0]
    number = entered(logbook, cook)
    with logbook.reading() as book:
        found = past_cook(book, book.cook(number))
    assert found.readings == cook.readings and found.moves == cook.moves
    assert (found.disturbed, found.lit_min, found.ambient_f) == ((100.0,), None, 50.0)


def test_only_finished_cooks_of_this_cooker_count(rulebook, logbook, cooks):
    entered(logbook, cooks[0][0])
    entered(logbook, cooks[1][0], ended=False, day=1)
    entered(logbook, cooks[2][0], cooker="other", day=2)
    with logbook.reading() as book:
        kept = chart_now(book, "grill", rulebook.catalogue.vent_chart)
    assert len(kept.chart.stretches) == 1 and kept.profile.chart.cooks == 1


def test_it_is_kept_and_the_model_learns_from_new_cooks_only(rulebook, logbook, cooks, monkeypatch):
    learned_from = []

    def learn_into(profile, cook):
        learned_from.append(cook)
        return profile.model_copy(update={"learned": {"version": 1, "cooks": len(learned_from)}})
    monkeypatch.setattr("advisor.ownchart.upkeep.learn_into", learn_into)
    trade = rulebook.catalogue.vent_chart
    for day in range(2):
        entered(logbook, wide_at_first(cooks[day][0]), day=day)
        bring_up_to_date(logbook, "grill", trade)
    bring_up_to_date(logbook, "grill", trade)
    assert len(learned_from) == 2
    kept = CookerProfile.model_validate(logbook.profile("grill"))
    assert kept.chart.cooks == 2 and len(kept.learned["from"]) == 2
    monkeypatch.setattr("advisor.ownchart.upkeep.NEWEST", 2)
    entered(logbook, wide_at_first(cooks[3][0]), day=3)   # the first of three is too old by now: still only one is new
    bring_up_to_date(logbook, "grill", trade)
    assert len(learned_from) == 3
    monkeypatch.setattr("advisor.ownchart.upkeep.NEWEST", 9)
    entered(logbook, wide_at_first(cooks[2][0]), day=-5)  # an older cook, imported later: the model learns anew
    bring_up_to_date(logbook, "grill", trade, most=1)     # but not while somebody waits
    assert len(learned_from) == 3
    bring_up_to_date(logbook, "grill", trade)
    assert len(learned_from) == 7


def wide_at_first(cook):
    """The same with a first look at a cool dome, so that the model can follow it from lighting."""
    return PastCook(((6.0, 120.0), *(reading for reading in cook.readings if reading[0] > 8.0)), cook.moves)


def test_what_a_file_says_is_kept_with_it(rulebook, logbook, cooks):
    entered(logbook, cooks[0][0])
    bring_up_to_date(logbook, "grill", rulebook.catalogue.vent_chart, CookerProfile(kind="small", top_travel_in=2.0), most=0)
    assert {"kind": "small", "top_travel_in": 2.0}.items() <= logbook.profile("grill").items()
    bring_up_to_date(logbook, "grill", rulebook.catalogue.vent_chart, CookerProfile(name="other", kind="medium"), most=0)
    assert logbook.profile("grill")["kind"] == "small"


def test_the_model_is_given_minutes_since_lighting():
    vents = (Moved(30.0, "bottom", 0.25, 1.0), Moved(30.0, "top", 0.2, 1.0))
    cook = PastCook(((10.0, 150.0), (12.0, 160.0), (40.0, 275.0)), vents)
    given = model_cook(cook, "large")
    assert [reading.at_min for reading in given.readings] == [8.0, 38.0]  # lit eight minutes before the first look
    assert [move.at_min for move in given.moves] == [28.0, 28.0] and (given.bottom, given.top) == (1.0, 1.0)
    assert model_cook(PastCook(((10.0, 275.0), (40.0, 275.0)), vents), "large") is None


# -- in words -------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("low", "high", "word"), [(0.1, 0.2, "sure"), (0.1, 0.3, "fair"), (0.05, 0.4, "guess")])
def test_how_sure_goes_by_the_width_of_the_range(low, high, word):
    assert saying.how_sure(Line(275.0, 0.1, low, high)) == word


@pytest.mark.parametrize(("opening", "inches"), [(0.02, "1/16"), (0.05, "1/8"), (0.12, "3/8"), (0.25, "3/4"), (0.5, "1 1/2"),
                                                 (1.0, "3")])
def test_inches_as_on_a_rule(opening, inches):
    assert saying.in_inches(opening, 3.0) == inches


def test_it_says_what_it_rests_on(rulebook, cooks):
    phrases, trade = rulebook.catalogue.phrases, rulebook.catalogue.vent_chart
    assert "No cook" in saying.rests_on(chart_of([], trade), phrases)
    one = chart_of([cooks[0][0]], trade)
    assert saying.rests_on(one, phrases).startswith("It rests on 1 cook and ")
    assert "6 cooks" in saying.rests_on(chart_of([cook[0] for cook in cooks], trade), phrases)


def test_remarks_defer_to_the_manual(rulebook, cooks):
    from advisor.ownchart.upkeep import Kept

    chart = chart_of([cook[0] for cook in cooks], rulebook.catalogue.vent_chart)
    assert isinstance(chart, Chart)
    told = saying.remarks(Kept(CookerProfile(), chart), rulebook.catalogue.phrases)
    assert "manual" in told[-1] and "differs by about" in told[0]
