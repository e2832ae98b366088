"""`drafthand chart`: the vent chart of one's own cooker, as a table, as data, as a picture."""

import argparse
import json
from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING

from advisor.errors import CommandRefused
from advisor.rulebook.catalogue import read_list
from advisor.rulebook.loader import rules_folder
from advisor.terminal import door
from advisor.terminal.books import open_book
from advisor.terminal.layout import columns, laid_out
from advisor.terminal.ready import settings
from advisor.units import UnitStyle, inches_to_cm
from advisor.vocabulary import read_vocabulary
from advisor.wording import Wording, opening

if TYPE_CHECKING:
    from advisor.logbook.opening import Logbook
    from advisor.ownchart.chart import Line
    from advisor.ownchart.upkeep import Kept

TABLE_F = (225.0, 400.0)  # from where to where a cook steers with the top vent


def run(call: argparse.Namespace) -> int:
    from advisor.ownchart.upkeep import bring_up_to_date

    folder = rules_folder()
    phrases, trade = read_list(folder, "phrases.yaml")["phrases"], read_list(folder, "vent-chart.yaml")["vent_chart"]
    logbook = open_book(call.data)
    cooker = named(logbook, call.cooker)
    kept = bring_up_to_date(logbook, cooker, trade, tell=tell)
    if call.json:
        door.send(json.dumps(as_data(kept, cooker, phrases), ensure_ascii=False))
        return 0
    for file in filter(None, (call.png, call.svg)):
        draw(kept, cooker, phrases, trade, Path(file))
        door.say(f"The picture of the chart is written to {file}.")
    if not (call.png or call.svg):
        units = settings().units.said(None)
        door.say(laid_out(table(kept, cooker, phrases, Wording(read_vocabulary(folder / "vocabulary.yaml"), units),
                                call.inches), columns(), {}))
    return 0


def named(logbook: "Logbook", said: str | None) -> str:
    """The cooker meant, as the logbook names it; without a name the only one, or the one nobody named.

    Raises CommandRefused where that leaves a choice.
    """
    from advisor.cooknames import same_cooker

    known = [cooker.name for cooker in logbook.cookers()]
    if said is not None:
        found = next((name for name in known if name == said or name and same_cooker(name, said)), None)
        if found is None:
            raise CommandRefused(f"no cooker called {said[:40]!r} stands in the logbook", "",
                                 f"it knows {_listed(known)}" if known else "nothing has been cooked on any yet")
        return found
    if len(known) > 1 and "" not in known:
        raise CommandRefused(f"the logbook knows {_listed(known)}", "each has a chart of its own", "name one with --cooker")
    return known[0] if len(known) == 1 else ""


def _listed(names: list[str]) -> str:
    return ", ".join(name or "one without a name" for name in names)


def tell(done: int, of: int) -> None:
    """Each cook takes the model about two seconds."""
    if of > 1:
        door.complain(f"going through cook {done + 1} of {of} once more ...")


def table(kept: "Kept", cooker: str, phrases: dict[str, str], wording: Wording, inches: bool) -> str:
    """The chart as text; its lines fit in forty columns."""
    from advisor.ownchart import saying

    head = [saying.title(cooker, phrases), "", phrases["chart_means"], ""]
    rows = [row(line, kept.profile.top_travel_in if inches else None, wording)
            for line in kept.chart.lines if TABLE_F[0] <= line.dome_f <= TABLE_F[1]]
    return "\n".join([*head, *rows, "", saying.rests_on(kept.chart, phrases), *saying.remarks(kept, phrases)])


def row(line: "Line", travel_in: float | None, wording: Wording) -> str:
    from advisor.ownchart import saying

    words, between = _setting(line, travel_in, wording.units)
    return f"{wording.temperature(line.dome_f):>6}  {words:<14} {between:>10}  {saying.how_sure(line)}"


def _setting(line: "Line", travel_in: float | None, units: UnitStyle) -> tuple[str, str]:
    """The opening in words or as a length, and its range."""
    from advisor.ownchart.saying import in_inches

    if travel_in is None:
        return opening(line.opening).removesuffix(" open").removeprefix("open "), f"{line.low:.2f}-{line.high:.2f}"
    if units.length == "cm":
        lengths = [f"{inches_to_cm(part * travel_in):.1f}" for part in (line.opening, line.low, line.high)]
        return f"{lengths[0]} cm", f"{lengths[1]}-{lengths[2]}"
    lengths = [in_inches(part, travel_in) for part in (line.opening, line.low, line.high)]
    return f"{lengths[0]} in", f"{lengths[1]}-{lengths[2]}"


def as_data(kept: "Kept", cooker: str, phrases: dict[str, str]) -> dict:
    """The chart for programs: openings 0..1, °F, minutes; log_sd of the opening's logarithm."""
    from advisor.ownchart import saying

    chart = kept.chart
    return {"cooker": cooker or None, "kind": kept.profile.kind, "cooks": chart.cooks, "day_sd": round(chart.day_sd, 3),
            "points": [{**asdict(line), "log_sd": line.log_sd} for line in chart.lines],
            "stretches": [[asdict(stretch) for stretch in cook] for cook in chart.stretches],
            "says": [saying.rests_on(chart, phrases), *saying.remarks(kept, phrases)]}


def draw(kept: "Kept", cooker: str, phrases: dict[str, str], trade, path: Path) -> None:
    from advisor.ownchart import saying
    from advisor.pictures.canvas import write
    from advisor.pictures.chart_picture import chart_picture

    title = saying.title(cooker, phrases)
    write(chart_picture(kept.chart, trade, title, saying.rests_on(kept.chart, phrases)), path, title)
