"""One act under way."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeVar

from sqlalchemy import Connection

from rebuild.errors import NotThere

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

R = TypeVar("R")


@dataclass(slots=True)
class Tx:
    """A short session on the writer, and the words the journal will carry."""

    session: Session
    connection: Connection
    subject: str

    def get(self, record: type[R], key: int, called: str = "record") -> R:
        """The mapped record of one id.

        Raises:
            NotThere: it was removed meanwhile.
        """
        found = self.session.get(record, key)
        if found is None:
            raise NotThere(
                f"The {called} no. {key} is no longer there.",
                way_out="It may have been removed in another window.",
            )
        return found
