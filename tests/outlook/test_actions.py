"""A plan's steps as deeds: order, waits, and at which dome they are due."""

from advisor.outlook.actions import deeds_of
from advisor.reply import StepSaid


def step(act, wait=None, when=None, **parameters):
    return StepSaid(n=1, act=act, says="", wait_min=wait, when=when, **parameters)


def test_waits_lie_between_the_deeds():
    deeds = deeds_of([step("set_vent", vent="bottom", opening=0.0), step("set_vent", 5, vent="top", opening=0.0),
                      step("burp_lid", 10, times=1)], 275)
    assert [(d.after_min, d.bottom, d.top, d.burp) for d in deeds] == [
        (0, 0.0, None, False), (0, None, 0.0, False), (5, None, None, True), (10, None, None, False)]


def test_a_distance_becomes_a_temperature():
    deeds = deeds_of([step("set_vent", vent="top", opening=0.2, when={"over_f": {"at_least": -25}})], 275)
    assert deeds[0].at_least_f == 250 and not deeds[0].or_never


def test_a_burp_that_is_not_due_is_left_out_not_waited_for():
    deeds = deeds_of([step("burp_lid", 10, when={"dome_f": {"at_least": 300}}, times=1)], 275)
    assert deeds[0].or_never and deeds[0].at_least_f == 300


def test_what_the_model_does_not_play_has_no_deeds():
    assert deeds_of([step("add_fuel", fuel_kg=1.0)], 275) is None
