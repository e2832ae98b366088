"""A file that grows, is cut short, or is changed for another."""

import os

import pytest

from advisor.watching.following import Follower, Lines, WatchRefused


@pytest.fixture
def file(tmp_path):
    path = tmp_path / "log.csv"
    path.write_text("Time,Dome\n1,250\n")
    return path


def test_half_a_line_is_waited_for(file):
    follower = Follower(file)
    assert follower.poll() == ["Time,Dome", "1,250"]
    with file.open("a") as end:
        end.write("2,2")
        end.flush()
        assert follower.poll() == []
        end.write("51\r\n3,25")
    assert follower.poll() == ["2,251"]
    follower.close()


def test_a_file_cut_short_is_read_anew(file):
    follower = Follower(file)
    follower.poll()
    file.write_text("9,9\n")
    assert (follower.poll(), follower.started_anew) == (["9,9"], True)
    follower.close()


def test_the_rest_of_a_file_is_read_before_the_one_in_its_place(file, tmp_path):
    follower = Follower(file)
    follower.poll()
    with file.open("a") as end:
        end.write("2,251\n")
    os.rename(file, tmp_path / "log.1")
    file.write_text("Time,Dome\n3,252\n")
    assert (follower.poll(), follower.started_anew) == (["2,251"], False)
    assert (follower.poll(), follower.started_anew) == (["Time,Dome", "3,252"], True)
    follower.close()


def test_a_file_that_is_gone_for_a_while(file):
    follower = Follower(file)
    follower.poll()
    file.unlink()
    assert follower.poll() == []
    file.write_text("1,2\n")
    assert follower.poll() == ["1,2"]
    follower.close()


def test_no_file_is_refused(tmp_path):
    with pytest.raises(WatchRefused):
        Follower(tmp_path / "nothing")


def test_endless_lines_and_bad_bytes_do_no_harm():
    lines = Lines()
    assert lines.add(b"x" * 100_000) == []
    assert lines.add(b"\n\xff\xfe,1\n") == ["", "\ufffd\ufffd,1"]
    assert lines.add(b"end") == [] and lines.end() == ["end"] and lines.end() == []
