"""The commands of `drafthand` as a table: what each is called with and where it runs. Help and README follow it."""

from dataclasses import dataclass
from typing import Any

Argument = tuple[tuple[str, ...], dict[str, Any]]

COOKER: Argument = (("--cooker",), {"metavar": "FILE", "help": "a cooker profile (YAML)"})


@dataclass(frozen=True, slots=True)
class Call:
    """runs: "module:function", imported only when it is called; the function takes the parsed words, gives a status."""

    name: str
    usage: str
    says: str
    runs: str
    arguments: tuple[Argument, ...] = ()


CHAT = Call("", "drafthand", "talk with it, line by line", "advisor.terminal.chat:run", (COOKER,))

_CALLS = (
    Call("ask", 'drafthand ask "WORDS"', "one answer to one message", "advisor.terminal.ask:run", (
        (("words",), {"nargs": "+", "metavar": "WORDS", "help": "what the cooker is doing, in your own words"}),
        (("--json",), {"action": "store_true", "help": "the whole reply as JSON"}),
        COOKER)),
    Call("pipe", "drafthand pipe", "one conversation for another program, JSON line by line",
         "advisor.terminal.pipe:run", (COOKER,)),
    Call("schema", "drafthand schema", "the JSON Schema of situation, reply and the lines of pipe",
         "advisor.terminal.schema:run"),
    Call("rules", "drafthand rules check|test|map", "lint the rule base, run its cases, draw it",
         "advisor.terminal.rules:run", (
             (("task",), {"choices": ("check", "test", "map"), "help": "check: lint; test: run all cases; map: draw"}),
             (("--rules",), {"metavar": "FOLDER", "help": "another rule base"}),
             (("--html",), {"metavar": "FILE", "help": "with map: write a page instead"}))),
    Call("replay", "drafthand replay [FILES]", "play demo conversations again and compare",
         "advisor.terminal.replay:run", ((("files",), {"nargs": "*", "metavar": "FILES", "help": "pages to play"}),)),
    Call("accept", "drafthand accept FILE", "rewrite what a demo conversation expects, on purpose",
         "advisor.terminal.replay:run_accept", ((("file",), {"metavar": "FILE", "help": "the page to rewrite"}),)),
    Call("plan", 'drafthand plan "WORDS"', "plan a cook (not built yet)", "advisor.terminal.plan:run", (
        (("words",), {"nargs": "*", "metavar": "WORDS", "help": "what is to be cooked"}),
        (("--json",), {"action": "store_true", "help": "the whole plan as JSON"}))),
)

CALLS = {call.name: call for call in _CALLS}
