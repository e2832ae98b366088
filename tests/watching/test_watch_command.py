"""`drafthand watch` as a process of its own, on files and on standard input."""

import json
import os
import signal
import subprocess
import sys
import time

import pytest

from advisor.logbook.opening import open_logbook

HEADER = "Time,Dome °F,Meat °F\n"


def rows(start_ms: float, domes: list[float], every_s: float = 30.0) -> str:
    return "".join(f"{start_ms / 1000 + at * every_s:.1f},{dome},{120 + at / 10:.1f}\n" for at, dome in enumerate(domes))


def climbing(minutes: int = 60) -> list[float]:
    """250 for an hour, then up by a degree and a half a minute."""
    return [250.0 + at % 2 for at in range(120)] + [250.0 + 0.75 * at for at in range(minutes * 2)]


LONG_AGO_MS = 1_795_000_000_000.0


@pytest.fixture
def watch(tmp_path):
    def run(content: str, *words: str, stdin: bool = False):
        path = tmp_path / "log.csv"
        path.write_text(content)
        called = [sys.executable, "-m", "advisor", "watch", "-" if stdin else str(path), "--data", str(tmp_path / "book"), *words]
        done = subprocess.run(called, input=content if stdin else "", capture_output=True, text=True, timeout=120, check=False,
                              env={key: value for key, value in os.environ.items() if key != "COLUMNS"})
        return done.returncode, done.stdout, done.stderr

    return run


@pytest.mark.parametrize("stdin", [True, False])
def test_it_speaks_up_before_the_dome_is_out_and_says_what_to_do(watch, stdin):
    status, said, wrong = watch(HEADER + rows(LONG_AGO_MS, climbing()), "--target", "250", *([] if stdin else ["--once"]),
                                stdin=stdin)
    assert (status, wrong) == (0, "")
    first = said.split("\n\n")[1]
    assert "climbs" in first and "25 °F over the target of 250 °F in about" in first and "\n1. " in first


CELSIUS = "Time,Dome °C\n" + "".join(f"{LONG_AGO_MS / 1000 + at * 30:.0f},{(dome - 32) / 1.8:.1f}\n"
                                        for at, dome in enumerate(climbing()))


def test_it_speaks_in_the_scale_of_the_thermometer_unless_told_otherwise(watch, tmp_path, monkeypatch):
    said = watch(CELSIUS, "--once")[1]
    assert "°C over" in said and "°F" not in said
    said = watch(CELSIUS, "--once", "--target", "250F")[1]
    assert "target of 250 °F" in said and "°C" not in said.partition("\n\n")[2]
    (tmp_path / "mine.yaml").write_text("temperature: fahrenheit\n")
    monkeypatch.setenv("DRAFTHAND_SETTINGS", str(tmp_path / "mine.yaml"))
    said = watch(CELSIUS, "--once", "--target", "121C")[1]
    assert "target of 250 °F" in said


def test_rows_that_cannot_be_used_are_told_with_their_line_in_the_end(watch):
    broken = HEADER + rows(LONG_AGO_MS, [250.0] * 20) + "lost the probe\n" + rows(LONG_AGO_MS + 600_000, [250.0] * 20)
    status, said, wrong = watch(broken, "--target", "250", "--once")
    assert status == 0 and "line 22" in wrong and "'lost the probe' is no" in wrong and "lost" not in said


def test_dangers_stand_before_the_steps(watch):
    far = [250.0] * 60 + [250.0 + 3.0 * at for at in range(60)]
    blocks = watch(HEADER + rows(LONG_AGO_MS, far), "--target", "250", "--once")[1].split("\n\n")
    alarms = [block for block in blocks if "DANGER" in block]
    assert alarms and all(block.index("DANGER") < block.index("\n1. ") for block in alarms)


