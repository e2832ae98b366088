"""A rules folder of its own for each test."""

from pathlib import Path

import pytest
from tiny_rules import Tiny


@pytest.fixture
def tiny(tmp_path: Path) -> Tiny:
    return Tiny(tmp_path / "rules")
