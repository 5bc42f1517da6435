"""The fits as they are built: what is wanted, what both sides read, what that makes, and the verdict."""

from __future__ import annotations

from reportlab.platypus import Flowable

from rebuild.model.enums import Adjuster
from rebuild.sheets.book.columns import Column
from rebuild.sheets.book.flow import chapter_of, prose, table
from rebuild.sheets.book.options import BookOptions
from rebuild.sheets.book.ruled import Line, Linked
from rebuild.trade.fit_words import range_words, value_words
from rebuild.work.lookup.book import BookData
from rebuild.work.lookup.fit_sides import SideRow
from rebuild.work.lookup.fits import FitRow, FitState

_COLUMNS = (
    Column("Fit", mm=40), Column("Outer and inner read"), Column("Wanted", mm=28), Column("As found", mm=23),
    Column("Now", mm=27), Column("State and remarks"),
)  # fmt: skip


def chapter(book: BookData, _options: BookOptions) -> list[Flowable]:
    """One row a fit, in the order of the list."""
    rows: list[Line] = [_row(fit) for fit in book.fits]
    content = table(_COLUMNS, rows, strong=True)
    if content:
        content.insert(
            0,
            prose(
                "A clearance is clear, an interference is negative play; both on the diameter where it has one."
            ),
        )
    return chapter_of("Fits as built", "fits", content)


def _row(fit: FitRow) -> Line:
    wanted = range_words(fit.low_mm, fit.high_mm, fit.unit)
    origin = f"\n{fit.wanted_origin.value}" if fit.wanted_origin is not None else ""
    typed = f"{fit.wanted_text}\n" if fit.wanted_text and not _plain(fit.wanted_text) else ""
    master = f"\nmaster: {fit.master.value}" if fit.master is not None else ""
    return (
        Linked(f"{fit.title}\n{fit.kind.value}, {fit.joint.value}{master}", here=f"fit-{fit.id}"),
        "\n".join(_side(side) for side in (*fit.sides, fit.gap) if side is not None),
        "nothing said yet" if wanted == "nothing" else f"{typed}{wanted}{origin}",
        value_words(fit.found, fit.unit) if fit.found is not None else "",
        value_words(fit.now, fit.unit) if fit.now is not None else "not measured",
        "\n".join(filter(None, _state(fit))),
    )


def _plain(text: str) -> bool:
    """Whether a wanted range was typed as bare numbers, which the words beside it say better."""
    return not any(
        letter.isalpha() for letter in text.replace("to", "").replace("max", "").replace("min", "")
    )


def _side(side: SideRow) -> str:
    reads = "; ".join(f"{one.station} {one.words}".strip() for one in side.readings) or "not read"
    return f"{side.title}: {reads}"


def _state(fit: FitRow) -> list[str]:
    said = [fit.state.value]
    if fit.state is FitState.WAITS:
        said += [wait.sentence for wait in fit.waits]
    if fit.stale:
        said.append(f"not looked at since: {'; '.join(fit.stale)}")
    if fit.adjuster is not Adjuster.NONE:
        said.append(f"taken up by {fit.adjuster.value}")
    return [*said, *fit.remarks, fit.note]
