"""DEVELOPERS.md stays true: the folders and files it names are there, and every noun is named."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent
TEXT = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
#: Where a file or folder may be looked for when it is named without its beginning.
UNDER = ("", "rebuild", "rebuild/trade", "tests")
NAMED = sorted(
    {
        name.rstrip("/")
        for name in re.findall(r"`([A-Za-z_./0-9]+)`", TEXT)
        if "/" in name or name.endswith((".py", ".md"))
    }
)


@pytest.mark.parametrize(
    "name", [name for name in NAMED if name not in ("page.py", "units.py", "test_given.py")]
)
def test_what_is_named_is_there(name: str) -> None:
    assert any((ROOT / under / name).exists() for under in UNDER), (
        f"DEVELOPERS.md names {name}, which is not there"
    )


@pytest.mark.parametrize("floor", ["trade", "work", "window"])
def test_every_noun_is_named_and_no_other(floor: str) -> None:
    section = TEXT.partition("### The nouns")[2].partition("\n## ")[0]
    told = set(re.findall(r"\*\*(\w+)\*\*", section))
    there = {path.parent.name for path in (ROOT / "rebuild" / floor).glob("*/__init__.py")}
    assert there <= told, f"{', '.join(sorted(there - told))} of {floor}/ is not under The nouns"
    everywhere = {
        path.parent.name
        for each in ("trade", "work", "window")
        for path in (ROOT / "rebuild" / each).glob("*/__init__.py")
    }
    assert told <= everywhere, f"{', '.join(sorted(told - everywhere))} is named there and is no folder"
