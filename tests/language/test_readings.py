"""Which fact a temperature serves, and in which scale."""

import pytest

from advisor.units import UnitStyle

CELSIUS = UnitStyle("C", "cm", "kg")


@pytest.mark.parametrize(
    ("words", "facts"),
    [
        ("now 310", {"dome_f": 310}),
        ("dome 240 grate 225 meat 131", {"dome_f": 240, "grate_f": 225, "meat_f": 131}),
        ("240 dome, 225 grate, 131 meat", {"dome_f": 240, "grate_f": 225, "meat_f": 131}),
        ("at 350, was going for 250", {"dome_f": 350, "target_f": 250}),
        ("250 target, 310 now", {"dome_f": 310, "target_f": 250}),
        ("it's supposed to be 225 and it's 300", {"dome_f": 300, "target_f": 225}),
        ("228 vs 225", {"dome_f": 228, "target_f": 225}),
        ("temp is 375, trying to get down to 250", {"dome_f": 375, "target_f": 250}),
        ("30 outside and the pit's at 240", {"ambient_f": 30, "dome_f": 240}),
        ("pork's 160 internal, want 203", {"meat_f": 160, "meat_target_f": 203}),
        ("boiling water shows 205", {"boiling_reads_f": 205}),
        ("ice water reads 38", {"ice_reads_f": 38}),
        ("dropped to 200 from 250", {"dome_f": 200}),
        ("350 now, 20 min ago it was 400", {"dome_f": 350}),
        ("what vents for 275", {"target_f": 275}),
        ("how much charcoal for 12 hours at 250", {"target_f": 250}),
        ("how do i open it at 600", {"dome_f": 600}),
    ],
)
def test_a_temperature_goes_to_its_owner(listen, words, facts):
    heard = listen(words).facts
    readings = {name: value for name, value in heard.items() if name.endswith("_f") and name != "over_f"}
    assert readings == facts


@pytest.mark.parametrize(
    ("words", "over"),
    [
        ("im 100 over", 100),
        ("40 under", -40),
        ("she's 20 hot", 20),
        ("it's 5°C low", -9),
        ("about a hundred above where i want it", 100),
        ("overshot by 80 degrees", 80),
        ("10 c too hot", 18),
        ("fifteen below target", -15),
    ],
)
def test_a_difference_is_no_reading(listen, words, over):
    heard = listen(words).facts
    assert heard["over_f"] == over
    assert "dome_f" not in heard and "target_f" not in heard


def test_differences_are_not_derived_here(listen):
    assert "over_f" not in listen("its 350 i want 250").facts


@pytest.mark.parametrize(
    "words", ["cant get above 200", "wont drop below 200", "stuck at 200", "it won't go over 200"]
)
def test_a_bound_that_holds_is_the_reading(listen, words):
    heard = listen(words).facts
    assert (heard["dome_f"], heard["trend"]) == (200, "steady")


class TestScales:
    def test_a_target_too_low_for_fahrenheit_makes_the_message_celsius(self, listen):
        heard = listen("stuck at 95, want 110")
        assert (heard.facts["dome_f"], heard.facts["target_f"]) == (203, 230)
        assert heard.units.temperature == "C"

    def test_one_marked_figure_marks_its_neighbours(self, listen):
        assert listen("it's 165 C, I'm after 110").facts["target_f"] == 230

    def test_the_person_s_own_scale_settles_it(self, listen):
        assert listen("now 120", units=CELSIUS).facts["dome_f"] == 248
        assert listen("now 120", units=UnitStyle("F")).facts["dome_f"] == 120

    def test_a_target_round_in_celsius_settles_it(self, listen):
        assert listen("95", facts={"target_f": 230.0}).facts["dome_f"] == 203

    def test_a_lone_low_figure_stays_open(self, listen):
        heard = listen("now 120")
        assert heard.facts == {}
        assert heard.unclear.could_be == (("dome_f", 120.0), ("dome_f", 248.0))

    def test_a_rate_in_celsius_has_no_32(self, listen):
        assert listen("dome 180c climbing 5 degrees a minute").facts["rate_f_per_min"] == 9


@pytest.mark.parametrize(
    "words",
    [
        "the 250 bus is late",
        "what's 250 divided by 4",
        "600 bucks for a table",
        "qwrt zzp 77 blarg",
        "call me at 555 1234",
    ],
)
def test_numbers_of_other_things_are_no_readings(listen, words):
    heard = listen(words)
    assert heard.facts == {} and not heard.understood


def test_an_unbelievable_value_is_refused_and_the_rest_kept(listen):
    heard = listen("dome is at 5000, target 250, lid is open")
    assert heard.facts == {"target_f": 250.0, "lid_open": True}
    assert len(heard.refused) == 1 and "5000" in heard.refused[0]


def test_three_readings_show_a_trend(listen):
    assert listen("220 then 290 then 230").facts["trend"] == "swinging"
    assert listen("went 240, 260, 285").facts["trend"] == "rising"


def test_a_change_in_a_time_is_a_rate(listen):
    assert listen("dropped 50 degrees in 10 minutes").facts["rate_f_per_min"] == -5
    assert "dome_f" not in listen("dropped 50 degrees in 10 minutes").facts


@pytest.mark.parametrize(
    ("words", "facts"),
    [
        ("dome says 300 probe says 250", {"dome_f": 300, "grate_f": 250}),
        ("temp 275 target 225 vents half", {"dome_f": 275, "target_f": 225}),
        ("after 20 minutes its 280", {"dome_f": 280}),
        ("put cold meat on and it dropped to 190", {"dome_f": 190}),
        ("the temperature came down to two sixty", {"dome_f": 260}),
        ("thats 325, 100 more than i want", {"dome_f": 325}),
        ("altitude 5000, dome 300", {"dome_f": 300}),
        ("the meat went in at 40, it's 92 inside now", {"meat_f": 92, "meat_start_f": 40}),
    ],
)
def test_cues_reach_no_further_than_their_own_figure(listen, words, facts):
    heard = listen(words).facts
    assert {name: value for name, value in heard.items() if name.endswith("_f") and name != "over_f"} == facts
