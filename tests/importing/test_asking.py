"""What is asked at a terminal: the person's answers through prompt_toolkit's own input."""

import pytest
from prompt_toolkit.application import create_app_session
from prompt_toolkit.input import create_pipe_input
from prompt_toolkit.output import DummyOutput

from advisor.importing.recipe import Wishes
from advisor.importing.refusals import FileRefused, Wrong
from advisor.importing.shapes import shape_of
from advisor.importing.table import rows
from advisor.terminal import importing

NOW_MS = 1_795_600_000_000


@pytest.fixture
def agree(tmp_path, words, monkeypatch):
    """agree(text, typed) -> the recipe agreed on, and what was said."""
    said: list[str] = []
    monkeypatch.setattr(importing.door, "is_terminal", lambda stream: True)
    monkeypatch.setattr(importing.door, "say", said.append)

    def run(text: str, typed: str):
        path = tmp_path / "cook.csv"
        path.write_text(text)
        shape = shape_of(path)
        sample = [cells for _, cells in rows(path, shape, Wrong())]
        with create_pipe_input() as keys, create_app_session(input=keys, output=DummyOutput()):
            keys.send_text(typed)
            return importing.agreed(importing.Source("cook.csv", shape, sample, len(sample)), words, Wishes(), NOW_MS), said

    return run


def test_enter_takes_what_was_guessed(agree):
    recipe, said = agree("Time,Pit\n2026-11-24 18:30,250\n", "\n")
    assert recipe.columns.probes == {"dome": 1} and '"Pit"' in said[0]


def test_what_is_open_is_asked_until_it_is_settled(agree):
    recipe, said = agree("Time,Pit\n04/05/2026 18:30,165\n", "sideways\nday-first\nkelvin\nC\n\n")
    assert recipe.form.kind == "day-first" and recipe.units["dome"].unit == "C"
    assert any("no unit" in line for line in said) and any("sideways" in line for line in said)


def test_a_guess_is_put_right(agree):
    recipe, _ = agree("Time,Pit,Probe 2\n2026-11-24 18:30,250,251\n", "grate=Nothing\ngrate=Probe 2\nunits=C\n\n")
    assert recipe.columns.probes == {"grate": 2} and recipe.units["grate"].unit == "C"


def test_questions_and_refusals_are_broken_to_a_narrow_screen(agree, monkeypatch):
    monkeypatch.setattr(importing, "columns", lambda: 40)
    _, said = agree("Time,Pit\n04/05/2026 18:30,165\n", "sideways\nday-first\nkelvin\nC\ndome=Nothing\n\n")
    assert max(len(line) for text in said for line in text.splitlines()) <= 40


@pytest.mark.parametrize("typed", ["no\n", "\x04"])
def test_no_stops_it(agree, typed):
    with pytest.raises(FileRefused, match="nothing was kept"):
        agree("Time,Pit\n2026-11-24 18:30,250\n", typed)
