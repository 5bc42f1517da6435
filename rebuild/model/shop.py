"""What belongs to the file and not to a machine: settings, and entries kept from being lost."""

from __future__ import annotations

import datetime as dt

from sqlalchemy.orm import Mapped, mapped_column

from rebuild.model.base import Base


class Setting(Base):
    """A setting of this file (verdict rule, decimal comma, owner's name). Not journaled."""

    __tablename__ = "setting"

    key: Mapped[str] = mapped_column(primary_key=True)
    value: Mapped[str]


class KeptEntry(Base):
    """Something typed that could not be stored where it was meant (a clash); never undone away."""

    __tablename__ = "kept_entry"
    __table_args__ = {"sqlite_autoincrement": True}  # noqa: RUF012

    id: Mapped[int] = mapped_column(primary_key=True)
    at: Mapped[dt.datetime]
    meant_for: Mapped[str]
    typed: Mapped[str]
    why: Mapped[str]
    settled: Mapped[bool] = mapped_column(default=False)
