"""The subassemblies a machine of a kind usually has (common practice, no source): offered, never put in unasked."""

from __future__ import annotations

from dataclasses import dataclass

from rebuild.words.machines import MachineKind


@dataclass(frozen=True, slots=True)
class Usual:
    """A subassembly by the code its parts' codes usually begin with, and its name."""

    code: str
    name: str

    @property
    def title(self) -> str:
        """``HS Headstock``."""
        return f"{self.code} {self.name}"


def _of(*pairs: tuple[str, str]) -> tuple[Usual, ...]:
    return tuple(Usual(code, name) for code, name in pairs)


_DRIVE = (("DR", "Drive"), ("LU", "Lubrication"), ("EL", "Electrics"))
USUAL: dict[MachineKind, tuple[Usual, ...]] = {
    MachineKind.LATHE: _of(
        ("BD", "Bed"), ("HS", "Headstock"), ("GB", "Feed gearbox"), ("SD", "Saddle"), ("CS", "Cross slide"),
        ("TS", "Top slide"), ("AP", "Apron"), ("TK", "Tailstock"), ("LS", "Leadscrew and feed rod"), *_DRIVE,
    ),
    MachineKind.MILL: _of(
        ("CO", "Column"), ("SP", "Spindle"), ("OA", "Overarm or head"), ("KN", "Knee"), ("SD", "Saddle"),
        ("TB", "Table"), ("FD", "Feed"), *_DRIVE,
    ),
    MachineKind.SHAPER: _of(
        ("CO", "Column"), ("RM", "Ram"), ("HD", "Tool head"), ("RL", "Rail"), ("TB", "Table"), ("BG", "Bull gear"),
        ("FD", "Feed"), *_DRIVE,
    ),
    MachineKind.SURFACE_GRINDER: _of(
        ("BA", "Base"), ("CO", "Column"), ("WH", "Wheel head"), ("SP", "Spindle"), ("SD", "Saddle"), ("TB", "Table"),
        ("CL", "Coolant"), *_DRIVE,
    ),
    MachineKind.PLANER: _of(
        ("BD", "Bed"), ("TB", "Table"), ("HO", "Housings"), ("RL", "Rail"), ("HD", "Tool heads"), ("FD", "Feed"),
        *_DRIVE,
    ),
    MachineKind.DRILL: _of(
        ("BA", "Base"), ("CO", "Column"), ("HD", "Head"), ("SP", "Spindle and quill"), ("TB", "Table"), ("FD", "Feed"),
        *_DRIVE,
    ),
    MachineKind.OTHER: _of(("BA", "Base"), ("SP", "Spindle"), *_DRIVE),
}  # fmt: skip


def usual(kind: MachineKind) -> tuple[Usual, ...]:
    """What a machine of a kind usually has, in the order it is looked at from the bed up.

    >>> [one.code for one in usual(MachineKind.LATHE)][:3]
    ['BD', 'HS', 'GB']
    """
    return USUAL[kind]
