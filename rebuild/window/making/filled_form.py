"""A form that shows a text with its sizes filled in, and keeps it tied to them when it is edited."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace

from rebuild.window.forms.edit_form import EditForm
from rebuild.work.records.rows import Card

_NAMED = re.compile(r"\{([^{}]*)\}")


class FilledForm(EditForm):
    """``filled(row_id)`` gives the texts of a row as they are shown, by field."""

    filled: Callable[[int], dict[str, str]] = staticmethod(lambda _row_id: {})

    def _shown(self) -> dict[str, str]:
        return self.filled(self.row_id) if self.row_id is not None else {}

    def _card(self) -> Card | None:
        found = super()._card()
        return None if found is None else replace(found, fields={**found.fields, **self._shown()})

    def _store(self, name: str, text: str) -> None:
        from rebuild.work.editing.acts import edit

        shown, stored = self._shown().get(name), super()._card()
        if shown is None or stored is None or self.row_id is None:
            super()._store(name, text)
            return
        was = stored.fields[name]
        tied = tie(text, was, shown)
        edit(self._desk.store, self.record, [self.row_id], {name: tied}, seen={name: was})


def tie(typed: str, stored: str, shown: str) -> str:
    """Put the names of sizes back where their values still stand in a typed text.

    >>> tie("Grind to 0.78 in, wet", "Turn to {diameter}", "Turn to 0.78 in")
    'Grind to {diameter}, wet'
    >>> tie("Grind to 0.77 in", "Turn to {diameter}", "Turn to 0.78 in")
    'Grind to 0.77 in'
    """
    names = _NAMED.findall(stored)
    pattern = "(.+?)".join(re.escape(part) for part in _NAMED.split(stored)[::2])
    found = re.fullmatch(pattern, shown, re.DOTALL)
    if found is None:
        return typed
    for name, value in sorted(zip(names, found.groups(), strict=True), key=lambda pair: -len(pair[1])):
        typed = typed.replace(value, f"{{{name}}}", 1)
    return typed
