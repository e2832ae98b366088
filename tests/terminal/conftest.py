"""What the tests of the terminal share: the command as a process of its own."""

import os
import subprocess
import sys

import pytest

UNSET = ("NO_COLOR", "COLUMNS", "DRAFTHAND_LOGBOOK", "DRAFTHAND_CLOCK_RATE")
NO_SETTINGS = {"DRAFTHAND_SETTINGS": "/nowhere/settings.yaml"}


def call(*words, stdin=b"", **environment):
    """`drafthand WORDS` in a process of its own, colour, width and settings unset: (status, output, error output)."""
    kept = {key: value for key, value in os.environ.items() if key not in UNSET} | NO_SETTINGS
    done = subprocess.run([sys.executable, "-m", "advisor", *words], input=stdin, capture_output=True, timeout=60,
                          env=kept | environment, check=False)
    return done.returncode, done.stdout.decode(), done.stderr.decode()


@pytest.fixture(scope="session")
def drafthand():
    return call
