"""What was learned of a cooker: kept in its profile file, used for its forecasts, told in words."""

import numpy as np
import pytest

from advisor.conversation import Conversation
from advisor.errors import ProfileError
from advisor.outlook.lore import LEARNED_VERSION, learn_into, learned_of, lore, save
from advisor.profile import CookerProfile, read_profile
from advisor.thermal.known import Reading, VentMove
from advisor.thermal.learn import VERSION, Cook, Learned
from advisor.thermal.population import draw_z, kind_ranges


def profile_with(**shifts):
    """A profile whose learned members lie so many standard deviations off the middle, for parameters by name."""
    z = 0.2 * draw_z("large", 96, np.random.default_rng(2))
    for name, shift in shifts.items():
        z[list(kind_ranges("large")).index(name)] += shift
    return CookerProfile(learned=Learned("large", z, 3).to_data())


@pytest.fixture
def told(rulebook):
    return lambda profile: " ".join(lore(profile, rulebook.catalogue.phrases))


def test_nothing_is_told_before_anything_was_learned(told):
    assert told(CookerProfile()) == ""


def test_a_leaky_cooker_is_called_leaky_and_needs_less_top_vent(told):
    text = told(profile_with(leak=2.2))
    assert "leaks more than most" in text and "less open than most" in text


def test_a_tight_one_is_called_tight(told):
    assert "tighter than most" in told(profile_with(leak=-2.2))


def test_nothing_is_said_of_the_dial(told):
    """In cooks on invented cookers what was learned of it hardly went with the truth (correlation 0.2 after three)."""
    assert "thermometer" not in told(profile_with(gauge_offset=2.2))


def test_two_cooks_are_too_few(told):
    profile = profile_with(leak=2.2)
    assert told(profile.model_copy(update={"learned": {**profile.learned, "cooks": 2}})) == ""


def test_it_is_kept_in_the_profile_file(tmp_path):
    save(profile_with(leak=1.0), tmp_path / "mine.yaml")
    found = read_profile(tmp_path / "mine.yaml")
    assert learned_of(found).cooks == 3


def test_one_more_cook_is_one_more_cook():
    cook = Cook("large", tuple(Reading(m, 250.0) for m in (40, 60, 80, 100)), (VentMove(20, bottom=0.25, top=0.15),))
    assert learned_of(learn_into(CookerProfile(), cook)).cooks == 1


def test_a_block_that_lacks_something_is_refused():
    data = profile_with().learned
    with pytest.raises(ProfileError, match="version"):
        learned_of(CookerProfile(learned={**data, "version": 99}))


def test_a_learned_cooker_marks_its_numbers_as_learned(rulebook):
    conversation = Conversation(rulebook, profile_with(leak=2.0), forecasts=True)
    reply = conversation.say("dome 320, want 275, bottom an inch, top half open, lit it 3 hours ago, steady", 0)
    chosen = {used.origin for firing in reply.why for used in firing.used if used.fact == "aim_top"}
    assert chosen <= {"learned"} and reply.steps


def test_the_version_is_that_of_the_learning():
    assert LEARNED_VERSION == VERSION
