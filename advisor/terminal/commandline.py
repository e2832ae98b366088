"""From the words of a call to one of the commands in `calls`, and from what goes wrong to one sentence and a status."""

import argparse
import importlib
from typing import NoReturn

from advisor import __version__
from advisor.errors import CommandRefused, DrafthandError
from advisor.terminal import door
from advisor.terminal.calls import CALLS, CHAT, Call
from advisor.terminal.faults import unforeseen
from advisor.terminal.startup import without_collecting

DONE, FAILED, WORDS_OFF = 0, 1, 2


def run(words: list[str]) -> int:
    """Run one call and give its exit status. Never raises, whatever happens inside."""
    try:
        return _run(words)
    except _HelpShown:
        return DONE
    except CommandRefused as error:
        return _failed(str(error), WORDS_OFF)
    except DrafthandError as error:
        return _failed(str(error), FAILED)
    except KeyboardInterrupt:
        return _failed("stopped from the keyboard", FAILED)
    except Exception as error:  # noqa: BLE001  the last line of defence: people get a sentence
        return _failed(unforeseen(error), FAILED)


def _failed(sentence: str, status: int) -> int:
    door.complain(sentence)
    return status


def _run(words: list[str]) -> int:
    if words and words[0] in ("-h", "--help", "help"):
        door.say(help_page())
        return DONE
    if words and words[0] == "--version":
        door.say(f"drafthand {__version__}")
        return DONE
    call, rest = _call(words)
    asked = _parser(call).parse_intermixed_args(rest)
    module, function = call.runs.split(":")
    with without_collecting():
        runs = getattr(importlib.import_module(module), function)
    return runs(asked)


def _call(words: list[str]) -> tuple[Call, list[str]]:
    """The command meant; without a name of one it is the chat."""
    if not words or words[0].startswith("-"):
        return CHAT, words
    if call := CALLS.get(words[0]):
        return call, words[1:]
    if " " in words[0]:
        raise CommandRefused("these words name no command", "", 'to ask something, call drafthand ask "your words"')
    from advisor.suggestions import did_you_mean
    raise CommandRefused(f"there is no command {words[0][:40]!r}", "", did_you_mean(words[0], CALLS))


def help_page() -> str:
    """The page of `drafthand --help`, made from the table of commands."""
    width = max(len(call.usage) for call in (CHAT, *CALLS.values()))
    lines = [f"  {call.usage:<{width}}  {call.says}" for call in (CHAT, *CALLS.values())]
    return "\n".join(["drafthand: tell it what your charcoal cooker is doing, and it tells you what to do.", "",
                      *lines, "", "Options may stand before or after the words. drafthand COMMAND --help says more.",
                      "drafthand --version names the version."])


class _Parser(argparse.ArgumentParser):
    """Complains with our own error instead of printing usage and leaving."""

    def error(self, message: str) -> NoReturn:
        raise CommandRefused(message, "", f"{self.prog} --help shows how it is called")

    def print_help(self, file: object = None) -> None:
        door.say(self.format_help().rstrip())

    def exit(self, status: int = 0, message: str | None = None) -> NoReturn:
        raise _HelpShown


class _HelpShown(Exception):
    """`--help` has been answered."""


def _parser(call: Call) -> _Parser:
    parser = _Parser(prog=f"drafthand {call.name}".strip(), description=call.says, allow_abbrev=False)
    for names, settings in call.arguments:
        parser.add_argument(*names, **settings)
    return parser
