"""Which column is which, in which unit, whatever the file looks like."""

import pytest

from advisor.importing.columns import PROBES
from advisor.importing.recipe import BOUNDS
from advisor.importing.refusals import FileRefused, Undecided

MINUTES = range(40)


def table(header: str, row: str, join: str = "\n") -> str:
    """A file of forty minutes; `row` is filled with {t}, {fire} (a cooker), {cool} (rising meat)."""
    rows = [row.format(t=f"2026-11-24 18:{minute:02}", fire=250 + minute % 4, cool=60 + minute * 3, out=48 + minute % 2)
            for minute in MINUTES]
    return join.join([header, *rows] if header else rows)


def used(read, text, **said):
    recipe = read(text, **said)[0]
    return {probe: recipe.names[at] for probe, at in recipe.columns.probes.items()}


@pytest.mark.parametrize(("header", "row", "expected"), [
    ("Time,Dome,Grate,Meat,Ambient", "{t},{fire},{fire},{cool},{out}",
     {"dome": "Dome", "grate": "Grate", "meat": "Meat", "ambient": "Ambient"}),
    ("Zeit;Garraum °F;Kerntemperatur °F", "{t};{fire};{cool}", {"dome": "Garraum °F", "meat": "Kerntemperatur °F"}),
    ("Horodatage;Température four;Cœur;Extérieur", "{t};{fire};{cool};{out}",
     {"dome": "Température four", "meat": "Cœur", "ambient": "Extérieur"}),
    ("fecha y hora\tHorno\tCarne", "{t}\t{fire}\t{cool}", {"dome": "Horno", "meat": "Carne"}),
    ("ts|PitTemp_F|foodProbe_F|fan", "{t}|{fire}|{cool}|20", {"dome": "PitTemp_F", "meat": "foodProbe_F"}),
    ("Time,Probe 1,Probe 2", "{t},{cool},{fire}", {"dome": "Probe 2", "meat": "Probe 1"}),
    ("Time,T1,T2,T3", "{t},{fire},{cool},{out}", {"dome": "T1", "meat": "T2", "ambient": "T3"}),
    ("Time,Ambient,Meat", "{t},{fire},{cool}", {"grate": "Ambient", "meat": "Meat"}),
    ("Time,Pit,Meat,Batteri,Rain", "{t},{fire},{cool},3.9,0.5", {"dome": "Pit", "meat": "Meat"}),
    ("", "{t},{fire},{cool}", {"dome": "column 2", "meat": "column 3"}),
    ("Time,temp", "{t},{fire}", {"dome": "temp"}),
])
def test_columns_are_known_by_name_and_by_what_they_hold(read, header, row, expected):
    assert used(read, table(header, row)) == expected


def test_the_person_knows_better(read):
    text = table("Time,Probe 1,Probe 2", "{t},{fire},{cool}")
    assert used(read, text, columns="dome=Probe 2") == {"dome": "Probe 2"}
    assert used(read, text, columns="grate=2,meat=3") == {"grate": "Probe 1", "meat": "Probe 2"}


@pytest.mark.parametrize(("said", "remedy"), [("dome=Prob 2", "Probe 2"), ("doom=Probe 2", "dome"), ("Probe 2", "dome=NAME")])
def test_a_column_that_is_not_there_is_refused_with_a_near_one(read, said, remedy):
    with pytest.raises(FileRefused, match=remedy):
        read(table("Time,Probe 1,Probe 2", "{t},{fire},{cool}"), columns=said)


def test_a_set_temperature_is_the_target_and_no_probe(read):
    recipe, found = read(table("Time,Set temp,Pit", "{t},275,{fire}"))
    assert set(recipe.columns.probes) == {"dome"}
    assert found.target_f == 275


@pytest.mark.parametrize("text", [
    '{{"time": "{t}Z", "dome": {fire}, "meat": {cool}}}',
    '{{"time": "{t}Z", "probes": {{"pit": {fire}, "food": {cool}}}, "battery": 81, "note": null}}',
])
def test_lines_of_json(read, text):
    found = read(table("", text))[1]
    assert set(found.by_probe) == {"dome", "meat"} and len(found.by_probe["dome"]) == len(MINUTES)


def test_one_json_list(read):
    found = read("[" + table("", '{{"time": "{t}", "dome": {fire}}}', ",\n") + "]")[1]
    assert len(found.by_probe["dome"]) == len(MINUTES)


def test_one_reading_a_line(read):
    rows = [f"2026-11-24 18:{m:02},{'Pit' if m % 2 else 'Food'},{250 if m % 2 else 70 + m},F" for m in MINUTES]
    found = read("\n".join(["Time,Sensor,Value,Unit", *rows]))[1]
    assert {probe: len(found.by_probe[probe]) for probe in found.by_probe} == {"dome": 20, "meat": 20}


