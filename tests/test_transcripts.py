"""The demo conversations, played again; and the notation itself: what holds, what is malformed, what accepting does."""

import re
import textwrap
from pathlib import Path

import pytest

from advisor.errors import TranscriptError
from advisor.transcripts.accept import accept
from advisor.transcripts.format import pairs, parse, read_page
from advisor.transcripts.replay import play, replies

DEMOS = Path(__file__).parent.parent / "transcripts_demo"
PAGES = sorted(DEMOS.glob("*.md"))


@pytest.mark.parametrize("path", PAGES, ids=lambda path: path.stem)
def test_a_demo_comes_out_as_it_is_written(path, rulebook):
    played = play(read_page(path), rulebook)
    assert played.as_written, played.difference()


@pytest.mark.parametrize("path", PAGES, ids=lambda path: path.stem)
def test_a_demo_pins_something_on_every_turn(path):
    assert all(turn.pins for turn in read_page(path).turns)


def test_there_are_demos():
    assert len(PAGES) >= 3


def page(session, path="page.md"):
    return parse("# A page\n\nProse.\n\n```watch\n" + textwrap.dedent(session).strip("\n") + "\n```\n", path)


def difference(session, rulebook):
    return play(page(session), rulebook).difference()


HOT = "16:05  cook     im 100 over what now\n"


# -- what holds and what does not -------------------------------------------------------------------------------------

@pytest.mark.parametrize("pin", [
    "heard    over_f 100",
    "thinks   far-over, at least 0.5",
    "step 1   set_vent\n       step 2   set_vent\n       step 3   burp_lid",
    "danger   open-a-crack-first",
    "look     in 5 minutes",
    "words    *SHUT the bottom vent*",
    "also     nothing",
    "note     nothing",
])
def test_a_pin_that_holds(pin, rulebook):
    played = play(page(HOT + f"       {pin}"), rulebook)
    unchanged = [now for now, was in zip(played.pins[0], played.page.turns[0].pins) if now == was]
    assert len(unchanged) == len(played.page.turns[0].pins)


@pytest.mark.parametrize(("pin", "instead"), [
    ("heard    over_f 90", "heard    over_f 100"),
    ("heard    over_f 100, flames true", "heard    over_f 100"),
    ("heard    nothing", "heard    over_f 100"),
    ("thinks   far-over, at least 1.1", "thinks   far-over, at least 0."),
    ("thinks   gasket-leak, at least 0.2", "thinks   nothing"),
    ("rule     recover/nothing-like-it", "rule     recover/"),
    ("step     nothing", "step 1   set_vent: "),
    ("step 1   set_vent: vent bottom, opening 0.5", "step 1   set_vent: vent bottom, opening 0"),
    ("step 1   burp_lid", "step 1   set_vent: "),
    ("step 1   set_vent: vent bottom, times 3", "step 1   set_vent: "),
    ("danger   nothing", "danger   open-a-crack-first"),
    ("asks     meat_kind", "asks     "),
    ("look     never", "look     in 5 minutes"),
    ("words    *add charcoal*", "words    (none like *add charcoal* in: "),
    ("refused  *no such*", "refused  nothing"),
])
def test_a_pin_that_does_not_hold_shows_what_came(pin, instead, rulebook):
    shown = difference(HOT + f"       {pin}", rulebook).splitlines()
    assert f"-       {pin}" in shown
    assert any(line.startswith(f"+       {instead}") for line in shown)


def test_a_turn_without_pins_shows_all_there_is_to_pin(rulebook):
    shown = difference(HOT, rulebook)
    for kind in ("heard", "thinks", "rule", "step 1", "danger", "look"):
        assert f"\n+       {kind}" in shown


def test_all_ways_in_are_turns(rulebook):
    session = """
        23:50  turn     left
               heard    nothing
        23:55  gauge    dome_f 350, target_f 250, flames false
               heard    dome_f 350, target_f 250, flames false
        00:05  did      1
               heard    nothing
        00:06  gauge    dome_f 5000
               refused  dome_f was given as 5000*
        00:07  did      99
               refused  there is no step 99*
    """
    played = play(page(session), rulebook)
    assert played.as_written, played.difference()
    assert [turn.minute for turn in played.page.turns] == [0, 5, 15, 16, 17]


