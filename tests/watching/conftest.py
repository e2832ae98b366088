"""Invented domes for the watcher."""

import random
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from advisor.watching.watcher import Event, Watcher

sys.path.insert(0, str(Path(__file__).parent))  # cooks and judging, also used by tests/benchmarks/bench_watch.py


@pytest.fixture
def seen():
    """seen(dome as a function of the minute, minutes, ...) -> events; a reading every `every` minutes, noise and marks."""

    def watch(dome: Callable[[float], float], minutes: float, target_f: float | None = 250.0, every: float = 0.25,
              noise: float = 1.0, mark: float = 1.0, lost: float = 0.1, meat: Callable[[float], float] | None = None) -> list[Event]:
        dice, watcher, events = random.Random(1), Watcher(target_f), []
        for at in range(round(minutes / every)):
            minute = at * every
            values = {"dome": round((dome(minute) + dice.gauss(0, noise)) / mark) * mark} if dice.random() >= lost else {}
            if meat:
                values["meat"] = meat(minute)
            events += watcher.feed(minute, values)
        return events

    return watch


@pytest.fixture
def alarms(seen):
    """The alarms among them: (kind, minute)."""

    def watch(*args, **more) -> list[tuple[str, int]]:
        return [(event.seen.kind, round(event.at)) for event in seen(*args, **more) if event.what == "alarm"]

    return watch
