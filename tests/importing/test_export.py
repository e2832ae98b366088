"""What is exported comes back as it was, whatever was kept of a cook."""

import json
import subprocess
import sys

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from advisor.importing.export import FIELDS, exported, iso
from advisor.importing.gathering import gather
from advisor.importing.recipe import BOUNDS, Wishes, make_recipe, sampled
from advisor.importing.refusals import Wrong
from advisor.importing.shapes import shape_of
from advisor.importing.table import rows
from advisor.logbook.opening import open_logbook
from advisor.logbook.records import Advice

START, NOW_MS = 1_795_000_000_000, 1_795_600_000_000
WORDS = st.text(max_size=40)
ROWS = st.lists(st.sampled_from(sorted(BOUNDS)).flatmap(lambda probe: st.tuples(
    st.integers(0, 5 * 3_600_000), st.just(probe), st.floats(*BOUNDS[probe]))), min_size=1, max_size=30,
    unique_by=lambda row: row[:2])


def written(tmp_path, kept, notes, form):
    """A logbook with one cook, as exported text."""
    book = open_logbook(tmp_path / "book")
    number = book.begin_cook("", START, 275.0)
    book.add_readings(number, [(START + at, probe, value) for at, probe, value in kept], "measured")
    book.add_moves(number, [(START, "top", 0.25, None), (START + 60_000, "bottom", 0.5, 1.0)])
    book.add_lids(number, [START + 5])
    with book.writing() as entry:
        for at, words in enumerate(notes):
            entry.add_note(number, START + at, words)
        entry.add_advice(number, Advice(START, "1. Shut it.\nWait.", [{"n": 1, "act": "wait", "probe": "dome"}], [], None))
    with book.reading() as reader:
        text = "".join(exported(reader, reader.cooks(), form))
    book.close()
    return text


def came_back(path, words):
    shape = shape_of(path)
    sample, _ = sampled(rows(path, shape, Wrong()))
    recipe = make_recipe(shape.names, sample, words, Wishes(), NOW_MS)
    found = gather(rows(path, shape, Wrong()), recipe, Wrong(), NOW_MS)
    return {(at, probe, value) for probe, readings in found.by_probe.items()
            for at, value in zip(readings.at_ms, readings.value_f, strict=True)}


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(kept=ROWS, notes=st.lists(WORDS, max_size=4), form=st.sampled_from(["csv", "json"]))
def test_readings_come_back_as_they_were(tmp_path_factory, words, kept, notes, form):
    folder = tmp_path_factory.mktemp("export")
    path = folder / "cook.csv"
    path.write_text(written(folder, kept, notes, form), encoding="utf-8", newline="")
    assert came_back(path, words) == {(START + at, probe, value) for at, probe, value in kept}


def test_everything_kept_of_a_cook_is_in_it(tmp_path):
    lines = [json.loads(line) for line in written(tmp_path, [(0, "dome", 250.0)], ["hot\nday"], "json").splitlines()]
    assert [line["kind"] for line in lines] == ["reading", "move", "advice", "note", "target", "lid", "move"]
    assert all(set(FIELDS) <= set(line) for line in lines)
    assert lines[2]["steps"] == [{"n": 1, "act": "wait", "probe": "dome"}] and lines[3]["words"] == "hot\nday"


@pytest.mark.parametrize(("at_ms", "said"), [(0, "1970-01-01T00:00:00.000Z"), (1_795_000_000_007, "2026-11-18T11:06:40.007Z")])
def test_moments_keep_their_milliseconds(at_ms, said):
    assert iso(at_ms) == said


@pytest.fixture
def call(tmp_path):
    def run(*words):
        done = subprocess.run([sys.executable, "-m", "advisor", *words, "--data", str(tmp_path / "book")],
                              capture_output=True, text=True, timeout=60, check=False)
        return done.returncode, done.stdout, done.stderr

    return run


def test_the_commands(call, tmp_path):
    assert call("cooks")[1] == "The logbook holds no cook yet.\n"
    assert "holds no cook yet" in call("export")[2]
    csv = written(tmp_path, [(0, "dome", 250.5)], [], "csv")
    assert call("export")[1] == csv
    assert call("export", "--cook", "1", "--csv")[1] == csv
    assert "no cook 7" in call("export", "--cook", "7")[2]
    out = tmp_path / "out.csv"
    assert call("export", "--all", "--out", str(out))[0] == 0 and out.read_text() == csv
    assert "cannot be written" in call("export", "--out", str(tmp_path / "no" / "where"))[2]
    assert call("export", "--all", "--cook", "1")[0] == 2
    assert "275 °F" in call("cooks")[1] and "going on" in call("cooks")[1]
