"""The commands of `drafthand` as a table: what each is called with and where it runs. Help and README follow it."""

from dataclasses import dataclass
from typing import Any

Argument = tuple[tuple[str, ...], dict[str, Any]]

COOKER: Argument = (("--cooker",), {"metavar": "FILE", "help": "a cooker profile (YAML)"})
DATA: Argument = (("--data",), {"metavar": "DIR", "help": "where the logbook is kept"})
ON_COOKER: Argument = (("--cooker",), {"metavar": "NAME", "help": "the cooker it was on"})
COLUMNS: Argument = (("--columns",), {"metavar": "ROLE=NAME,...", "action": "append",
                                      "help": "which column is time, dome, grate, meat, ambient or target"})
UNITS: Argument = (("--units",), {"metavar": "F|C", "help": "the unit of the temperatures"})
TARGET: Argument = (("--target",), {"metavar": "DEGREES", "help": "what the dome should read: 275, 275F or 135C"})
FILE_TIMES: tuple[Argument, ...] = (
    (("--zone",), {"metavar": "ZONE", "help": "where times without an offset hold, such as Europe/Berlin"}),
    (("--start",), {"metavar": "MOMENT", "help": "when the first reading was taken, where the file says times only"}),
    (("--times",), {"metavar": "FORM", "help": "day-first, month-first, of-day, seconds, minutes or hours"}))


@dataclass(frozen=True, slots=True)
class Call:
    """runs: "module:function", imported only when it is called; the function takes the parsed words, gives a status."""

    name: str
    usage: str
    says: str
    runs: str
    arguments: tuple[Argument, ...] = ()


CHAT = Call("", "drafthand", "talk with it, line by line", "advisor.terminal.chat:run", (COOKER, DATA))

_CALLS = (
    Call("ask", 'drafthand ask "WORDS"', "one answer to one message", "advisor.terminal.ask:run", (
        (("words",), {"nargs": "+", "metavar": "WORDS", "help": "what the cooker is doing, in your own words"}),
        (("--json",), {"action": "store_true", "help": "the whole reply as JSON"}),
        COOKER)),
    Call("pipe", "drafthand pipe", "one conversation for another program, JSON line by line",
         "advisor.terminal.pipe:run", (COOKER, DATA)),
    Call("settings", "drafthand settings", "your settings: where they lie, what each is and does",
         "advisor.terminal.settings:run", (
             (("--write",), {"action": "store_true", "help": "make a file in which each is explained"}),)),
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
    Call("import", "drafthand import FILE", "readings of a thermometer's file into the logbook",
         "advisor.terminal.importing:run", (
             (("file",), {"metavar": "FILE", "help": "CSV or JSON lines, as the thermometer wrote it"}),
             TARGET, ON_COOKER, COLUMNS, UNITS, *FILE_TIMES, DATA)),
    Call("watch", "drafthand watch FILE", "follow what a thermometer writes, and speak up when there is something to do",
         "advisor.terminal.watch:run", (
             (("file",), {"metavar": "FILE", "help": "the file that grows (CSV or JSON lines), or - for standard input"}),
             TARGET,
             (("--once",), {"action": "store_true", "help": "stop where the file ends now"}),
             (("--json",), {"action": "store_true", "help": "a line of JSON for everything that is seen"}),
             ON_COOKER, COLUMNS, UNITS, *FILE_TIMES, DATA)),
    Call("export", "drafthand export [N]", "everything kept of a cook, as CSV or JSON lines", "advisor.terminal.export:run", (
        (("number",), {"metavar": "N", "nargs": "?", "type": int, "help": "the number of the cook; otherwise the last one"}),
        (("--cook",), {"metavar": "N", "type": int, "help": "the same"}),
        (("--all",), {"action": "store_true", "help": "all cooks"}),
        (("--csv",), {"action": "store_true", "help": "as CSV, which it is anyway"}),
        (("--json",), {"action": "store_true", "help": "as JSON, a line for each thing that happened"}),
        (("--out",), {"metavar": "FILE", "help": "into a file"}), DATA)),
    Call("cooks", "drafthand cooks", "the cooks in the logbook, a line for each", "advisor.terminal.export:run_cooks", (DATA,)),
    Call("chart", "drafthand chart", "the vent chart of your own cooker, learned from its cooks",
         "advisor.terminal.chart:run", (
             (("--cooker",), {"metavar": "NAME", "help": "the cooker, where there are several"}),
             (("--inches",), {"action": "store_true", "help": "settings as lengths instead of fractions"}),
             (("--png",), {"metavar": "FILE", "help": "draw it for the screen"}),
             (("--svg",), {"metavar": "FILE", "help": "draw it for paper"}),
             (("--json",), {"action": "store_true", "help": "the chart and the stretches it rests on as JSON"}), DATA)),
    Call("report", "drafthand report [N]", "a finished cook as a page, a picture or a few lines", "advisor.terminal.report:run", (
        (("number",), {"metavar": "N", "nargs": "?", "type": int, "help": "the number of the cook; otherwise the last finished one"}),
        (("--cook",), {"metavar": "N", "type": int, "help": "the same"}),
        (("--html",), {"metavar": "FILE", "help": "write a page for phone, screen and paper"}),
        (("--png",), {"metavar": "FILE", "help": "write a picture"}),
        DATA)),
    Call("plan", 'drafthand plan "WORDS"', "plan a cook (not built yet)", "advisor.terminal.plan:run", (
        (("words",), {"nargs": "*", "metavar": "WORDS", "help": "what is to be cooked"}),
        (("--json",), {"action": "store_true", "help": "the whole plan as JSON"}))),
)

CALLS = {call.name: call for call in _CALLS}
