"""Photos filed to what they show: a part, subassembly or step, what was in hand, or back into the inbox."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable

from rebuild.window.desk.desk import Desk, Say
from rebuild.window.photos.every import every_photo
from rebuild.words.counted import counted
from rebuild.work.photos.about import About
from rebuild.work.photos.acts import show_on, sort_each, sort_photos
from rebuild.work.photos.rows_shown import what_was_in_hand
from rebuild.work.records.wall_clock import now


class Filing:
    """Files the photos that ``chosen`` names."""

    def __init__(self, desk: Desk, chosen: Callable[[], list[int]]) -> None:
        self._desk = desk
        self._chosen = chosen

    def file(self, about: About | None, to: str = "") -> None:
        """File the chosen photos; None puts them back into the inbox. ``to`` is where they go, in words."""
        ids = self._chosen()
        if about == About():
            self._desk.say("Choose a part, subassembly or step on the bench first.", Say.ASK)
        elif ids:
            done = f"{counted(len(ids), 'photo')} filed to {to}." if to else ""
            self._desk.attempt(lambda: sort_photos(self._desk.store, ids, about or About()), done)

    def to_subassembly(self) -> None:
        """File the chosen photos to the subassembly chosen on the bench."""
        self.file(About(subassembly_id=self._desk.selection.subassembly_id))

    def to_step(self) -> None:
        """File the chosen photos to the first step chosen on the bench."""
        tasks = self._desk.selection.task_ids
        self.file(About(task_id=tasks[0] if tasks else None))

    def back_to_inbox(self) -> None:
        """Put the chosen photos back into the inbox."""
        self.file(None)

    def show_part_too(self) -> None:
        """Say that the chosen photos show the part chosen on the bench, too."""
        self._show_too("part", self._desk.selection.part_ids)

    def show_step_too(self) -> None:
        """Say that the chosen photos show the step chosen on the bench, too."""
        self._show_too("task", self._desk.selection.task_ids)

    def to_what_was_in_hand(self) -> None:
        """File the chosen photos to what was in hand at their time; what cannot be told stays there."""
        ids, machine = tuple(self._chosen()), self._desk.machine_id
        if not ids or machine is None:
            self._desk.say("Choose photos first.", Say.ASK)
            return
        sorted_ids = {row.id for row in every_photo(self._desk) if row.about}
        unsorted_ids = tuple(key for key in ids if key not in sorted_ids)
        with self._desk.store.read() as connection:
            found = what_was_in_hand(connection, machine, unsorted_ids, now())
        pairs = [(one.photo_id, one.parts[0][0]) for one in found if one.parts]
        names = Counter(one.parts[0][1] for one in found if one.parts)
        doubts = list(dict.fromkeys(one.doubt for one in found if one.doubt))
        doubts += ["it is sorted already"] if sorted_ids.intersection(ids) else []
        if pairs and self._desk.attempt(lambda: (self._file_each(pairs),)) is None:
            return
        where = ", ".join(f"{count} to {name}" for name, count in names.items())
        words = f"{counted(len(pairs), 'photo')} filed to what was in hand" + (f": {where}" if where else "")
        stays = f"; {len(ids) - len(pairs)} stay: {'; '.join(doubts)}" if doubts else ""
        self._desk.say(f"{words}{stays}.", Say.ASK if doubts else Say.DONE)

    def _file_each(self, pairs: list[tuple[int, int]]) -> int:
        sort_each(self._desk.store, pairs)
        return len(pairs)

    def _show_too(self, record: str, ids: tuple[int, ...]) -> None:
        chosen = self._chosen()
        if chosen and ids:
            self._desk.attempt(
                lambda: show_on(self._desk.store, chosen, record, ids[0]),
                "Shown there, too; undo takes it off.",
            )
        else:
            self._desk.say("Choose photos here, and a part or step on the bench, first.", Say.ASK)
