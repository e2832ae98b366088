"""A pipe that is killed loses nothing that it answered. tests/benchmarks/kill_logbook.py does it five hundred times."""

from killing import talks
from killing_imports import imports


def test_killed_again_and_again_it_goes_on_as_if_nothing_had_been(rulebook, tmp_path):
    tally = talks(rulebook, tmp_path, seed=11, kills=13)
    assert tally.broken == []
    assert tally.kills == 13


def test_an_import_killed_is_completed_by_the_next(tmp_path):
    tally = imports(tmp_path, seed=5, kills=2)
    assert tally.broken == [] and tally.kills == 2
