"""Fields that many records have: a name, and a text as long as a page."""

from __future__ import annotations

from rebuild.work.records.field import Field, FieldKind

#: Characters of the longest text a record holds.
LONG = 20_000


def note(name: str = "note", label: str = "Note") -> Field:
    """A field of free text, optional."""
    return Field(name, label, FieldKind.LONG_TEXT, longest=LONG)


def named(label: str = "Name") -> Field:
    """What a record is called; it may not be empty."""
    return Field("name", label, required=True, help="Type a name.")
