"""The door by which a cooker's own vent chart comes into the advice: the profile, the arithmetic, the reply."""

import pytest
from pydantic import ValidationError

from advisor.conversation import Conversation
from advisor.profile import CookerProfile, OwnChart, OwnPoint
from advisor.ventchart import PRIOR_SD, holding, opening_for

OWN = OwnChart(points=(OwnPoint(dome_f=225, opening=0.04, log_sd=0.3), OwnPoint(dome_f=275, opening=0.09, log_sd=0.2),
                       OwnPoint(dome_f=350, opening=0.2, log_sd=0.3)), cooks=7, stretches=19)
LEAKY = CookerProfile(chart=OWN)


def test_without_a_chart_of_its_own_the_trade_counts(rulebook):
    trade = rulebook.catalogue.vent_chart
    found = holding(trade, CookerProfile(), 275)
    assert (found.opening, found.log_sd, found.cooks) == (opening_for(trade, 275), PRIOR_SD, 0)


def test_its_own_chart_goes_before_that_of_the_trade(rulebook):
    found = holding(rulebook.catalogue.vent_chart, LEAKY, 275)
    assert (found.opening, found.log_sd, found.cooks) == (0.09, pytest.approx(0.2), 7)


@pytest.mark.parametrize(("dome", "opening"), [(100, 0.04), (250, 0.06), (350, 0.2), (500, 0.2)])
def test_between_the_points_it_goes_by_ratios_and_beyond_them_it_stays(rulebook, dome, opening):
    assert holding(rulebook.catalogue.vent_chart, LEAKY, dome).opening == pytest.approx(opening)


@pytest.mark.parametrize("points", [((225, 0.1), (275, 0.05)), ((275, 0.05), (275, 0.1)), ((275, 0.05),)])
def test_a_chart_that_falls_or_stands_still_is_refused(points):
    with pytest.raises(ValidationError):
        OwnChart(points=tuple(OwnPoint(dome_f=dome, opening=top, log_sd=0.2) for dome, top in points), cooks=1)


def test_the_reply_is_set_by_it_and_says_that_it_was_learned(rulebook):
    situation = {"dome_f": 262, "target_f": 275, "bottom_vent": 1.0, "top_vent": 1.0, "trend": "rising", "lit_ago_min": 40}
    own, trade = (Conversation(rulebook, profile).reading(situation, 0) for profile in (LEAKY, None))
    tops = [[step.parameters["opening"] for step in reply.steps if step.parameters.get("vent") == "top"]
            for reply in (own, trade)]
    assert tops[0] and tops[1] and max(tops[0]) < min(tops[1])


def test_a_profile_file_gives_the_chart_back(tmp_path):
    from advisor.outlook.lore import save
    from advisor.profile import read_profile

    save(LEAKY, tmp_path / "leaky.yaml")
    assert read_profile(tmp_path / "leaky.yaml") == LEAKY


def test_why_cites_the_chart_and_the_cooks_it_rests_on(rulebook):
    situation = {"dome_f": 262, "target_f": 275, "bottom_vent": 1.0, "top_vent": 1.0, "trend": "rising", "lit_ago_min": 40}
    own, trade = Conversation(rulebook, LEAKY), Conversation(rulebook)
    reply = own.reading(situation, 0)
    used = {(used.fact, used.origin) for firing in reply.why for used in firing.used}
    assert any(fact.endswith("_top") and origin == "learned" for fact, origin in used)
    assert "holds 275 °F: 0.09 - open a crack, learned from 7 of your cooks" in own.say("why?", 0).text
    trade.reading(situation, 0)
    assert "of your cooks" not in trade.say("why?", 0).text
