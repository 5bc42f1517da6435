"""What stands beside the act under way on a connection: who works things out within it may keep them.

What was worked out before the act wrote anything is as good as a reader's. What rests on its own rows stands only once
they are stored: a number of the journal is given again to other rows after an act that was given up.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

from sqlalchemy import Connection, Engine, event

_OPTION = "under_way"
_WROTE = "SELECT EXISTS (SELECT 1 FROM change WHERE act_id = (SELECT id FROM current_act))"


@dataclass(slots=True, eq=False, weakref_slot=True)
class UnderWay:
    """One act: ``reader`` is the engine whose answers hold for it too, None while reading goes round cells.

    ``in_parts`` once some of it was taken back and the rest went on: then nothing is kept of it.
    """

    reader: Engine | None
    in_parts: bool = False
    _then: list[Callable[[], None]] = field(default_factory=list)

    def once_stored(self, do: Callable[[], None]) -> None:
        """Do something when the act is on the disk, and not at all when it is given up."""
        self._then.append(do)

    def stored(self) -> None:
        """The act is on the disk."""
        for do in self._then if not self.in_parts else ():
            do()


def begin(connection: Connection, act: UnderWay) -> None:
    """From here on the connection is that of an act."""
    connection.execution_options(**{_OPTION: act})


def act_of(connection: Connection) -> UnderWay | None:
    """The act under way on a connection, or None."""
    act = connection.get_execution_options().get(_OPTION)
    return act if isinstance(act, UnderWay) else None


def wrote(connection: Connection) -> bool:
    """Whether the act under way has changed a row so far."""
    return bool(connection.exec_driver_sql(_WROTE).scalar())


def hear_of_parts(writer: Engine) -> None:
    """Note in an act that some of it is taken back while the rest goes on."""
    event.listen(writer, "rollback_savepoint", _in_parts)


def _in_parts(connection: Connection, *_event: Any) -> None:
    act = act_of(connection)
    if act is not None:
        act.in_parts = True
