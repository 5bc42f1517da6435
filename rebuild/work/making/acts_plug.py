"""The plug a nut's thread is proved with: a part of its own, turned first, on its own sheet."""

from __future__ import annotations

from sqlalchemy import func, select

from rebuild.errors import BadEntry
from rebuild.model.records.features import Feature
from rebuild.model.records.fits import Fit
from rebuild.model.records.making import MakingDimension, MakingSheet, MakingStep, MakingTool
from rebuild.model.records.parts import Part
from rebuild.store.act import Act
from rebuild.store.store import Store, Tx
from rebuild.trade.drawing.measure import Measure
from rebuild.trade.sizes.show import exact_text
from rebuild.trade.threads.designation import parse_designation
from rebuild.words.decisions import Decision
from rebuild.words.fits import Side
from rebuild.words.making import LimitsFrom, MakingProgress, PartShape
from rebuild.words.parts import Identity, Origin
from rebuild.words.readings import FeatureKind, SpecOrigin
from rebuild.work.fits.acts import FitEntry, put_fit
from rebuild.work.machines.rows_parts import codes
from rebuild.work.making.acts import put_sheet
from rebuild.work.making.acts_features import give_feature
from rebuild.work.making.acts_fill import refresh_all
from rebuild.work.making.acts_issue import follows_issue
from rebuild.work.making.acts_plug_band import put_band
from rebuild.work.making.measures import measure_of, put_measure
from rebuild.work.making.rows_limits import PROVED, signature, since
from rebuild.work.making.rows_plug import plug_band
from rebuild.work.making.rules import asked_of, called, dimensions_of, open_sheet
from rebuild.work.making.rules_threads import pitch_rows
from rebuild.work.records.columns import title


def plug_sheet(store: Store, sheet_id: int) -> int:
    """The sheet of the plug that proves a nut; made when there is none yet. Returns its id.

    The plug is the nut's mate as well: the nut waits for it, and follows what it came out to.

    Raises:
        BadEntry: the sheet is settled, is of no nut, or its pitch diameter has no limits yet.
        Ambiguous, OutOfRange: its thread cannot be read.
    """
    with store.act(Act.START_SHEET, "") as tx:
        sheet = open_sheet(tx, sheet_id)
        nut = tx.get(Part, sheet.part_id, "part")
        pitch = _pitch(tx, sheet)
        fresh = not since(sheet.looked, asked_of(tx, sheet))
        give_feature(tx, nut, sheet, pitch)
        tx.session.flush()
        made = _made_already(tx, pitch)
        if made is not None:
            return made
        plug = _plug(tx, nut, sheet)
        feature = _feature(tx, plug, sheet, pitch)
        own = put_sheet(tx, plug, PartShape.SCREW)
        own.thread = sheet.thread
        _fill_in(tx, own, sheet)
        _tie(tx, nut, sheet, pitch, feature)
        tx.session.add(
            MakingTool(
                sheet_id=sheet.id,
                what=f"{title(plug)}, on its own sheet",
                why="proves the thread",
                position=99,
            )
        )
        tx.session.flush()
        _stay_fresh(tx, sheet, fresh)
        tx.subject = f"of {title(plug)}, which proves {title(nut)}"
        return own.id


def _stay_fresh(tx: Tx, sheet: MakingSheet, fresh: bool) -> None:
    """The nut's sheet knows its plug. One being made keeps the limits it is cut to, and is no staler than it was."""
    if sheet.progress is not MakingProgress.BEING_MADE:
        with follows_issue(tx, sheet):
            refresh_all(tx, sheet)
    elif fresh:
        sheet.looked = signature(asked_of(tx, sheet))


def _pitch(tx: Tx, sheet: MakingSheet) -> MakingDimension:
    """The size that is the nut's pitch diameter. Raises as ``plug_sheet``."""
    if sheet.shape is not PartShape.NUT:
        raise BadEntry(
            f"is of a {sheet.shape}, and a plug proves a nut.",
            where=called(tx, sheet),
            way_out="Say nut as its shape, or prove it with its mate.",
        )
    parse_designation(sheet.thread)
    rows = [row for row in pitch_rows(dimensions_of(tx, sheet.id)) if row.low_mm and row.high_mm]
    if not rows:
        raise BadEntry(
            "has no limits yet, and the plug is turned to them.",
            where=f"{called(tx, sheet)}, pitch diameter",
            way_out="Measure its screw, or type the limits; then make the plug.",
        )
    return rows[0]


