"""Several real processes on one logbook at once: nothing is lost, nobody is turned away."""

import json
import multiprocessing
import subprocess
import sys

from advisor.logbook.opening import open_logbook

PROCESSES, ROUNDS = 4, 25


def writes(place, number, start, faults):
    """One process: opens the logbook, which may be made in that moment, and writes in it again and again."""
    try:
        start.wait()
        book = open_logbook(place)
        cook = book.begin_cook("shared", number)
        for round_ in range(ROUNDS):
            book.add_readings(cook, [(round_, "dome", float(number))], "measured")
            book.keep_profile("shared", {"number": number, "round": round_})
            assert len(book.readings(cook)) == round_ + 1
        book.close()
    except BaseException as error:  # noqa: BLE001  it is handed to the test, whatever it is
        faults.put(repr(error))


def test_they_open_and_write_at_once(place):
    context = multiprocessing.get_context("spawn")
    start, faults = context.Barrier(PROCESSES), context.Queue()
    processes = [context.Process(target=writes, args=(place, number, start, faults)) for number in range(PROCESSES)]
    for process in processes:
        process.start()
    for process in processes:
        process.join(60)
    assert [faults.get(timeout=1) for _ in range(0 if faults.empty() else 1)] == []
    book = open_logbook(place)
    assert [len(book.readings(cook.id)) for cook in book.cooks("shared")] == [ROUNDS] * PROCESSES
    assert [cooker.name for cooker in book.cookers()] == ["shared"]
    book.close()


def test_two_pipes_are_in_one_conversation(place):
    """Both send without waiting for each other; every line is answered, and each turn sees the one before."""
    lines = 12
    pipes = [subprocess.Popen([sys.executable, "-m", "advisor", "pipe", "--data", place], stdin=subprocess.PIPE,
                              stdout=subprocess.PIPE) for _ in range(2)]
    for number, pipe in enumerate(pipes):
        for n in range(lines):
            pipe.stdin.write(json.dumps({"reading": {"dome_f": 300 + n, "meat_f": 100 + 20 * number + n}}).encode() + b"\n")
        pipe.stdin.close()
    answers = [[json.loads(line) for line in pipe.stdout] for pipe in pipes]
    for pipe in pipes:
        pipe.stdout.close()
        assert pipe.wait(60) == 0
    assert [len(given) for given in answers] == [lines, lines]
    assert not [answer for given in answers for answer in given if "error" in answer or "Not kept" in answer["text"]]
    book = open_logbook(place)
    with book.reading() as page:
        talk = page.open_talk()
        turns = page.turns(talk.id)
    assert (talk.version, [turn.n for turn in turns]) == (2 * lines, list(range(1, 2 * lines + 1)))
    assert [turn.at_ms for turn in turns] == sorted(turn.at_ms for turn in turns)
    assert len(book.cooks()) == 1
    assert sorted(turn.content["reading"]["meat_f"] for turn in turns) == sorted(
        100 + 20 * number + n for number in range(2) for n in range(lines))
    book.close()
