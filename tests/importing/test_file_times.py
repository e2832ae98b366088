"""Times in every form a logger may write them."""

from datetime import UTC, datetime

import pytest

from advisor.importing.refusals import FileRefused, Undecided

HALF_PAST = "2026-11-24 18:30:00"


def file_of(times: list[str], header: str = "Time,Pit °F") -> str:
    return "\n".join([header, *(f'"{time}",{250 + at % 3}' for at, time in enumerate(times))])


@pytest.mark.parametrize("times", [
    ["2026-11-24T18:30:00Z", "2026-11-24T18:31:00Z"],
    ["2026-11-24T19:30:00+01:00", "2026-11-24T19:31:00+01:00"],
    ["2026-11-24 13:30:00-0500", "2026-11-24 13:31:00-0500"],
    ["2026-11-24 18:30", "2026-11-24 18:31"],
    ["2026/11/24 18:30:00.000", "2026/11/24 18:31:00.000"],
    ["24.11.2026 18:30", "24.11.2026 18:31"],
    ["24.11.26, 18:30:00", "24.11.26, 18:31:00"],
    ["24.11.2026 kl. 18:30", "24.11.2026 kl. 18:31"],
    ["24/11/2026 18:30", "24/11/2026 18:31"],
    ["11/24/2026 6:30 PM", "11/24/2026 6:31 PM"],
    ["11/24/26 6:30:00 pm", "11/24/26 6:31:00 pm"],
    ["24 Nov 2026 18:30", "24 Nov 2026 18:31"],
    ["Nov 24, 2026 6:30 PM", "Nov 24, 2026 6:31 PM"],
    ["Di., 24. November 2026 18:30", "Di., 24. November 2026 18:31"],
    ["1795545000", "1795545060"],
    ["1795545000.5", "1795545060.5"],
    ["1795545000000", "1795545060000"],
    ["1795545000000000", "1795545060000000"],
    ["46350.7708333333", "46350.7715277778"],
])
def test_a_moment_written_in_any_form(first, times):
    assert first(file_of(times))[0] == HALF_PAST


@pytest.mark.parametrize(("times", "header", "said"), [
    (["18:30", "18:31"], "Time,Pit °F", {"start": "2026-11-24"}),
    (["6:30:00 PM", "6:31:00 PM"], "Time,Pit °F", {"start": "2026-11-24"}),
    (["0:00:00", "0:01:00"], "Time,Pit °F", {"start": "2026-11-24 18:30"}),
    (["0:00", "0:01"], "Elapsed,Pit °F", {"start": "2026-11-24 18:30"}),
    (["0", "60"], "Seconds,Pit °F", {"start": "2026-11-24 18:30"}),
    (["0", "1"], "t (min),Pit °F", {"start": "2026-11-24 18:30"}),
    (["0", "1"], "t,Pit °F", {"start": "2026-11-24 18:30", "times": "minutes"}),
])
def test_times_that_count_from_a_start(read, first, times, header, said):
    assert first(file_of(times, header), **said)[0] == HALF_PAST
    found = read(file_of(times, header), **said)[1].by_probe["dome"].at_ms
    assert found[1] - found[0] == 60_000


def test_a_night_runs_over_midnight(read):
    times = read(file_of(["23:58", "23:59", "00:00", "00:01"]), start="2026-11-20")[1].by_probe["dome"].at_ms
    assert [(at - times[0]) // 60_000 for at in times] == [0, 1, 2, 3]


def test_date_and_time_in_two_columns(first):
    text = "Datum;Uhrzeit;Deckel °C\n24.11.2026;18:30;121,5\n24.11.2026;18:31;122,0"
    assert first(text) == (HALF_PAST, 250.7)


def test_days_and_months_are_told_apart_by_what_makes_sense(first):
    over_midnight = ["03/11/2026 23:59", "04/11/2026 00:00", "04/11/2026 00:01"]
    assert first(file_of(over_midnight))[0] == "2026-11-03 23:59:00"
    months_first = ["11/03/2026 23:59", "11/04/2026 00:00", "11/04/2026 00:01"]
    assert first(file_of(months_first))[0] == "2026-11-03 23:59:00"
    in_the_future_otherwise = ["12/11/2026 18:30", "12/11/2026 18:31"]
    assert first(file_of(in_the_future_otherwise))[0] == "2026-11-12 18:30:00"


def test_a_date_that_is_truly_open_is_asked_for(read, first):
    open_file = file_of(["04/05/2026 18:30", "04/05/2026 18:31"])
    with pytest.raises(Undecided, match="--times day-first .* or --times month-first"):
        read(open_file)
    assert first(open_file, times="day-first")[0] == "2026-05-04 18:30:00"
    assert first(open_file, times="month-first")[0] == "2026-04-05 18:30:00"


@pytest.mark.parametrize(("times", "header", "option"), [
    (["18:30", "18:31"], "Time,Pit °F", "--start"), (["0:00:05", "0:00:10"], "Elapsed,Pit °F", "--start"),
    (["0", "1", "2"], "t,Pit °F", "--times")])
def test_what_the_times_leave_open_says_which_option_settles_it(read, times, header, option):
    with pytest.raises(Undecided, match=option):
        read(file_of(times, header))


def test_the_hour_that_comes_twice_goes_on(read):
    """Clocks in Berlin were put back from 3:00 to 2:00 on 25 October 2026."""
    times = [f"2026-10-25 02:{minute:02}" for minute in (0, 20, 40)] * 2
    found = read(file_of(times), zone="Europe/Berlin")[1].by_probe["dome"].at_ms
    assert [(at - found[0]) // 60_000 for at in found] == [0, 20, 40, 60, 80, 100]
    assert datetime.fromtimestamp(found[0] / 1000, UTC).hour == 0


def test_a_zone_that_does_not_exist_is_refused_with_a_near_one(read):
    with pytest.raises(FileRefused, match="Europe/Berlin"):
        read(file_of(["2026-11-24 18:30"]), zone="Europe/Berln")


@pytest.mark.parametrize("cell", ["2026-02-30 10:00", "2026-11-24 25:00", "2026-13-01 10:00", "soon", "", "2027-11-24 10:00",
                                  "1926-11-24 10:00"])
def test_a_time_that_cannot_be_costs_its_row(read, cell):
    good = [f"2026-11-24 18:{minute:02}" for minute in range(30)]
    found = read(file_of([*good, cell]))[1]
    assert len(found.by_probe["dome"]) == 30
    assert found.wrong.shown[0][0] == 32
