"""The console sessions in README.md: read, run, compared. As a command it writes what comes out back into the page.

    python tests/terminal/readme.py
"""

import os
import re
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parent.parent.parent
README = ROOT / "README.md"
SESSION = re.compile(r"```console\n(.*?)```", re.DOTALL)
SET_UP = re.compile(r"```sh\n(.*?)\n```", re.DOTALL)
WIDTH = "96"


def sessions(page: str) -> list[str]:
    """The console blocks of the page."""
    return SESSION.findall(page)


def set_up_lines(page: str) -> list[str]:
    """The one-line commands of the page: the answer, the tests."""
    return SET_UP.findall(page)


def played(session: str) -> str:
    """The session as it comes out now."""
    commands = [line for line in session.splitlines() if line.startswith("$ ")]
    return "\n".join(f"{command}\n{_run(command[2:])}" for command in commands)


def _run(command: str) -> str:
    """What one shell line prints; `drafthand` is this checkout."""
    function = f'drafthand() {{ "{sys.executable}" -m advisor "$@"; }}; {command}'
    done = subprocess.run(["bash", "-c", function], capture_output=True, text=True, cwd=ROOT, check=True, timeout=60,
                          env=os.environ | {"COLUMNS": WIDTH})
    return done.stdout


def main() -> None:
    page = README.read_text(encoding="utf-8")
    README.write_text(SESSION.sub(lambda found: f"```console\n{played(found[1])}```", page), encoding="utf-8")


if __name__ == "__main__":
    main()
