"""Reads the published tables in ``assets/tables``: CSV, first lines ``# key: value``.

A table file starts with comment lines naming ``standard``, ``edition``, ``where`` and ``status``
(published / common practice, no source / from memory / computed), then a header row, then data.
A column called ``status`` may override the file's status row by row.
"""

from __future__ import annotations

import csv
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from rebuild.trade.results.working import Source, Status


def assets_folder() -> Path:
    """The folder of shipped assets: inside the wheel, or beside the package in a checkout.

    >>> (assets_folder() / "tables").is_dir()
    True
    """
    package = Path(__file__).resolve().parents[2]
    shipped = package / "_assets"
    return shipped if shipped.is_dir() else package.parent / "assets"


@dataclass(frozen=True, slots=True)
class Table:
    """A published table: its source and its rows as text by column name."""

    source: Source
    rows: tuple[Mapping[str, str], ...]

    def row_source(self, row: Mapping[str, str]) -> Source:
        """The source of one row, with the row's own status when it carries one."""
        own = row.get("status", "")
        return Source(self.source.name, self.source.where, status_of(own)) if own else self.source


def status_of(text: str) -> Status:
    """The status a table file's word stands for.

    >>> status_of("found: two prints agree").value
    'published'
    """
    word = text.strip().lower()
    if word.startswith(("found", "published")):
        return Status.PUBLISHED
    if word.startswith(("common", "practice")):
        return Status.COMMON_PRACTICE
    if word.startswith("computed"):
        return Status.COMPUTED
    return Status.FROM_MEMORY


@cache
def table(name: str) -> Table:
    """Load ``assets/tables/<name>.csv`` once.

    Raises:
        FileNotFoundError: the program's own asset is missing (a broken installation).

    >>> table("ba_threads").rows[2]["pitch_mm"]
    '0.81'
    """
    lines = (assets_folder() / "tables" / f"{name}.csv").read_text(encoding="utf-8").splitlines()
    head: dict[str, str] = {}
    while lines and lines[0].startswith("#"):
        key, _, value = lines.pop(0).lstrip("# ").partition(":")
        head[key.strip().lower()] = value.strip()
    standard = " ".join(filter(None, (head.get("standard", name), head.get("edition", ""))))
    source = Source(standard, head.get("where", ""), status_of(head.get("status", "memory")))
    return Table(source, tuple(csv.DictReader(lines)))
