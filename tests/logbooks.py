"""Empty logbooks for tests: SQLite always, PostgreSQL where DRAFTHAND_TEST_POSTGRES holds the address of a server.

In CI (the variable CI is set) a missing server is a failure, not a reason to skip.
"""

import os
import uuid
from collections.abc import Iterator
from contextlib import contextmanager

import pytest
import sqlalchemy as sa

SERVER = "DRAFTHAND_TEST_POSTGRES"


@pytest.fixture(params=["sqlite", "postgresql"])
def place(request, tmp_path) -> Iterator[str]:
    """Where an empty logbook may be made: a folder, or a PostgreSQL address."""
    if request.param == "sqlite":
        yield str(tmp_path / "logbook")
    else:
        with postgresql_place() as address:
            yield address


@pytest.fixture
def logbook(place):
    from advisor.logbook.opening import open_logbook

    book = open_logbook(place)
    yield book
    book.close()


@contextmanager
def postgresql_place() -> Iterator[str]:
    """The address of an empty schema of its own on the test server, dropped at the end."""
    server = os.environ.get(SERVER)
    if not server:
        assert not os.environ.get("CI"), f"{SERVER} must hold the address of a PostgreSQL server"
        pytest.skip(f"{SERVER} holds no address of a PostgreSQL server")
    schema = f"test_{uuid.uuid4().hex[:12]}"
    address = sa.make_url(server).set(drivername="postgresql+psycopg")
    engine = sa.create_engine(address, pool_pre_ping=True)
    with engine.begin() as connection:
        connection.exec_driver_sql(f"CREATE SCHEMA {schema}")
    try:
        yield address.update_query_dict({"options": f"-csearch_path={schema}"}).render_as_string(hide_password=False)
    finally:
        with engine.begin() as connection:
            connection.exec_driver_sql(f"DROP SCHEMA {schema} CASCADE")
        engine.dispose()
