"""The slash commands: each of them by itself, and the one table they stand in."""

import shutil

import pytest

from advisor.clock import SetClock
from advisor.conversation import Conversation
from advisor.errors import CommandRefused
from advisor.rulebook.loader import read_rulebook, rules_folder
from advisor.session import Session
from advisor.terminal import answering, commands
from advisor.terminal.commands import COMMANDS
from advisor.terminal.talk import WHERE, Talk


@pytest.fixture
def talk(conversation):
    return Talk(Session(conversation, None, SetClock(day_minute=16 * 60)))


@pytest.fixture
def hot(talk):
    """A talk in which steps have been advised."""
    talk.say("im 100 over what now")
    return talk


def test_no_two_commands_share_a_word():
    assert len(commands.KNOWN) == 2 * len(COMMANDS)


def test_the_help_names_every_command(talk):
    page = commands.answer(talk, "/help")
    for command in COMMANDS:
        assert command.usage in page and command.alias in page and command.says in page
    assert commands.answer(talk, "/?") == page


@pytest.mark.parametrize("command", COMMANDS, ids=lambda command: command.name)
def test_every_command_answers_at_any_time(talk, command):
    for line in (command.name, f"{command.alias} 1", f"{command.name} \x00 nonsense 💥"):
        assert answering.answer(talk, line).strip()


def test_an_unknown_command_offers_the_nearest(talk):
    with pytest.raises(CommandRefused, match="did you mean /steps"):
        commands.answer(talk, "/stps")


def test_steps_shows_what_is_done(hot):
    first = hot.conversation.current.steps[0]
    assert f"{first.n}. {first.says}" in commands.answer(hot, "/steps")


def test_done_with_numbers_and_without(hot):
    before = hot.status().situation
    commands.answer(hot, "/done 1")
    assert hot.status().situation != before
    assert commands.answer(hot, "/done")
    with pytest.raises(CommandRefused, match="no step numbers"):
        commands.answer(hot, "/done the first")
    assert "no step 99" in answering.answer(hot, "/done 99")


def test_why_why_not_and_what_if_change_nothing(hot):
    before = hot.status()
    for line in ("/why", "/why-not burp the lid", "/what-if it hits 500"):
        assert answering.answer(hot, line) not in ("", before.text)
    assert hot.status().situation == before.situation
    for line in ("/why-not", "/what-if"):
        assert "write for instance" in answering.answer(hot, line)


def test_facts_says_what_is_known(hot):
    assert "100 °F" in commands.answer(hot, "/facts")


def test_cookers_come_and_go(talk):
    assert "one cooker" in commands.answer(talk, "/cookers")
    commands.answer(talk, "/cooker left")
    commands.answer(talk, "/cooker right")
    assert commands.answer(talk, "/cookers").splitlines() == ["left", "right (in hand)"]


def test_reset_forgets(hot):
    commands.answer(hot, "/reset")
    assert hot.status().situation == {}


def test_quit_says_so_and_ends(talk):
    assert commands.answer(talk, "/quit")
    assert talk.over


@pytest.fixture
def own_rules(tmp_path):
    """A talk over a copy of the rule base, and the copy."""
    folder = tmp_path / "rules"
    shutil.copytree(rules_folder(), folder)
    return Talk(Session(Conversation(read_rulebook(folder)), None, SetClock())), folder


def test_reload_takes_the_rules_as_they_are_now(own_rules):
    talk, folder = own_rules
    for rule in (folder / "teach").glob("*"):
        rule.unlink()
    left = len(read_rulebook(folder).rules)
    assert commands.answer(talk, "/reload") == f"The rules are read again: {left} of them."
    assert len(talk.conversation.rulebook.rules) == left


@pytest.mark.parametrize("fault", ["then: [", "id: nonsense\n", "\x00", "when: {dom_f: 3}\n"])
def test_reload_keeps_the_old_rules_when_the_new_ones_are_broken(own_rules, fault):
    talk, folder = own_rules
    talk.say("im 100 over what now")
    before, steps = talk.conversation.rulebook, talk.conversation.current.steps
    broken = next((folder / "recover").glob("*[!s].yaml"))
    broken.write_text(fault)
    says = commands.answer(talk, "/reload")
    assert says.startswith("The rules stay as they were: ") and broken.name in says and "\n" not in says
    assert talk.conversation.rulebook is before and talk.conversation.current.steps == steps


def test_reload_of_a_folder_that_went_away(own_rules):
    talk, folder = own_rules
    shutil.rmtree(folder)
    assert commands.answer(talk, "/reload").startswith("The rules stay as they were: ")
    assert talk.say("im 100 over").steps


@pytest.mark.parametrize(("line", "command"), [("board", "/board"), (" Steps ", "/steps"), ("?", "/help"), ("now", "/now"),
                                               ("/ board", "/board"), ("//board", "/board"), ("/BOARD", "/board")])
def test_a_command_is_known_without_its_slash_too(hot, line, command):
    assert answering.answer(hot, line) == answering.answer(hot, command)


@pytest.mark.parametrize("word", ["quit", "exit", "Quit."])
def test_who_wants_to_leave_may_leave(talk, word):
    assert "Mind the ash." in answering.answer(talk, word) and talk.over


def test_words_that_mean_something_at_a_fire_are_no_commands(hot):
    """A cry for help is one, and nothing that forgets is done by a bare word."""
    assert "/help" not in answering.answer(hot, "help")
    answering.answer(hot, "reset")
    assert hot.conversation.current.steps


@pytest.mark.parametrize("undo", ["/undo", "undo"])
def test_what_another_till_told_last_is_not_taken_back_unawares(rulebook, logbook, undo):
    here, there = (Talk(Session(Conversation(rulebook), logbook, SetClock(29e6))) for _ in range(2))
    answering.answer(here, "dome 350, want 250")
    answering.answer(there, "bottom half open")
    said = answering.answer(here, undo)
    assert "another till" in said and "bottom_vent" in here.conversation.current.situation.facts
    answering.answer(here, undo)
    assert "bottom_vent" not in here.conversation.current.situation.facts
    answering.answer(here, "bottom half open")
    answering.answer(here, undo)
    assert "bottom_vent" not in here.conversation.current.situation.facts, "one's own words go at once"


def test_enter_alone_asks_where_things_stand_whatever_other_words_do(hot):
    assert WHERE in hot.conversation.rulebook.catalogue.where_words
    assert answering.answer(hot, "") == answering.answer(hot, "/now") and "In hand" in answering.answer(hot, "")
