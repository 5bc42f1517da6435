"""The one family of errors: each says what, where, which value, and a way out.

Nothing here knows Qt, SQL or the trade, so every floor may raise them.
"""

from __future__ import annotations


class RebuildError(Exception):
    """Base of every error the program explains to its user.

    ``str(error)`` is a full sentence fit to show. ``where`` names the field, file or record,
    ``value`` is what was typed or found there, ``way_out`` says what to do next.
    """

    def __init__(self, what: str, *, where: str = "", value: str = "", way_out: str = "") -> None:
        self.what = what
        self.where = where
        self.value = value
        self.way_out = way_out
        super().__init__(self.sentence())

    def sentence(self) -> str:
        """The whole message: where, the value in quotes, what is wrong, and the way out."""
        head = f"{self.where}: " if self.where else ""
        inner = self.value.replace("“", "‘").replace("”", "’")  # a quote within a quote
        value = f"“{inner}” " if inner else ""
        tail = f" {self.way_out}" if self.way_out else ""
        return f"{head}{value}{self.what}{tail}"


class BadEntry(RebuildError):
    """A typed value cannot be taken as it stands."""


class Ambiguous(BadEntry):
    """A typed value has several honest readings; ``readings`` lists (explanation, retyped text)."""

    def __init__(
        self, what: str, *, where: str = "", value: str = "", readings: tuple[tuple[str, str], ...] = ()
    ) -> None:
        self.readings = readings
        choices = " or ".join(f"{retyped} ({meaning})" for meaning, retyped in readings)
        super().__init__(what, where=where, value=value, way_out=f"Type {choices}." if choices else "")


class OutOfRange(RebuildError):
    """A size or class lies outside the range of the table or rule asked for; never extrapolated."""


class Implausible(RebuildError):
    """A value is far from its neighbours (10x, 25.4x); held until confirmed, never dropped."""


class Clash(RebuildError):
    """Another window changed the same field first; the loser's typed value is kept.

    ``on`` is what the record is called, ``field`` the label of the field.
    """

    def __init__(self, what: str, *, on: str, field: str, value: str = "", way_out: str = "") -> None:
        self.on = on
        self.field = field
        super().__init__(what, where=f"{on}, {field.lower()}", value=value, way_out=way_out)


class Stale(RebuildError):
    """What was asked rests on something that has changed since."""


class BrokenOrder(RebuildError):
    """A step, link or act would break the order of work; ``chain`` spells it out."""

    def __init__(self, what: str, *, chain: tuple[str, ...] = (), where: str = "", way_out: str = "") -> None:
        self.chain = chain
        spelled = " → ".join(chain)
        super().__init__(f"{what} {spelled}." if spelled else what, where=where, way_out=way_out)


class Stopped(RebuildError):
    """The user stopped what was under way; nothing of it was stored."""


class NotThere(RebuildError):
    """A record asked for does not exist (any more)."""


class FileTrouble(RebuildError):
    """The project file cannot be opened, read, written or upgraded."""


class FileDamaged(FileTrouble):
    """The file is not whole or not as this program makes it; a sound one may be made from what can be read."""


class FileElsewhere(FileTrouble):
    """The open file is no longer what lies at its path: nothing more is stored there.

    ``went_to`` is where it lies now (empty when that is not known or it was deleted); ``overwritten``
    when its content was changed in place, so that what is held no longer fits it.
    """

    def __init__(
        self, what: str, *, where: str, way_out: str, went_to: str = "", overwritten: bool = False
    ) -> None:
        self.went_to = went_to
        self.overwritten = overwritten
        super().__init__(what, where=where, way_out=way_out)


class Bug(Exception):
    """A fault of the program itself, met where it can be named; it goes to the last resort, not to the user's field.

    It is no ``RebuildError``: nobody on the way up may take it for something the user can mend.
    """