@pytest.mark.parametrize(("text", "expected"), [
    ("Time;Pit °C\n2026-11-24 18:30;121,5", 250.7), ("Time;Pit (C)\n2026-11-24 18:30;121.5", 250.7),
    ("Time,Pit\n2026-11-24 18:30,121.5 °C", 250.7), ('Time,pit_c\n2026-11-24 18:30,"121,5"', 250.7),
    ("Time;Pit °F\n2026-11-24 18:30;1.001,5", 1001.5), ("Time,Pit_F\n2026-11-24 18:30,250.5F", 250.5),
    ("Time,Pit,Unit\n2026-11-24 18:30,121.5,C", 250.7),
])
def test_units_are_read_where_they_are_written(first, text, expected):
    assert first(text)[1] == expected


@pytest.mark.parametrize(("fire", "unit"), [((110, 120, 125), "C"), ((20, 160, 175), "C"), ((250, 260, 255), "F")])
def test_units_are_guessed_from_the_figures(read, fire, unit):
    text = "Time,Pit\n" + "\n".join(f"2026-11-24 18:{at:02},{figure}" for at, figure in enumerate(fire))
    assert read(text)[0].units["dome"].unit == unit


def test_meat_past_boiling_is_in_fahrenheit(read):
    text = "Time,Pit,Meat\n" + "\n".join(f"2026-11-24 18:{m:02},165,{120 + m}" for m in MINUTES)
    assert read(text)[0].units["dome"].unit == "F"


def test_a_unit_that_is_truly_open_is_asked_for(read, first):
    text = "Time,Pit\n2026-11-24 18:30,165\n2026-11-24 18:31,166"
    with pytest.raises(Undecided, match="--units F .* or --units C"):
        read(text)
    assert first(text, units="c")[1] == 329


@pytest.mark.parametrize("content", [
    table("Time,Dome", "{t},{fire}").encode("utf-8-sig"), table("Time,Dome °C", "{t},120").encode("utf-16"),
    table("Time;Außen;Dome °C", "{t};8;120").encode("cp1252"), table("Time,Dome", "{t},{fire}").replace("\n", "\r\n").encode(),
    ("Logger 7\nSerial;44\n\n" + table("Time;Dome °C;Note", '{t};121,5;"two\nlines"')).encode(),
])
def test_encodings_and_lines_before_the_header(read, content):
    assert len(read(content)[1].by_probe["dome"]) == len(MINUTES)


@pytest.mark.parametrize(("cell", "why"), [
    ("ERR!", "no number"), ("99999", "beyond"), ("12x", "no number")])
def test_a_wrong_cell_costs_only_itself(read, cell, why):
    text = table("Time,Dome,Meat", "{t},{fire},{cool}") + f"\n2026-11-24 18:50,{cell},180"
    found = read(text)[1]
    assert (len(found.by_probe["dome"]), len(found.by_probe["meat"])) == (40, 41)
    assert found.wrong.count == 1 and why in found.wrong.shown[0][1] and found.wrong.shown[0][0] == 42


@pytest.mark.parametrize("cell", ["", "--", "N/A", "nan", "OFF", "null"])
def test_no_reading_is_no_fault(read, cell):
    found = read(table("Time,Dome", "{t},{fire}") + f"\n2026-11-24 18:50,{cell}")[1]
    assert (len(found.by_probe["dome"]), found.wrong.count) == (40, 0)


def test_a_quote_left_open_costs_one_line(read):
    text = table("Time,Dome", "{t},{fire}").replace("18:07,253", '18:07,"253')
    found = read(text)[1]
    assert len(found.by_probe["dome"]) == 39 and found.wrong.shown == [(9, "a quote is opened and not closed")]


def test_only_the_first_twenty_faults_are_told(read):
    found = read(table("Time,Dome", "{t},{fire}") + "\n2026-11-24 18:50,bad" * 30)[1]
    assert (found.wrong.count, len(found.wrong.shown)) == (30, 20)


@pytest.mark.parametrize("content", ["", "\n\n", b"\x00\x01\x02", "Time,Dome\n", "a,b\nx,y\n", "hello"])
def test_files_without_readings_are_refused(read, content):
    with pytest.raises(FileRefused):
        read(content)


def test_bounds_are_those_of_the_vocabulary(rulebook):
    for probe in ("dome", "grate", "meat"):
        assert rulebook.vocabulary[f"{probe}_f"].bounds == BOUNDS[probe]
    assert set(BOUNDS) == set(PROBES)
