"""What needs no logbook loads nothing of it: an answer must not wait for a database."""

import subprocess
import sys

import pytest

LOOKS = """
import io, sys
sys.stdin = io.TextIOWrapper(io.BytesIO(b'{"say": "dome 350"}'))
from advisor.terminal.commandline import run
status = run(sys.argv[1:])
loaded = sorted({name.split(".")[0] for name in sys.modules} & {"sqlalchemy", "alembic", "psycopg"})
print(status, loaded, file=sys.stderr)
"""


@pytest.mark.parametrize(("words", "loaded"), [(["ask", "im 100 over"], []), (["pipe"], []),
                                               (["pipe", "--data", "{folder}"], ["sqlalchemy"])])
def test_libraries_are_loaded_where_they_are_needed(words, loaded, tmp_path):
    words = [word.replace("{folder}", str(tmp_path)) for word in words]
    for _ in range(1 + bool(loaded)):  # the first call makes the tables, with alembic
        done = subprocess.run([sys.executable, "-c", LOOKS, *words], capture_output=True, text=True, check=True)
    assert done.stderr == f"0 {loaded}\n"
