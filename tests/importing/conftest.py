"""Short ways to read an invented file."""

from datetime import UTC, datetime

import pytest

from advisor.importing.gathering import Gathered, gather
from advisor.importing.recipe import Recipe, Wishes, make_recipe, sampled
from advisor.importing.refusals import Wrong
from advisor.importing.shapes import shape_of
from advisor.importing.table import rows
from advisor.importing.wishing import wishes
from advisor.importing.words import ColumnWords, read_column_words

NOW_MS = round(datetime(2026, 11, 25, 12, tzinfo=UTC).timestamp() * 1000)


@pytest.fixture(scope="session")
def words() -> ColumnWords:
    return read_column_words()


@pytest.fixture
def read(tmp_path, words):
    """read(text or bytes, **options as words) -> (Recipe, Gathered); times are UTC unless the options say otherwise."""

    def reading(content: str | bytes, **said: str) -> tuple[Recipe, Gathered]:
        path = tmp_path / "file.csv"
        path.write_bytes(content.encode() if isinstance(content, str) else content)
        shape, wished = shape_of(path), wishes({"zone": "UTC"} | said)
        assert isinstance(wished, Wishes)
        sample, _ = sampled(rows(path, shape, Wrong()))
        recipe = make_recipe(shape.names, sample, words, wished, NOW_MS)
        wrong = Wrong()
        return recipe, gather(rows(path, shape, wrong), recipe, wrong, NOW_MS)

    return reading


@pytest.fixture
def first(read):
    """first(text, probe, ...) -> (when the first reading was taken, °F to a tenth)."""

    def of(content: str | bytes, probe: str = "dome", **said: str) -> tuple[str, float]:
        found = read(content, **said)[1].by_probe[probe]
        when = datetime.fromtimestamp(found.at_ms[0] / 1000, UTC)
        return f"{when:%Y-%m-%d %H:%M:%S}", round(found.value_f[0], 1)

    return of
