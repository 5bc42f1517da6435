"""What a thread designation says once it is read, and how it is written back."""

from __future__ import annotations

from dataclasses import dataclass

from rebuild.trade.threads.series import MM_PER_IN, System

WAYS_TO_TYPE = "Type it as 3/8-16 UNC-2B, M8x1.25, 7/16-10 LH ACME, Tr 20x4, 1/4 BSW or 2 BA."


@dataclass(frozen=True, slots=True)
class ThreadDesignation:
    """What a designation says. ``tpi`` is None for metric forms; ``thread_class`` empty when not written."""

    text: str
    system: System
    series: str
    size: str
    nominal_mm: float
    pitch_mm: float
    tpi: float | None
    starts: int = 1
    left_hand: bool = False
    thread_class: str = ""

    @property
    def unit(self) -> str:
        """The unit the thread is named in."""
        return "mm" if self.tpi is None else "in"

    @property
    def nominal_in(self) -> float:
        """Nominal diameter [in], clean of conversion dust."""
        return round(self.nominal_mm / MM_PER_IN, 9)

    @property
    def lead_mm(self) -> float:
        """Advance in one turn [mm]."""
        return self.pitch_mm * self.starts

    @property
    def name(self) -> str:
        """The designation in its usual form, class and hand included."""
        parts = [_bare_name(self), self.thread_class, "LH" if self.left_hand else ""]
        return "-".join(part for part in parts if part)


def _bare_name(thread: ThreadDesignation) -> str:
    if thread.system is System.METRIC:
        return f"M{thread.size}x{thread.pitch_mm:g}"
    if thread.system is System.TRAPEZOIDAL:
        pitch = f"(P{thread.pitch_mm:g})" if thread.starts > 1 else ""
        return f"Tr {thread.size}x{thread.lead_mm:g}{pitch}"
    if thread.system is System.BA:
        return f"{thread.size} BA"
    if thread.series in ("G", "NPT"):
        return f"{thread.series} {thread.size}"
    starts = f" {thread.starts}-start" if thread.starts > 1 else ""
    return f"{thread.size}-{thread.tpi:g} {thread.series}{starts}"
