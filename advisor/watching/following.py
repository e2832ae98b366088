"""A file that grows, line by line: half a last line is waited for; a file cut short or changed for a new one is read anew."""

import os
from pathlib import Path
from typing import BinaryIO

from advisor.errors import DrafthandError

MOST_AT_ONCE = 4 << 20     # bytes read at a time
LONGEST_LINE = 1 << 16     # a longer one is let go by


class WatchRefused(DrafthandError):
    """Something that cannot be watched."""


class Lines:
    """Bytes as they come in to whole lines."""

    def __init__(self) -> None:
        self._rest = b""

    def add(self, data: bytes) -> list[str]:
        *whole, rest = (self._rest + data).split(b"\n")
        self._rest = rest if len(rest) <= LONGEST_LINE else b""
        return [line.decode("utf-8-sig", "replace").rstrip("\r") for line in whole if len(line) <= LONGEST_LINE]

    def end(self) -> list[str]:
        """What is left when nothing more can come."""
        rest, self._rest = self._rest, b""
        return [rest.decode("utf-8-sig", "replace").rstrip("\r")] if rest.strip() else []


class Follower:
    """started_anew: whether the last lines come from the beginning of a file that took the place of the one before."""

    def __init__(self, path: Path) -> None:
        self._path = path
        self._file: BinaryIO | None = None
        self._lines = Lines()
        self.started_anew = False
        self._open()
        if self._file is None:
            raise WatchRefused(f"{path} cannot be read", "there is nothing to watch", "name the file the thermometer writes")

    def poll(self) -> list[str]:
        """The whole lines that have come since the last call; [] for none. Never raises for a file that is gone for now."""
        self.started_anew = False
        lines = self._read()
        if lines or not self._changed():
            return lines
        self._open()
        self.started_anew = True
        return self._read()

    def close(self) -> None:
        if self._file:
            self._file.close()

    def _read(self) -> list[str]:
        if self._file is None:
            return []
        try:
            if os.fstat(self._file.fileno()).st_size < self._file.tell():
                return []
            return self._lines.add(self._file.read(MOST_AT_ONCE))
        except OSError:
            return []

    def _changed(self) -> bool:
        """Whether another file lies there now, or this one has become shorter."""
        try:
            there = os.stat(self._path)
            if self._file is None:
                return True
            here = os.fstat(self._file.fileno())
            return (there.st_dev, there.st_ino) != (here.st_dev, here.st_ino) or there.st_size < self._file.tell()
        except OSError:
            return False

    def _open(self) -> None:
        self.close()
        self._lines = Lines()
        try:
            self._file = self._path.open("rb", buffering=0)
        except OSError:
            self._file = None
