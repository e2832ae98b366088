"""Numbers as typed and as dictated, with their units."""

import pytest


@pytest.mark.parametrize(
    ("words", "value"),
    [
        ("three fifty", 350),
        ("two seventy five", 275),
        ("one ten", 110),
        ("four hundred", 400),
        ("ninety four", 94),
        ("a hundred and twenty", 120),
        ("two hundred and thirty-five", 235),
        ("one eighteen", 118),
        ("two oh five", 205),
        ("thirty-five", 35),
        ("a couple hundred", 200),
        ("two fifteen", 215),
        ("one twenty", 120),
        ("five hundred", 500),
    ],
)
def test_a_spoken_number_is_the_number(figures, words, value):
    assert figures(f"dome {words}") == [("number", value, None)]


@pytest.mark.parametrize(
    ("words", "kind", "value", "unit"),
    [
        ("110c", "degrees", 110, "C"),
        ("350F", "degrees", 350, "F"),
        ("5°C", "degrees", 5, "C"),
        ("one ten celsius", "degrees", 110, "C"),
        ("seventy c", "degrees", 70, "C"),
        ("minus 10 celsius", "degrees", -10, "C"),
        ("-3 c", "degrees", -3, "C"),
        ("180 degrees centigrade", "degrees", 180, "C"),
        ("400 degrees", "degrees", 400, None),
        ("165º", "degrees", 165, None),
        ("half an hour", "minutes", 30, None),
        ("an hour and a half", "minutes", 90, None),
        ("2 hours 15 minutes", "minutes", 135, None),
        ("1h30", "minutes", 90, None),
        ("two and a half hours", "minutes", 150, None),
        ("a couple of hours", "minutes", 120, None),
        ("45min", "minutes", 45, None),
        ("20 min ago", "ago", 20, None),
        ("an hour or so ago", "ago", 60, None),
        ("6:50", "clock", 410, None),
        ("half past six", "clock", 390, None),
        ("quarter to seven", "clock", 405, None),
        ("3pm", "clock", 900, None),
        ("noon", "clock", 720, None),
        ("an inch", "inches", 1, None),
        ("half an inch", "inches", 0.5, None),
        ("1/2 in", "inches", 0.5, None),
        ("an inch and a half", "inches", 1.5, None),
        ("1½ inches", "inches", 1.5, None),
        ("10 mm", "inches", 0.394, None),
        ("2.54cm", "inches", 1, None),
        ("a third", "fraction", 0.333, None),
        ("3/4", "fraction", 0.75, None),
        ("three quarters", "fraction", 0.75, None),
        ("40%", "fraction", 0.4, None),
        ("10 lb", "kg", 4.536, None),
        ("8lb", "kg", 3.629, None),
        ("2.4 kilos", "kg", 2.4, None),
        ("one point eight kilos", "kg", 1.8, None),
        ("1 degree a minute", "rate", 1, None),
        ("20 degrees every 5 minutes", "rate", 4, None),
        ("5000 feet", "feet", 5000, None),
        ("between 380 and 400", "number", 390, None),
        ("380-400", "number", 390, None),
        ("about 300ish", "number", 300, None),
    ],
)
def test_a_figure_and_its_unit_are_one(figures, words, kind, value, unit):
    assert figures(words) == [(kind, value, unit)]


def test_a_recipe_of_hours_is_no_figure(figures):
    assert [kind for kind, *_ in figures("3-2-1 ribs")] == ["recipe"]


def test_one_as_a_pronoun_is_no_number(figures):
    assert figures("the open one") == []


def test_80_20_mince_is_a_fifth_fat(listen):
    assert listen("80/20 beef burgers").facts["fat_share"] == 0.2
