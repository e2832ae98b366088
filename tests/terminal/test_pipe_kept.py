"""`drafthand pipe --data`: the next call goes on with the conversation, and a disk that takes nothing does not end it."""

import json
import resource
import subprocess
import sys

from advisor.logbook.connecting import FILE


def piped(drafthand, folder, *lines):
    status, output, errors = drafthand("pipe", "--data", str(folder), stdin="\n".join(map(json.dumps, lines)).encode())
    assert (status, errors) == (0, "")
    return [json.loads(line) for line in output.splitlines()]


def test_the_next_call_goes_on(drafthand, tmp_path):
    told, = piped(drafthand, tmp_path, {"say": "im 100 over, want 250", "at_min": 30})
    refused, done = piped(drafthand, tmp_path, {"say": "dome 340", "at_min": 29}, {"done": [1], "at_min": 31})
    assert "at_min 29 lies before 30" in refused["error"]["says"]
    step = told["steps"][0]
    assert done["situation"]["target_f"] == 250 and done["situation"][f"{step['vent']}_vent"] == step["opening"]
    emptied, later = piped(drafthand, tmp_path, {"reset": True}, {"say": "hello", "at_min": 0})
    assert emptied["situation"] == later["situation"] == {}


def test_without_data_nothing_is_kept(drafthand, tmp_path, monkeypatch):
    for name in ("HOME", "XDG_DATA_HOME"):
        monkeypatch.setenv(name, str(tmp_path))
    line = b'{"say": "im 100 over, want 250", "at_min": 30}'
    assert drafthand("pipe", stdin=line)[1] == drafthand("pipe", stdin=line)[1]
    assert list(tmp_path.rglob(FILE)) == []


def test_a_damaged_logbook_is_one_sentence(drafthand, tmp_path):
    (tmp_path / FILE).write_bytes(b"no logbook " * 500)
    status, output, errors = drafthand("pipe", "--data", str(tmp_path), stdin=b'{"say": "dome 350"}')
    assert (status, output) == (1, "")
    assert errors == (f"drafthand: the logbook in {tmp_path} is damaged or no logbook at all, nothing can be kept in it; "
                      "choose another folder with --data, or put a copy back\n")


def test_a_folder_that_takes_nothing_is_said_and_done_without(drafthand, tmp_path):
    (tmp_path / "file").touch()
    first, second = piped(drafthand, tmp_path / "file" / "below", {"say": "dome 350, want 250", "at_min": 0},
                          {"say": "dome 340", "at_min": 5})
    assert first["text"].startswith("Nothing of this talk is kept: the folder ")
    assert second["situation"]["dome_f"] == 340 and "kept" not in second["text"]


def test_a_disk_that_fills_up_ends_nothing_and_spoils_nothing(drafthand, tmp_path):
    """No file of the process may grow beyond half a megabyte, as on a disk with no more room."""
    lines = [{"reading": {"dome_f": 350 - n, "target_f": 250}, "at_min": 2 * n} for n in range(30)]
    done = subprocess.run([sys.executable, "-m", "advisor", "pipe", "--data", str(tmp_path)], capture_output=True,
                          input="\n".join(map(json.dumps, lines)).encode(), check=True, timeout=60,
                          preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (500_000, 500_000)))
    texts = [json.loads(line)["text"] for line in done.stdout.splitlines()]
    said = [n for n, text in enumerate(texts) if text.startswith("Not kept for now: the logbook in ")]
    assert len(texts) == len(lines) and len(said) == 1 and done.stderr == b""
    after, = piped(drafthand, tmp_path, {"say": "what now", "at_min": 2 * said[0]})
    assert after["situation"]["dome_f"] == 350 - (said[0] - 1)
