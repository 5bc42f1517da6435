"""A file that is being made whole before anyone owns it need not wait for the disk at every act."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from sqlalchemy import Engine


@contextmanager
def unhurried_disk(writer: Engine) -> Iterator[None]:
    """Let the disk follow at its own pace, and wait for all of it at the end.

    Only for a file under a name of its own that is renamed when whole (the demo): a crash meanwhile
    leaves a file nobody has been told of.
    """
    raw = writer.raw_connection()
    try:
        cursor = raw.cursor()
        cursor.execute("PRAGMA synchronous = OFF")
        try:
            yield
        finally:
            cursor.execute("PRAGMA synchronous = FULL")
            cursor.execute("PRAGMA wal_checkpoint(TRUNCATE)")
            cursor.close()
    finally:
        raw.close()
