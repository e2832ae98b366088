"""What was taken for what, and what came of it, in lines for a person."""

from collections.abc import Iterator
from datetime import UTC, datetime, tzinfo

from advisor.importing.keeping import KeptCook
from advisor.importing.moments import HOUR, MINUTE, SECOND
from advisor.importing.recipe import Recipe
from advisor.importing.refusals import Wrong

KINDS = {"year-first": "dates with the year first", "day-first": "dates with the day first",
         "month-first": "dates with the month first", "since-1970": "counted from 1970",
         "spreadsheet": "days as spreadsheets count them", "of-day": "times of day", "elapsed": "time since the start"}
UNITS = {SECOND: "in seconds", MINUTE: "in minutes", HOUR: "in hours"}


def taken_for(recipe: Recipe) -> Iterator[str]:
    """One line for each column that is used, and one for those that are not."""
    names, columns = recipe.names, recipe.columns
    yield f"  time: {' and '.join(map(_quoted, (names[at] for at in columns.time)))}, {_form(recipe)}"
    for probe, at in columns.probes.items():
        guess = recipe.units[probe]
        yield f"  {probe}: {_quoted(names[at])}, °{guess.unit} ({guess.because})"
    if columns.named:
        guess = recipe.units[""]
        for name, probe in recipe.probes.items():
            yield f"  {probe}: lines of {_quoted(name)}, °{guess.unit} ({guess.because})"
    if columns.target is not None:
        yield f"  target: {_quoted(names[columns.target])}"
    if columns.left_out:
        yield f"  not used: {', '.join(_quoted(names[at]) for at in columns.left_out)}"


def wrong_lines(wrong: Wrong) -> Iterator[str]:
    if not wrong.count:
        return
    yield f"{_counted(wrong.count, 'row or cell')} could not be used and {'was' if wrong.count == 1 else 'were'} left out:"
    for line, why in wrong.shown:
        yield f"  line {line}: {why}"
    if more := wrong.count - len(wrong.shown):
        yield f"  and {more:,} more"


def kept_line(cook: KeptCook, zone: tzinfo | None) -> str:
    """What became of one cook of the file."""
    length = span_words(cook.ended_ms - cook.started_ms)
    known = "a new cook" if cook.begun else "a cook that was there"
    new = ("nothing new" if not cook.new else "all new" if cook.new == cook.count else f"{cook.new:,} of them new")
    return f"Cook {cook.id}, {moment_words(cook.started_ms, zone)}, {length}: {known}; {cook.count:,} readings, {new}."


def moment_words(at_ms: int, zone: tzinfo | None) -> str:
    """A moment in a time zone, None for the machine's own."""
    local = datetime.fromtimestamp(at_ms / 1000, UTC).astimezone(zone)
    return f"{local.day} {local:%b %Y %H:%M}"


def span_words(length_ms: int) -> str:
    hours, minutes = divmod(round(length_ms / MINUTE), 60)
    return f"{hours} h {minutes:02} min" if hours else f"{minutes} min"


def _form(recipe: Recipe) -> str:
    form = recipe.form
    says = KINDS[form.kind]
    if form.kind == "elapsed" and not form.in_parts:
        says += f" {UNITS.get(form.unit_ms, '')}"
    if form.kind == "since-1970" or form.with_offset:
        return says.strip()
    return f"{says.strip()}, in {form.zone or 'the time of this machine'}"


def _counted(count: int, what: str) -> str:
    return f"{count:,} {what}" if count == 1 else f"{count:,} {what.replace('row', 'rows').replace('cell', 'cells')}"


def _quoted(name: str) -> str:
    return f'"{name.strip()}"'
