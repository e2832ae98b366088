"""Plays the invented cook of tests/data/cook_talk.yaml into a logbook: `python tests/report/demo.py FOLDER` also reports on it."""

import sys
from datetime import datetime
from pathlib import Path

from advisor.clock import SetClock
from advisor.conversation import Conversation
from advisor.logbook.opening import Logbook, open_logbook
from advisor.rulebook.loader import read_rulebook
from advisor.session import Session
from advisor.yamlfile import read_yaml

TALK = Path(__file__).parent.parent / "data" / "cook_talk.yaml"


def play(logbook: Logbook, conversation: Conversation) -> None:
    """The whole cook, turn by turn."""
    talk = read_yaml(TALK)
    start = datetime.fromisoformat(str(talk["started"])).timestamp() / 60
    clock = SetClock(start)
    session = Session(conversation, logbook, clock)
    for turn in talk["turns"]:
        clock.set(start + turn["at"])
        for kind in ("say", "note", "finish"):
            if kind in turn:
                getattr(session, kind)(turn[kind])


def main(folder: str) -> int:
    from advisor.terminal.commandline import run

    logbook = open_logbook(folder)
    play(logbook, Conversation(read_rulebook()))
    logbook.close()
    return run(["report", "--data", folder, "--html", f"{folder}/cook.html", "--png", f"{folder}/cook.png"])


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
