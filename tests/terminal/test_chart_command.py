"""`drafthand chart` as a person calls it: a table for forty columns, data, pictures, and what it refuses."""

import json

import pytest

from advisor.logbook.opening import open_logbook

MINUTE, START = 60_000, 1_764_000_000_000


@pytest.fixture
def data(tmp_path):
    """A logbook with two cooks of one cooker, each at rest for hours at 275 °F under a top vent of an eighth."""
    book = open_logbook(tmp_path / "book")
    for day in range(2):
        start = START + day * 86_400_000
        number = book.begin_cook("porch", start, 275.0)
        book.add_moves(number, [(start, "bottom", 0.25, None), (start, "top", 0.12, None)])
        book.add_readings(number, [(start + at * MINUTE, "dome", 275.0) for at in range(0, 240, 10)], "said")
        book.end_cook(number, start + 240 * MINUTE)
    book.close()
    return tmp_path / "book"


def test_the_table_fits_in_forty_columns(drafthand, data):
    status, output, errors = drafthand("chart", "--data", str(data), COLUMNS="40")
    assert (status, errors) == (0, "")
    assert max(map(len, output.splitlines())) <= 40
    row = next(line for line in output.splitlines() if line.startswith("275 °F"))
    assert "eighth" in row or "crack" in row
    assert "It rests on 2 cooks" in " ".join(output.split())


def test_lengths_on_request(drafthand, data):
    output = drafthand("chart", "--data", str(data), "--inches", COLUMNS="40")[1]
    assert " in " in next(line for line in output.splitlines() if line.startswith("275 °F"))
    assert max(map(len, output.splitlines())) <= 40


def test_as_data(drafthand, data):
    found = json.loads(drafthand("chart", "--data", str(data), "--json")[1])
    assert (found["cooker"], found["cooks"], len(found["stretches"])) == ("porch", 2, 2)
    middle = next(point for point in found["points"] if point["dome_f"] == 275.0)
    assert middle["low"] < middle["opening"] < middle["high"] and 0.08 < middle["opening"] < 0.15


@pytest.mark.parametrize(("option", "begins"), [("--png", b"\x89PNG"), ("--svg", b"<?xml")])
def test_as_a_picture(drafthand, data, tmp_path, option, begins):
    file = tmp_path / f"chart.{option[2:]}"
    status, output, errors = drafthand("chart", "--data", str(data), option, str(file))
    assert (status, errors) == (0, "") and str(file) in output
    assert file.read_bytes().startswith(begins)


def test_an_empty_logbook_shows_what_trade_and_physics_say(drafthand, tmp_path):
    status, output, _ = drafthand("chart", "--data", str(tmp_path / "new"))
    assert status == 0 and "No cook of this cooker" in output


def test_an_unknown_cooker_and_an_unclear_one_are_refused(drafthand, data):
    status, _, errors = drafthand("chart", "--data", str(data), "--cooker", "balcony")
    assert status == 2 and "balcony" in errors and "porch" in errors
    book = open_logbook(data)
    book.end_cook(book.begin_cook("garden", START), START + MINUTE)
    book.close()
    assert drafthand("chart", "--data", str(data))[0] == 2
    assert drafthand("chart", "--data", str(data), "--cooker", "Porch")[0] == 0


def test_a_picture_of_another_kind_is_refused(drafthand, data, tmp_path):
    status, _, errors = drafthand("chart", "--data", str(data), "--png", str(tmp_path / "chart.bmp"))
    assert status == 1 and ".png nor .svg" in errors
