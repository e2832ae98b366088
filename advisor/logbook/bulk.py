"""Readings by the ten thousand, each in one statement of its database; what is there already is left out."""

from collections.abc import Sequence

import sqlalchemy as sa

from advisor.logbook import records

Row = tuple[int, records.Probe, float]

SQLITE = "INSERT INTO reading (cook_id, at_ms, probe, value_f, origin) VALUES (?, ?, ?, ?, ?) ON CONFLICT DO NOTHING"
# Arrays: a thousand times fewer messages between here and the server than a statement a reading.
POSTGRESQL = sa.text(
    "INSERT INTO reading (cook_id, at_ms, probe, value_f, origin) "
    "SELECT :cook_id, at_ms, probe, value_f, :origin FROM unnest("
    "CAST(:moments AS bigint[]), CAST(:probes AS text[]), CAST(:degrees AS float8[])) AS rows (at_ms, probe, value_f) "
    "ON CONFLICT DO NOTHING")


def insert_readings(connection: sa.Connection, cook_id: int, rows: Sequence[Row], origin: records.Origin) -> int:
    """How many of them were new. The columns are those of tables.reading."""
    if not rows:
        return 0
    if connection.dialect.name == "sqlite":
        return _sqlite(connection, cook_id, rows, origin)
    moments, probes, degrees = (list(column) for column in zip(*rows, strict=True))
    return connection.execute(POSTGRESQL, {"cook_id": cook_id, "origin": origin, "moments": moments, "probes": probes,
                                           "degrees": degrees}).rowcount


def _sqlite(connection: sa.Connection, cook_id: int, rows: Sequence[Row], origin: records.Origin) -> int:
    before = _changes(connection)
    connection.exec_driver_sql(SQLITE, [(cook_id, at_ms, probe, value_f, origin) for at_ms, probe, value_f in rows])
    return _changes(connection) - before


def _changes(connection: sa.Connection) -> int:
    """Rows this connection has entered or changed since it was opened."""
    return connection.exec_driver_sql("SELECT total_changes()").scalar_one()