def test_a_steady_cook_and_a_lid_say_nothing(watch):
    quiet = [250.0 + at % 3 for at in range(200)]
    quiet[100:106] = [200.0, 190.0, 195.0, 220.0, 240.0, 249.0]
    said = watch(HEADER + rows(LONG_AGO_MS, quiet), "--target", "250", "--once")[1]
    assert len(said.strip().split("\n\n")) == 1
    events = watch(HEADER + rows(LONG_AGO_MS, quiet), "--target", "250", "--once", "--json")[1].splitlines()
    assert [json.loads(line)["what"] for line in events] == ["lid_opened", "lid_closed"]


def test_json_carries_the_sighting_and_the_whole_reply(watch):
    lines = watch(HEADER + rows(LONG_AGO_MS, climbing()), "--target", "121C", "--once", "--json")[1].splitlines()
    first = json.loads(lines[0])
    assert (first["what"], first["of"], first["seen"]) == ("alarm", "hot", "overshoot")
    assert first["reply"]["situation"]["dome_f"] > 255 and first["reply"]["steps"] and first["at_ms"] > LONG_AGO_MS


def test_a_fire_that_burns_now_is_talked_of_in_the_kept_talk(watch, tmp_path):
    start = time.time() * 1000 - 75 * 60_000
    status, said, _ = watch(HEADER + rows(start, climbing(14)), "--target", "250", "--once", "--cooker", "blue")
    assert status == 0 and "your talk in the logbook" in said and "climbs" in said
    book = open_logbook(tmp_path / "book")
    [cook] = book.cooks()
    assert (cook.cooker, cook.target_f) == ("blue", 250.0) and book.advice(cook.id)
    book.close()


def test_what_went_wrong_long_before_is_told_in_a_line(watch):
    domes = [250.0] * 120 + [250.0 + min(60.0, at) for at in range(120)] + [250.0] * 240
    start = time.time() * 1000 - len(domes) * 30_000
    said = watch(HEADER + rows(start, domes), "--target", "250", "--once")[1]
    assert "earlier, " in said and "\n1. " not in said


def test_times_of_day_numbers_alone_and_json_lines(watch):
    clock = "".join(f"{10 + at // 120:02}:{at // 2 % 60:02}:{at % 2 * 30:02};{dome}\n" for at, dome in enumerate(climbing()))
    assert "climbs" in watch("Zeit;Deckel °F\n" + clock, "--target", "250", "--once")[1]
    lines = "".join(json.dumps({"ts": LONG_AGO_MS / 1000 + 30 * at, "t": {"dome_f": dome}}) + "\n" for at, dome in enumerate(climbing()))
    assert "climbs" in watch(lines, "--target", "250", stdin=True)[1]
    assert watch("250\n251\n", "--units", "F", "--columns", "dome=1", stdin=True)[0] == 0


@pytest.mark.parametrize(("content", "words", "status", "wrong"), [
    ("Time,Dome\n1,2\n", ("--target", "hot"), 2, "no temperature"), ("", (), 0, ""),
    ("a,b\n" + "x,y\n" * 30, (), 1, "no line that came"),
    ("Time,Dome\n18:30,165\n", (), 1, "--units")])
def test_what_cannot_be_watched_is_one_sentence(watch, content, words, status, wrong):
    found = watch(content, *words, "--once")
    assert found[0] == status and wrong in found[2] and found[2].count("\n") <= 1


def test_it_follows_what_grows_through_a_rotation_until_ctrl_c(tmp_path):
    path, start = tmp_path / "log.csv", LONG_AGO_MS
    path.write_text(HEADER + rows(start, [250.0] * 120))
    with subprocess.Popen([sys.executable, "-m", "advisor", "watch", str(path), "--target", "250"], stdout=subprocess.PIPE,
                          stderr=subprocess.PIPE, text=True) as run:
        assert "time:" in run.stdout.readline()
        path.rename(tmp_path / "log.1")
        climb = rows(start + 120 * 30_000, [250.0 + 0.75 * at for at in range(40)])
        path.write_text(HEADER + climb[:-7])
        time.sleep(1.5)
        with path.open("a") as end:
            end.write(climb[-7:])
        while "climbs" not in run.stdout.readline():
            assert run.poll() is None
        run.send_signal(signal.SIGINT)
        _, wrong = run.communicate(timeout=20)
    assert (run.returncode, wrong) == (0, "")
