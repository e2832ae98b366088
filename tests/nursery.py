"""Processes of `drafthand` that can be killed by the hundred: each is forked from one that has loaded everything already.

A forked process is as real as another: it opens the logbook itself, is killed by SIGKILL and leaves what it leaves. Only
the loading of libraries and rules, half a second that touches no logbook, is not done again.
"""

import multiprocessing
import os
import subprocess
import sys
from functools import cache
from multiprocessing import forkserver
from multiprocessing.connection import Connection
from pathlib import Path
from typing import BinaryIO

ROOT = Path(__file__).resolve().parent.parent


class Cold:
    """`python -m advisor WORDS`, from the very start."""

    def __init__(self, words: list[str]) -> None:
        self._process = subprocess.Popen([sys.executable, "-m", "advisor", *words], cwd=ROOT, stdin=subprocess.PIPE,
                                         stdout=subprocess.PIPE)
        self.stdin: BinaryIO = self._process.stdin
        self.stdout: BinaryIO = self._process.stdout

    def kill(self) -> None:
        self._process.kill()

    def wait(self) -> int:
        """The exit status, below zero where a signal ended it."""
        return self._process.wait()


class Forked:
    """The same command in a process forked from the one that `warmed` names."""

    def __init__(self, words: list[str]) -> None:
        (reads, tells), (hears, writes) = (_nursery().Pipe(duplex=False) for _ in range(2))
        self._process = _nursery().Process(target=_run, args=(words, reads, writes), daemon=True)
        self._process.start()
        reads.close()
        writes.close()
        self.stdin, self.stdout = (os.fdopen(os.dup(end.fileno()), mode) for end, mode in ((tells, "wb"), (hears, "rb")))
        tells.close()
        hears.close()

    def kill(self) -> None:
        self._process.kill()

    def wait(self) -> int:
        self._process.join()
        return self._process.exitcode


@cache
def _nursery() -> multiprocessing.context.BaseContext:
    """It finds nothing but through PYTHONPATH, and would say nothing of what it did not find."""
    nursery = multiprocessing.get_context("forkserver")
    nursery.set_forkserver_preload(["nursery_warm"])
    before = os.environ.get("PYTHONPATH")
    os.environ["PYTHONPATH"] = os.pathsep.join((str(ROOT / "tests"), str(ROOT)))
    forkserver.ensure_running()
    os.environ.pop("PYTHONPATH") if before is None else os.environ.update(PYTHONPATH=before)
    return nursery


def _run(words: list[str], reads: Connection, writes: Connection) -> None:
    """In the new process: our ends become standard input and output, and the command runs as it would from a shell."""
    from advisor.terminal import commandline

    os.dup2(reads.fileno(), 0)
    os.dup2(writes.fileno(), 1)
    reads.close()
    writes.close()
    sys.stdin, sys.stdout = os.fdopen(0, "r", closefd=False), os.fdopen(1, "w", closefd=False)
    sys.exit(commandline.run(words))
