"""Adjustments and joints: shims by leaf, how every joint was left, and how the machine was levelled."""

from __future__ import annotations

from reportlab.platypus import Flowable

from rebuild.sheets.book.flow import chapter_of, section, table
from rebuild.sheets.book.options import BookOptions
from rebuild.sheets.book.pages import MARGIN_MM
from rebuild.sheets.book.plot import Axes, Curve, Plot
from rebuild.sheets.book.ruled import Line, Linked
from rebuild.sheets.paper import MM, paper
from rebuild.trade.charts.settling import slope_text
from rebuild.trade.fits.words import value_words
from rebuild.words.fits import Adjuster
from rebuild.work.book.rows import BookData
from rebuild.work.records.field import show_day


def chapter(book: BookData, options: BookOptions) -> list[Flowable]:
    """What is set by hand and must be set again after it was apart."""
    wide = (paper(options.paper).width_mm - 2 * MARGIN_MM) * MM
    content = [
        *section("What takes up the play", "adjusters", _adjusters(book)),
        *section("Shim packs", "shims", _shims(book)),
        *section("Joints", "joints", _joints(book)),
        *section("Level", "level", _level(book, wide)),
    ]
    return chapter_of("Adjustments and joints", "adjustments", content)


def _adjusters(book: BookData) -> list[Flowable]:
    rows: list[Line] = [
        (
            Linked(fit.title, f"fit-{fit.id}"),
            fit.adjuster.value,
            value_words(fit.now, fit.unit) if fit.now is not None else "not measured",
            fit.note,
        )
        for fit in book.fits
        if fit.adjuster is not Adjuster.NONE
    ]
    return table(("Fit", "Taken up by", "Now", "Note"), rows, strong=True)


def _shims(book: BookData) -> list[Flowable]:
    rows: list[Line] = [
        (removal.called, shim.where, " + ".join(shim.leaves), shim.thick)
        for made in book.taken_apart
        for removal in made.removals
        for shim in removal.shims
    ]
    return table(("At", "Where", "Leaves from the casting up", "Total"), rows, strong=True)


def _joints(book: BookData) -> list[Flowable]:
    rows: list[Line] = [
        (
            joint.name,
            "\n".join(filter(None, (joint.of, joint.location))),
            f"{joint.count} x {joint.thread}" if joint.thread else "",
            joint.state,
            "\n".join(filter(None, (joint.torque_wanted, joint.torque_source))),
            "final" if joint.final else joint.lacks,
            "\n".join(
                filter(
                    None,
                    (
                        joint.note,
                        joint.torque_doubt,
                        "recheck after run-in" if joint.look_again and joint.looked_again_at is None else "",
                    ),
                )
            ),
        )
        for joint in book.joints
    ]
    columns = ("Joint", "On", "Fasteners", "Left as", "Torque per bolt", "Stands", "Note")
    return table(columns, rows, strong=True)


def _level(book: BookData, wide: float) -> list[Flowable]:
    level = book.tried.levelling
    if not level.rows:
        return []
    first = level.rows[0].taken_at
    curves = [
        Curve(
            one.called,
            tuple((row.taken_at - first).total_seconds() / 86_400 for row in one.rows),
            tuple(row.slope_um_per_m / 1000 for row in one.rows),
        )
        for one in level.series
    ]
    rows: list[Line] = [
        (
            show_day(row.taken_at),
            f"{row.way.value}, {row.place}",
            row.typed,
            slope_text(row.slope_um_per_m, level.unit, sign=True),
            row.adjusted,
            row.note,
        )
        for row in level.rows
    ]
    said: list[Line] = [(one.called, one.settled.value.text) for one in level.series]
    if level.twist is not None:
        said.append(("twist", level.twist.value.text))
    return [
        Plot(curves, Axes("days since the first reading", "slope [mm/m]"), wide, 120.0),
        *table(("Series", "What it says"), said, strong=True),
        *table(("On", "Where", "Read", "Slope", "Then turned", "Note"), rows),
    ]