def _made_already(tx: Tx, pitch: MakingDimension) -> int | None:
    """The newest sheet of the plug this nut has already."""
    inner = tx.session.scalar(
        select(Fit.inner_id).where(Fit.outer_id == pitch.feature_id, Fit.name == PROVED)
    )
    if inner is None:
        return None
    part_id = tx.get(Feature, inner, "feature").part_id
    return tx.session.scalar(
        select(MakingSheet.id)
        .where(MakingSheet.part_id == part_id)
        .order_by(MakingSheet.attempt.desc())
        .limit(1)
    )


def _plug(tx: Tx, nut: Part, sheet: MakingSheet) -> Part:
    where = Part.machine_id == nut.machine_id, Part.subassembly_id.is_(nut.subassembly_id)
    last = tx.session.scalar(select(func.max(Part.position)).where(*where))
    code = f"{nut.code}-P" if nut.code else ""
    part = Part(
        machine_id=nut.machine_id,
        subassembly_id=nut.subassembly_id,
        name="thread plug",
        code="" if code in codes(tx.connection, nut.machine_id) else code,
        material="steel",
        origin=Origin.UNKNOWN,
        identity=Identity.NOT_OURS,
        decision=Decision.REMAKE,
        decision_reason=f"proves the thread {sheet.thread} of {title(nut)}; a gauge, no part of the machine",
        position=0 if last is None else last + 1,
    )
    tx.session.add(part)
    tx.session.flush()
    return part


def _feature(tx: Tx, plug: Part, sheet: MakingSheet, pitch: MakingDimension) -> Feature:
    """The plug's pitch diameter: from the low end of the nut's band, a gauge's width."""
    assert pitch.low_mm is not None
    assert pitch.high_mm is not None
    feature = Feature(
        part_id=plug.id,
        name="pitch diameter",
        kind=FeatureKind.THREAD,
        unit=sheet.unit,
        thread=sheet.thread,
        spec_origin=SpecOrigin.JUDGEMENT,
    )
    put_band(feature, *plug_band(pitch.low_mm, pitch.high_mm, sheet.unit), sheet.unit)
    tx.session.add(feature)
    tx.session.flush()
    return feature


def _fill_in(tx: Tx, own: MakingSheet, sheet: MakingSheet) -> None:
    """As long as the nut, so that an error of pitch shows; proved over wires, not by the nut it proves."""
    refresh_all(tx, own)
    length = next((row for row in dimensions_of(tx, sheet.id) if row.role == "length"), None)
    for row in dimensions_of(tx, own.id):
        if row.role == "thread length" and length is not None and measure_of(length).given:
            at, some = measure_of(length).at_mm, 0.01 * 25.4 if own.unit == "in" else 0.25
            put_measure(row, Measure(row.name, at, at - some, at + some), own.unit)
            row.limits_from = LimitsFrom.OWN
    for step in tx.session.scalars(select(MakingStep).where(MakingStep.sheet_id == own.id)):
        if step.what.startswith("Try the nut"):
            step.what = "Measure over wires at both ends and the middle; stone off the burrs at the runout"
            step.tool = "thread wires"


def _tie(tx: Tx, nut: Part, sheet: MakingSheet, pitch: MakingDimension, plug: Feature) -> None:
    """The fit that makes the nut wait for its plug: it enters, with no more shake than the nut's band."""
    assert pitch.low_mm is not None
    assert pitch.high_mm is not None
    assert pitch.feature_id is not None
    wide = exact_text(round(pitch.high_mm - pitch.low_mm, 9), sheet.unit)
    feature = tx.get(Feature, pitch.feature_id, "feature")
    feature.thread = feature.thread or sheet.thread
    entry = FitEntry(
        pitch.feature_id, plug.id, wanted=f"0-{wide}", name=PROVED, unit=sheet.unit, master=Side.INNER,
        note=f"The plug of {title(nut)} enters along its whole length.",
    )  # fmt: skip
    put_fit(tx, entry, None, confirmed=True)
