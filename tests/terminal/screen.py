"""A terminal of a given size with `drafthand` in it, driven by keys and read as text: tmux does the pretending."""

import os
import re
import shutil
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).parent.parent.parent
TMUX = shutil.which("tmux")
PATIENCE_S = 20.0
LOOK_EVERY_S = 0.1


class Screen:
    """One terminal on a tmux server of its own, with one talk in it. folder: of its logbook and of what was typed."""

    def __init__(self, folder: Path, columns: int = 80, lines: int = 30, rate: float = 60.0, settings: str = "",
                 **environment: str) -> None:
        self._sockets, self._opened = Path(tempfile.mkdtemp(prefix="fire")), 0  # a socket's path must be short
        self._started_min = time.time() / 60
        file = folder / "settings.yaml"
        file.write_text(settings)
        self._environment = {
            "HOME": str(folder), "XDG_DATA_HOME": str(folder / "data"), "PYTHONPATH": str(ROOT), "TERM": "screen-256color",
            "LANG": "C.UTF-8", "DRAFTHAND_SETTINGS": str(file), "DRAFTHAND_LOGBOOK": str(folder / "logbook"),
            "DRAFTHAND_CLOCK_RATE": f"{rate}@{self._started_min}"} | environment
        self._size = columns, lines

    def open(self) -> None:
        """Start the talk, or start it again."""
        columns, lines = self._size
        self._opened += 1  # a server that is just being left takes no new session
        kept = {key: os.environ[key] for key in ("PATH", "XDG_CACHE_HOME") if key in os.environ}
        command = f"trap : INT; {sys.executable} -m advisor; echo left with $?; exec sleep 600"
        self._tmux("new-session", "-d", "-s", "fire", "-x", str(columns), "-y", str(lines), "-c", str(ROOT),
                   "env", "-i", *(f"{key}={value}" for key, value in {**kept, **self._environment}.items()), "sh", "-c", command)
        self.wait_for(r"\S> ?")

    def close(self) -> None:
        self._tmux("kill-server", check=False)
        shutil.rmtree(self._sockets, ignore_errors=True)

    def type(self, text: str) -> None:
        self._tmux("send-keys", "-t", "fire", "-l", text)

    def press(self, *keys: str) -> None:
        self._tmux("send-keys", "-t", "fire", *keys)

    def enter(self, line: str) -> None:
        self.type(line)
        self.press("Enter")

    def resize(self, columns: int, lines: int) -> None:
        self._tmux("resize-window", "-t", "fire", "-x", str(columns), "-y", str(lines))

    def kill(self) -> None:
        """The process is gone at once, as when the battery falls out."""
        shell = self._tmux("display-message", "-p", "-t", "fire", "#{pane_pid}").strip()
        os.kill(int(Path(f"/proc/{shell}/task/{shell}/children").read_text().split()[0]), 9)
        self.wait_for("left with 137")
        self._tmux("kill-server", check=False)

    def shown(self) -> str:
        """What stands on the screen now, with what has scrolled off it."""
        return self._tmux("capture-pane", "-p", "-t", "fire", "-S", "-2000", "-J").rstrip()

    def lines(self) -> list[str]:
        """The lines on the screen itself, as they are broken."""
        return self._tmux("capture-pane", "-p", "-t", "fire").rstrip("\n").split("\n")

    def wait_for(self, pattern: str) -> re.Match[str]:
        """Until the pattern stands on the screen, however the lines are broken. Fails with what stands there instead."""
        until = time.monotonic() + PATIENCE_S
        while time.monotonic() < until:
            if found := re.search(pattern, " ".join(self.shown().split())):
                return found
            time.sleep(LOOK_EVERY_S)
        raise AssertionError(f"{pattern!r} never came up on:\n{self.shown()}")

    def bar(self) -> str:
        """The line at the bottom."""
        return next((line for line in reversed(self.lines()) if line.strip()), "")

    def wait_for_bar(self, pattern: str) -> re.Match[str]:
        """Until the line at the bottom is like that."""
        until = time.monotonic() + PATIENCE_S
        while time.monotonic() < until:
            if found := re.match(pattern, self.bar()):
                return found
            time.sleep(LOOK_EVERY_S)
        raise AssertionError(f"{pattern!r} never stood at the bottom of:\n{self.shown()}")

    def _tmux(self, *words: str, check: bool = True) -> str:
        done = subprocess.run([TMUX or "tmux", "-S", str(self._sockets / str(self._opened)), "-f", "/dev/null", *words], capture_output=True, text=True,
                              timeout=10, check=False)
        assert not check or done.returncode == 0, (words, done.stderr)
        return done.stdout
