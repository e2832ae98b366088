"""Whatever is said in whatever order, what holds for every reply holds (see outside.py), and nothing is lost."""

from hypothesis import given, settings
from hypothesis import strategies as st
from outside import Program, dangers

from advisor.conversation import Conversation

SAID = ["im 100 over", "dome 400, want 250", "now 310", "275", "want 110 C", "its rising", "falling now", "done", "all done",
        "did 1 and 2", "can't do that", "no idea", "yes", "no", "thanks", "why", "why not burp it", "what if it hits 500",
        "what if the lid is opened", "both vents shut", "opened the top a crack", "top half open", "bottom vent 1 inch",
        "lid is open", "closed the lid", "flames out of the top", "flames are gone", "the grease is on fire",
        "grease fire is out", "fire is out", "its lit again", "white smoke", "thin blue smoke", "yellow smoke, stings",
        "black smoke", "threw a chunk of wood on", "painted wood in it", "brisket is on", "took the food off",
        "in the garage", "rolled it outside", "i have a headache", "headache is gone", "its windy", "burned my hand",
        "water on it?", "number two is at 350, want 250", "number two has a grease fire", "number one is fine",
        "no I meant 250 not 350", "no, 300", "who won the game", "", "🔥", "asdf", "what now", "hello", "no I meant half",
        "is it safe to open the lid", "how do i put it out", "adding charcoal", "kids are near it", "gasket leaks"]
WORDS = st.sampled_from(SAID).map(lambda words: {"say": words})
READINGS = st.fixed_dictionaries({"dome_f": st.floats(60, 900), "target_f": st.floats(200, 700)}).map(
    lambda figures: {"reading": figures})
DONE = st.lists(st.integers(1, 4), min_size=1, max_size=2).map(lambda numbers: {"done": numbers})
LINES = st.lists(st.tuples(WORDS | WORDS | WORDS | READINGS | DONE | st.just({"cooker": "1"}), st.floats(0, 30)), max_size=10)


@settings(max_examples=150, deadline=None)
@given(lines=LINES)
def test_what_holds_for_every_reply_holds_in_any_talk(rulebook, lines):
    program, minute = Program(Conversation(rulebook)), 0.0
    for line, passed in lines:
        minute += passed
        program.send(**line, at_min=minute)


@settings(max_examples=80, deadline=None)
@given(lines=LINES, words=st.sampled_from(["thanks", "why", "why not open the lid", "who won the game", "", "what if it rises"]))
def test_what_asks_and_chats_changes_nothing_in_any_situation(rulebook, lines, words):
    program = Program(Conversation(rulebook))
    for line, _ in lines:
        program.send(**line, at_min=0)
    before = program.say("what now", 0)
    after = program.say(words, 0)
    assert (after["situation"], after["steps"], after["food"]) == (before["situation"], before["steps"], before["food"])
    assert dangers(before) <= dangers(after)
