"""The fits as they are built: what is wanted, what both sides read, what that makes, and the verdict."""

from __future__ import annotations

from reportlab.platypus import Flowable

from rebuild.sheets.book.columns import Column
from rebuild.sheets.book.flow import chapter_of, prose, table
from rebuild.sheets.book.options import BookOptions
from rebuild.sheets.book.ruled import Band, Line, Wide
from rebuild.trade.fits.words import range_words, value_words
from rebuild.words.fits import Adjuster
from rebuild.work.book.rows import BookData
from rebuild.work.fits.rows import FitRow, FitState
from rebuild.work.fits.rows_sides import SideRow

_COLUMNS = (
    Column("To be", mm=52), Column("As found", mm=40), Column("Now", mm=40), Column("State"),
)  # fmt: skip


def chapter(book: BookData, _options: BookOptions) -> list[Flowable]:
    """Fit by fit, in the order of the list."""
    rows = [row for fit in book.fits for row in _fit(fit)]
    content = table(_COLUMNS, rows)
    if content:
        content.insert(
            0,
            prose(
                "Clearances and interferences are on the diameter where a fit has one. What both sides read stands "
                "under each fit."
            ),
        )
    return chapter_of("Fits as built", "fits", content)


def _fit(fit: FitRow) -> list[Line]:
    wanted = range_words(fit.low_mm, fit.high_mm, fit.unit)
    origin = f" ({fit.wanted_origin.value})" if fit.wanted_origin is not None else ""
    typed = f"{fit.wanted_text}\n" if fit.wanted_text and not _plain(fit.wanted_text) else ""
    master = f"; master: {fit.master.value}" if fit.master is not None else ""
    return [
        Band(f"{fit.title}: {fit.kind.value}, {fit.joint.value}{master}", here=f"fit-{fit.id}"),
        (
            "nothing said yet" if fit.low_mm is None and fit.high_mm is None else f"{typed}{wanted}{origin}",
            value_words(fit.found, fit.unit) if fit.found is not None else "not known",
            value_words(fit.now, fit.unit) if fit.now is not None else "not measured",
            _state(fit),
        ),
        *(Wide(_side(side)) for side in (*fit.sides, fit.gap) if side is not None),
        *(Wide(text) for text in _remarks(fit)),
    ]


def _plain(text: str) -> bool:
    """Whether a wanted range was typed as bare numbers, which the words beside it say better."""
    return not any(
        letter.isalpha() for letter in text.replace("to", "").replace("max", "").replace("min", "")
    )


def _side(side: SideRow) -> str:
    reads = "; ".join(f"{one.station} {one.words}".strip() for one in side.readings) or "not read"
    return f"{side.title}: {reads}"


def _state(fit: FitRow) -> str:
    taken_up = f"\ntaken up by {fit.adjuster.value}" if fit.adjuster is not Adjuster.NONE else ""
    return f"{fit.state.value}{taken_up}"


def _remarks(fit: FitRow) -> list[str]:
    said = [wait.sentence for wait in fit.waits] if fit.state is FitState.WAITS else []
    if fit.stale:
        said.append(f"Not looked at since: {'; '.join(fit.stale)}")
    return [text for text in (*said, *fit.remarks, fit.note) if text]
