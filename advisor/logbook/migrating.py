"""Brings a logbook to the newest schema when it is opened. alembic is loaded only when there is something to do."""

from pathlib import Path

import sqlalchemy as sa

from advisor.errors import LogbookError
from advisor.logbook.connecting import Database

NEWEST = "0001"  # the last of migrations/versions
MIGRATIONS = Path(__file__).parent / "migrations"


def migrate(database: Database) -> None:
    """Every change the logbook lacks, in one transaction. Raises LogbookError when its schema is newer than ours."""
    with database.reading() as connection:
        if _version(connection) == NEWEST:
            return
    with database.writing() as connection:
        if (version := _version(connection)) != NEWEST:  # else another process was quicker
            _upgrade(connection, version, database.place)


def _version(connection: sa.Connection) -> str | None:
    """The schema's version; None of an empty database."""
    if not sa.inspect(connection).has_table("alembic_version"):
        return None
    return connection.scalar(sa.text("SELECT version_num FROM alembic_version"))


def _upgrade(connection: sa.Connection, version: str | None, place: str) -> None:
    from alembic.config import Config
    from alembic.runtime.environment import EnvironmentContext
    from alembic.script import ScriptDirectory

    scripts = ScriptDirectory(str(MIGRATIONS))
    if version not in {None, *(script.revision for script in scripts.walk_revisions())}:
        raise LogbookError(f"the logbook in {place} has the schema {version}", f"this drafthand knows up to {NEWEST}",
                           "bring drafthand up to date, or choose another folder with --data")
    with EnvironmentContext(Config(), scripts, fn=lambda now, _: scripts._upgrade_revs("head", now)) as environment:
        environment.configure(connection=connection)
        environment.run_migrations()
