"""Another program, ready to talk."""

import pytest
from outside import Program

from advisor.conversation import Conversation
from advisor.profile import CookerProfile


@pytest.fixture
def program(conversation) -> Program:
    return Program(conversation)


@pytest.fixture
def program_with(rulebook):
    """program_with(bottom_travel_in=...) -> a program that talks about a cooker with that profile."""
    return lambda **profile: Program(Conversation(rulebook, CookerProfile(**profile)))