def test_the_clock_of_the_page_is_the_clock_of_the_talk(rulebook):
    session = "16:00  gauge    lit_ago_min 10\n16:35  cook     dome 250"
    (_, _), (_, reply) = replies(page(session), rulebook)
    assert reply.situation["lit_ago_min"] == 45


def test_the_same_page_gives_the_same_twice(rulebook):
    session = HOT + "16:20  cook     now 320 and falling, want 250\n16:21  cook     why"
    assert play(page(session), rulebook).pins == play(page(session), rulebook).pins


# -- malformed pages --------------------------------------------------------------------------------------------------

@pytest.mark.parametrize(("session", "line", "says"), [
    ("16:05  cok     im 100 over", 6, "did you mean cook"),
    (HOT + "       hearrd   over_f 100", 7, "did you mean heard"),
    (HOT + "       heard", 7, "pins nothing"),
    (HOT + "\n       heard    over_f 100", 8, "hangs on no turn"),
    ("       heard    over_f 100", 6, "hangs on no turn"),
    ("im 100 over", 6, "neither a turn nor a pin"),
    (HOT + "16:04  cook     x", 7, "lies before"),
    ("25:00  cook     x", 6, "no time of day"),
])
def test_a_malformed_page_is_reported_with_its_line(session, line, says):
    text = "# A page\n\nProse.\n\n```watch\n" + session + "\n```\n"
    with pytest.raises(TranscriptError) as error:
        parse(text, "page.md")
    assert str(error.value).startswith(f"page.md:{line}: ") and says in str(error.value)


def test_a_session_that_is_never_closed_and_a_page_without_one():
    with pytest.raises(TranscriptError, match="never closed"):
        parse("```watch\n" + HOT, "page.md")
    with pytest.raises(TranscriptError, match="no turn on this page"):
        parse("# Prose\n\n```sh\nls\n```\n", "page.md")


@pytest.mark.parametrize(("turn", "says"), [("16:00  gauge    hot", "are no figures"), ("16:00  did      all", "no step"),
                                            ("16:00  did", "says nothing"), ("16:00  turn", "says nothing")])
def test_a_turn_that_makes_no_sense_is_reported_with_its_line(turn, says, rulebook):
    with pytest.raises(TranscriptError, match=rf"^page.md:6: .*{says}"):
        play(page(turn), rulebook)


def test_a_page_that_is_not_there_or_no_text(tmp_path):
    with pytest.raises(TranscriptError, match="cannot be read"):
        read_page(tmp_path / "none.md")
    (tmp_path / "binary.md").write_bytes(b"\xff\xfe")
    with pytest.raises(TranscriptError, match="no text in UTF-8"):
        read_page(tmp_path / "binary.md")


def test_facts_as_a_page_writes_them():
    assert pairs('dome_f 310, flames true, food "pork, two butts", smoke thin_blue') == {
        "dome_f": 310.0, "flames": True, "food": "pork, two butts", "smoke": "thin_blue"}
    assert pairs("hot, and what") is None


# -- accepting --------------------------------------------------------------------------------------------------------

@pytest.fixture
def written(tmp_path):
    """written(session) -> the path of a page with it."""

    def write(session):
        path = tmp_path / "page.md"
        path.write_text(f"# Kept\n\nProse stays.\n\n```watch\n{session}```\n\nAnd this too.\n", encoding="utf-8")
        return path

    return write


def test_accepting_makes_a_page_hold_and_keeps_the_rest(written, rulebook):
    path = written(HOT + "       heard    over_f 90\n\n16:06  cook     why\n       words    *you said*\n")
    assert "+       heard    over_f 100" in accept(path, rulebook)
    text = path.read_text()
    assert "       heard    over_f 100\n\n16:06  cook     why\n       words    *you said*\n```\n\nAnd this too.\n" in text
    assert play(read_page(path), rulebook).as_written
    assert accept(path, rulebook) == ""


def test_accepting_fills_in_a_page_that_pins_nothing(written, rulebook):
    path = written(HOT)
    accept(path, rulebook)
    assert re.search(r"^       step 1   set_vent: vent ", path.read_text(), re.MULTILINE)
    assert play(read_page(path), rulebook).as_written


def test_wording_that_is_lost_is_never_accepted(written, rulebook):
    path = written(HOT + "       words    *add charcoal*\n")
    before = path.read_text()
    with pytest.raises(TranscriptError, match=r"page.md:7: nothing like '\*add charcoal\*' is said any more"):
        accept(path, rulebook)
    assert path.read_text() == before
