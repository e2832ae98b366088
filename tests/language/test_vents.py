"""Openings in fractions, inches and the words of the trade."""

import pytest


@pytest.mark.parametrize(
    ("words", "facts"),
    [
        ("both shut", {"bottom_vent": 0, "top_vent": 0}),
        ("everything open", {"bottom_vent": 1, "top_vent": 1}),
        ("top cracked", {"top_vent": 0.05}),
        ("top cap a sliver, draught door half", {"top_vent": 0.05, "bottom_vent": 0.5}),
        ("bottom 1 inch top cracked", {"bottom_vent_in": 1, "top_vent": 0.05}),
        ("chimney wide open", {"top_vent": 1}),
        ("i shut the bottom and opened the top to a third", {"bottom_vent": 0, "top_vent": 0.33}),
        ("top's a quarter, bottom half", {"top_vent": 0.25, "bottom_vent": 0.5}),
        ("bottom is a quarter shut", {"bottom_vent": 0.75}),
        ("half an inch on the bottom", {"bottom_vent_in": 0.5}),
        ("bottom at 10 mm", {"bottom_vent_in": 0.394}),
        ("intake two fingers", {"bottom_vent_in": 1.5}),
        ("closed the exhaust all the way", {"top_vent": 0}),
        ("shut the top down to a quarter", {"top_vent": 0.25}),
        ("almost closed the bottom", {"bottom_vent": 0.05}),
        ("top and bottom are both wide open", {"bottom_vent": 1, "top_vent": 1}),
        ("lower damper at 40%, upper at 10 percent", {"bottom_vent": 0.4, "top_vent": 0.1}),
    ],
)
def test_an_opening_goes_to_its_vent(listen, words, facts):
    heard = listen(words).facts
    assert {name: value for name, value in heard.items() if "_vent" in name} == facts


@pytest.mark.parametrize(
    "words",
    [
        "opened the top a bit",
        "shut the bottom a touch",
        "opened up the top a smidge more",
        "lid half open",
        "basket half full",
        "garage door wide open",
        "flames shooting out the top",
        "moved the bottom vent",
    ],
)
def test_an_amount_nobody_knows_fills_no_vent(listen, words):
    assert not [
        name
        for name in listen(words).facts
        if name in ("top_vent", "bottom_vent", "top_vent_in", "bottom_vent_in")
    ]


def test_opening_the_vents_again_ends_the_choke(listen):
    assert listen("opened the vents again", facts={"choked": True}).facts["choked"] is False
    assert "choked" not in listen("opened the vents again").facts
