"""Lines of a file that is still being written to readings: its shape and columns are found from what has come so far."""

from collections.abc import Iterable
from dataclasses import replace
from datetime import datetime
from typing import Any

from advisor.importing.moments import DAY, HOUR, SECOND
from advisor.importing.recipe import Measured, Recipe, RowReader, Wishes, make_recipe
from advisor.importing.refusals import CellWrong, FileRefused, Undecided, Wrong
from advisor.importing.shapes import shape_of_lines
from advisor.importing.table import Row, Shape
from advisor.importing.words import ColumnWords

ENOUGH_ROWS = 20      # with so many, what is open then stays open


class Stream:
    """wishes: what was said of the file; its times of day are today's, its elapsed times count from the first row."""

    def __init__(self, words: ColumnWords, wishes: Wishes) -> None:
        self._words, self._wishes = words, wishes
        self.wrong = Wrong()
        self.recipe: Recipe | None = None
        self._shape: Shape | None = None
        self._reader: RowReader | None = None
        self._waiting: list[str] = []
        self._line, self._arrival = 0, False
        self._why: FileRefused | None = None

    def add(self, lines: Iterable[str], now_ms: int) -> list[tuple[Measured, float | None]]:
        """(what a row measured, its set temperature) for each row. Raises FileRefused when nothing can come of it."""
        if self.recipe is None:
            self._waiting += lines
            if not self._begin(now_ms):
                return []
            lines, self._waiting = self._waiting, []
            self._line = 0
        return list(self._measured(self._rows(list(lines)), now_ms))

    def anew(self) -> None:
        """The next lines are the first of another file: with a header of its own, or none."""
        self.recipe, self._waiting, self._line = None, [], 0

    def unread(self) -> FileRefused | None:
        """Why nothing could be made of the lines that came; None where readings were, or nothing has come."""
        if self.recipe or not any(line.strip() for line in self._waiting):
            return None
        return self._why or FileRefused("no line that came holds a reading", "", "name the file the thermometer writes")

    # -- the beginning ------------------------------------------------------------------------------------------------

    def _begin(self, now_ms: int) -> bool:
        """Whether shape and columns are known."""
        lines = [line for line in self._waiting if line.strip()]
        if not lines:
            return False
        self._shape = shape_of_lines([f"{line}\n" for line in self._waiting])
        rows = [cells for _, cells in self._shape.cells(self._waiting, Wrong())]
        if not rows:
            return False
        try:
            self.recipe = self._recipe(rows, now_ms)
        except FileRefused as error:
            self._why = error
            if len(rows) < ENOUGH_ROWS:
                return False
            raise
        self._reader = self.recipe.row_reader()
        return True

    def _recipe(self, rows: list[list[Any]], now_ms: int) -> Recipe:
        """Undecided points are settled by the present, as far as it can."""
        self._arrival = False
        names, wishes = self._shape.names, self._wishes
        start = datetime.fromtimestamp(now_ms / 1000, wishes.zone).replace(tzinfo=None, microsecond=0)
        wishes = wishes if wishes.start else replace(wishes, start=start)
        try:
            return make_recipe(names, rows, self._words, wishes, now_ms)
        except Undecided as point:
            if point.option.startswith("--columns time"):
                self._arrival = True
                return make_recipe(("time", *names), [[now_ms / SECOND, *row] for row in rows], self._words, wishes, now_ms)
            if {word for word, _ in point.choices} == {"day-first", "month-first"}:
                return self._nearest_to_now(rows, wishes, now_ms)
            raise

    def _nearest_to_now(self, rows: list[list[Any]], wishes: Wishes, now_ms: int) -> Recipe:
        """A file that is written now has today's date: the order of day and month under which it has."""
        made = [make_recipe(self._shape.names, rows, self._words, replace(wishes, times=times), now_ms)
                for times in ("day-first", "month-first")]

        def distance(recipe: Recipe) -> float:
            measured = recipe.row_reader().read(rows[-1])
            return abs(measured.at_ms - now_ms) if measured else float("inf")

        return min(made, key=distance)

    # -- rows ---------------------------------------------------------------------------------------------------------

    def _rows(self, lines: list[str]) -> Iterable[Row]:
        first = self._line + 1
        self._line += len(lines)
        return self._shape.cells(lines, self.wrong, first)

    def _measured(self, rows: Iterable[Row], now_ms: int) -> Iterable[tuple[Measured, float | None]]:
        arrived = [now_ms / SECOND] if self._arrival else []
        of_day = self.recipe.form.kind == "of-day"
        for line, cells in rows:
            cells = arrived + cells
            try:
                found = self._reader.read(cells)
            except CellWrong as error:
                self.wrong.add(line, str(error))
                continue
            if found is None:
                continue
            if of_day and found.at_ms > now_ms + HOUR:  # last night's, read after midnight
                found = replace(found, at_ms=found.at_ms - DAY)
            for why in found.wrong:
                self.wrong.add(line, why)
            yield found, self._reader.target(cells)


