"""Made to its real mate: a nut to a screw read over wires, two pressed shafts, two pinned collars, of sizes of our own.

From an empty file to released sheets, printed and drawn as pictures; every number is worked again here by the formulas
of the trade, or is a published row. The pictures stay in the folder given as ``--basetemp``.
"""

from __future__ import annotations

import csv
import re
from dataclasses import dataclass
from math import atan, cos, pi, radians, sin, tan
from pathlib import Path

import pytest
from ezdxf import recover
from PySide6.QtWidgets import QFileDialog

from rebuild.sheets.dxf import write_dxf
from rebuild.sheets.making_sheet import title_of, write_making_sheet
from rebuild.store.store import Store
from rebuild.trade.joints.taper_pin_choice import choose_pin
from rebuild.window.making.page import MakingPage
from rebuild.words.decisions import Decision
from rebuild.words.fits import FitKind, Side
from rebuild.words.making import PartShape
from rebuild.words.making_details import DetailKind
from rebuild.words.readings import FeatureKind, Stage
from rebuild.work.decisions import acts as decide
from rebuild.work.fits.acts import FitEntry, add_fit
from rebuild.work.fits.rows import fit
from rebuild.work.fits.rows_tight import ways_in
from rebuild.work.machines import acts as identify
from rebuild.work.making import acts as making
from rebuild.work.making.acts_details import add_detail
from rebuild.work.making.acts_sizes import set_size
from rebuild.work.making.rows_sheet import sheet_page
from rebuild.work.making.rows_sheet_lists import SheetPage, SizeRow
from rebuild.work.readings import acts as measure, acts_features as spec
from rebuild.work.readings.acts import Entry
from tests.journeys.conftest import Start

INCH = 25.4
DATA = Path(__file__).parents[1] / "published" / "data"


@dataclass(frozen=True, slots=True)
class Shop:
    """A file with one machine in inches, and what the parts are entered by."""

    store: Store
    machine: int
    group: int

    def part(self, name: str, code: str, to_be: Decision, material: str = "steel") -> int:
        key = identify.add_part(
            self.store, self.machine, self.group, name, code, typed={"material": material}
        )
        decide.decide(self.store, [key], to_be, reason="worn" if to_be is Decision.REMAKE else "good")
        return key

    def feature(self, part: int, name: str, kind: FeatureKind, thread: str = "", size: str = "") -> int:
        return spec.add_feature(
            self.store, part, name, kind, unit="in", spec=size, typed={"thread": thread} if thread else {}
        )

    def read(self, feature: int, typed: str) -> None:
        measure.record_reading(self.store, typed, Entry(feature, None, Stage.CLEANED))

    def page(self, sheet: int) -> SheetPage:
        with self.store.read() as connection:
            return sheet_page(connection, sheet)

    def size(self, sheet: int, name: str) -> SizeRow:
        return next(one for one in self.page(sheet).sizes if name in one.name)

    def type(self, sheet: int, **sizes: str) -> None:
        for name, typed in sizes.items():
            set_size(self.store, self.size(sheet, name.replace("_", " ")).id, typed)


@pytest.fixture
def empty(store: Store) -> Shop:
    machine = identify.add_machine(store, "Small shaper", {"unit": "in"})
    return Shop(store, machine, identify.add_subassembly(store, machine, "Cross feed", "CF"))


def ends(row: SizeRow) -> tuple[float, float]:
    assert row.measure.low_mm is not None
    assert row.measure.high_mm is not None
    return row.measure.low_mm / INCH, row.measure.high_mm / INCH


def picture(paper: Path, page: int = 0) -> str:
    """One page as a PNG beside the paper, with something on it; returns its words."""
    import pypdfium2

    with pypdfium2.PdfDocument(paper) as document:
        image = document[page].render(scale=1.0, grayscale=True).to_pil()
        image.save(paper.with_name(f"{paper.stem}-{page + 1}.png"))
        dark = sum(image.histogram()[:128]) / (image.width * image.height)
        assert 0.005 < dark < 0.5, "neither empty nor black"
        return " ".join(document[page].get_textpage().get_text_bounded().split())


def published_row(name: str, **wanted: str) -> dict[str, str]:
    with (DATA / f"{name}.csv").open(encoding="utf-8") as file:
        found = [
            row for row in csv.DictReader(file) if all(row[key] == value for key, value in wanted.items())
        ]
    (row,) = found
    return row


def acme_over_wires(over: float, wire: float, pitch: float, about: float) -> float:
    """The pitch diameter by hand: M - w (1 + cosec a) + (P/2) cot a, less the lead angle's second-order term."""
    a, lead = radians(14.5), atan(pitch / (pi * about))
    plain = over - wire * (1 + 1 / sin(a)) + pitch / 2 / tan(a)
    return plain - wire / 2 * tan(lead) ** 2 * cos(a) / tan(a)


def test_a_nut_cut_to_a_screw_read_over_wires(start: Start, empty: Shop, tmp_path: Path) -> None:
    """From the reading to the released and printed sheets of nut and plug.

    1. The old 3/4-6 Acme screw reads 0.7680 over 0.0866 wires; 0.003 to 0.006 is wanted between it and the new nut.
    2. Ctrl+K's sheet: pitch diameter to suit; bore from the published row of the thread.
    3. Thread plug: a sheet of its own, the low fifth of the nut's band, over wires.
    4. Release of both, print, pictures.
    """
    shop = empty
    screw = shop.part("cross screw", "CF-1", Decision.REUSE)
    nut = shop.part("cross nut", "CF-2", Decision.REMAKE, "bearing bronze C93200")
    threads = [shop.feature(part, "thread", FeatureKind.THREAD, "3/4-6 ACME") for part in (nut, screw)]
    add_fit(shop.store, FitEntry(*threads, wanted="0.003-0.006", master=Side.INNER))
    shop.read(threads[1], "0.7680 over 0.0866 wires")
    sheet = making.start_sheet(shop.store, nut, shape=PartShape.NUT)

    by_hand = acme_over_wires(0.7680, 0.0866, 1 / 6, 0.657)
    low, high = ends(shop.size(sheet, "pitch diameter"))
    assert (low, high) == (pytest.approx(by_hand + 0.003, abs=2e-4), pytest.approx(by_hand + 0.006, abs=2e-4))
    # Source: ASME B1.5, basic dimensions of 3/4-6 Acme: minor 0.5833, its tolerance 0.05 P upward (from memory).
    row = published_row("acme_basic_data_in", D="0.75", tpi="6")
    bore = ends(shop.size(sheet, "bore"))
    assert bore[0] == pytest.approx(float(row["D1_pub"]), abs=1e-4)
    assert bore[1] == pytest.approx(float(row["D1_pub"]) + 0.05 / 6, abs=1e-4)
    shop.type(sheet, body_diameter="1.248-1.250", length="1.50 ±0.01")

    user = start(shop.store.path)
    page = user.page("making")
    assert isinstance(page, MakingPage)
    page.choose(sheet)
    user.click(user.button("Thread plug"))
    assert page.view.head.title.text() == "CF-2-P thread plug"
    assert page.view.page is not None
    plug = page.view.page.id
    user.click(user.button("Release"))
    assert page.view.head.state.text() == "ready"
    page.choose(sheet)
    user.click(user.button("Release"))
    assert page.view.head.state.text() == "waiting"
    assert "CF-2-P thread plug" in page.view.head.warning.text()
    user.click(user.button("Print…"))
    asked = next(one for one in user.frame.findChildren(QFileDialog) if one.isVisible())
    asked.fileSelected.emit(str(tmp_path / "nut.pdf"))
    asked.close()

    front, back = picture(tmp_path / "nut.pdf"), picture(tmp_path / "nut.pdf", 1)
    assert f"{low:.4f} to {high:.4f} in" in front
    assert "over 0.0866 in wires" in front
    assert "never deeper than" in back
    plug_low, plug_high = ends(shop.size(plug, "pitch diameter"))
    assert plug_low == pytest.approx(low, abs=1e-9)
    assert plug_high == pytest.approx(low + (high - low) / 5, abs=1e-4)
    told = dict(shop.page(plug).data[0].lines)
    wire = float(told["best wire"].split()[0])
    over = [float(one) for one in re.findall(r"([\d.]+) in", told["over three wires"])]
    for said, pitch in zip(over, (plug_low, plug_high), strict=True):
        assert acme_over_wires(said, wire, 1 / 6, pitch) == pytest.approx(pitch, abs=2e-4)


def test_the_sheet_first_and_the_fit_afterwards(start: Start, empty: Shop, tmp_path: Path) -> None:
    """A nut's sheet is begun from the book; then its screw is read, the fit made: the mate owns the size from there on.

    By hand, 1/2-10 Acme, P = 0.1, a = 14.5°: 0.5353 over 0.0577 wires is 0.5353 - 0.0577 (1 + cosec a) + 0.05 cot a
    = 0.5353 - 0.2881 + 0.1933 = 0.4405, less 0.0577/2 tan²(lead 4.05°) cos a / tan a = 0.0005: 0.4400 in.
    0.002 to 0.005 wanted: the nut is 0.4420 to 0.4450, not the book's 0.4500 to 0.4637. Depth: the standard's
    0.0600 less half of what the first pitch diameter lies under the book's, 0.0079 / 2: 0.0560 with the same nose.
    The plug: a fifth of the band from its low end up, 0.0029 / 5: 0.4421 to 0.4427.
    """
    shop = empty
    nut = shop.part("crosshead nut", "RL-02", Decision.REMAKE, "bearing bronze C93200")
    sheet = making.start_sheet(shop.store, nut, shape=PartShape.NUT)
    making.change_sheet(shop.store, sheet, {"thread": "1/2-10 ACME LH"})
    assert ends(shop.size(sheet, "pitch diameter"))[0] == pytest.approx(0.4500, abs=5e-5)
    shop.type(sheet, body_diameter="0.998-1.000", length="1.00 ±0.01")

    screw = identify.add_part(
        shop.store, shop.machine, shop.group, "crosshead screw", "RL-01", typed={"material": "steel"}
    )
    own = shop.feature(nut, "crosshead thread", FeatureKind.THREAD, "1/2-10 ACME LH")
    other = shop.feature(screw, "crosshead thread", FeatureKind.THREAD, "1/2-10 ACME LH")
    shop.read(other, "0.5353 over 0.0577 wires")
    add_fit(shop.store, FitEntry(own, other, wanted="0.002-0.005", master=Side.INNER))
    assert shop.page(sheet).course.stale

    user = start(shop.store.path)
    page = user.page("making")
    assert isinstance(page, MakingPage)
    page.choose(sheet)
    user.click(user.button("Refresh"))
    pitches = [size for size in shop.page(sheet).sizes if "pitch diameter" in size.name]
    assert [size.name for size in pitches] == ["crosshead thread, pitch diameter"]
    by_hand = acme_over_wires(0.5353, 0.0577, 0.1, 0.45)
    assert by_hand == pytest.approx(0.4400, abs=1e-4)
    low, high = ends(pitches[0])
    # A tenth is lost by rounding inward, the rest is the lead angle's second-order term.
    assert (low, high) == (pytest.approx(by_hand + 0.002, abs=2e-4), pytest.approx(by_hand + 0.005, abs=2e-4))
    assert low == pytest.approx(0.4421, abs=1e-6)  # as the sheet was seen to give it from the mate's side
    told = dict(shop.page(sheet).data[0].lines)
    assert float(told["depth of cut"].split()[0]) == pytest.approx(0.0600 - (0.4500 - low) / 2, abs=1e-4)
    for line in ("pitch diameter", "that depth is", "plug to prove it"):
        assert f"{low:.4f} in" in told[line], line

    user.click(user.button("Thread plug"))
    assert page.view.page is not None
    plug = page.view.page.id
    plug_ends = ends(shop.size(plug, "pitch diameter"))
    assert plug_ends == (pytest.approx(low, abs=1e-6), pytest.approx(low + (high - low) / 5, abs=1e-4))
    user.click(user.button("Release"))
    page.choose(sheet)
    user.click(user.button("Release"))
    assert page.view.head.state.text() == "draft"
    assert "RL-01 crosshead screw, crosshead thread is still to be decided" in page.view.head.warning.text()
    user.click(user.button("Release all the same"))
    assert page.view.head.state.text() == "waiting"
    user.click(user.button("Print…"))
    asked = next(one for one in user.frame.findChildren(QFileDialog) if one.isVisible())
    asked.fileSelected.emit(str(tmp_path / "nut.pdf"))
    asked.close()
    front = picture(tmp_path / "nut.pdf")
    assert f"{low:.4f} to {high:.4f} in" in front
    assert "0.4500" not in front

    # The screw is read again, 0.0010 in smaller: the nut follows, and then the plug is stale and follows too.
    shop.read(other, "0.5343 over 0.0577 wires")
    making.refresh(shop.store, sheet)
    assert ends(shop.size(sheet, "pitch diameter"))[0] == pytest.approx(low - 0.001, abs=1e-4)
    assert any("pitch diameter of RL-02 crosshead nut" in line for line in shop.page(plug).course.stale)
    making.refresh(shop.store, plug)
    assert not shop.page(plug).course.stale
    assert ends(shop.size(plug, "pitch diameter"))[0] == pytest.approx(low - 0.001, abs=1e-4)


def test_two_pressed_shafts(empty: Shop, tmp_path: Path) -> None:
    """Seats by hand: the bore as read plus what is wanted; force and pressure by Lamé, worked here for one steel.

    p = E (delta/d) (D² - d²) / (2 D²) for a solid shaft of the hub's own steel; force = µ p π d L, µ 0.05 to 0.20.
    """
    for code, read, wanted, seat in (
        ("CF-3", "0.8753", "0.0006-0.0011", (0.8759, 0.8764)),
        ("CF-4", "0.6251", "0.0004-0.0008", (0.6255, 0.6259)),
    ):
        gear = empty.part("gear", f"{code}G", Decision.REUSE)
        shaft = empty.part("shaft", code, Decision.REMAKE)
        bore = empty.feature(gear, "bore", FeatureKind.BORE)
        empty.feature(gear, "width", FeatureKind.WIDTH, size="1.000")
        empty.feature(gear, "outside", FeatureKind.OUTSIDE_DIAMETER, size="2.000")
        own = empty.feature(shaft, "seat", FeatureKind.OUTSIDE_DIAMETER)
        empty.read(bore, read)
        key = add_fit(
            empty.store,
            FitEntry(bore, own, FitKind.PRESS, wanted=f"{wanted} interference", master=Side.OUTER),
            confirmed=True,
        )
        sheet = making.start_sheet(empty.store, shaft, shape=PartShape.SHAFT)
        assert ends(empty.size(sheet, "diameter 1")) == (pytest.approx(seat[0]), pytest.approx(seat[1]))
        empty.type(sheet, length_1="3.00 ±0.01")
        making.release(empty.store, sheet)
        page = empty.page(sheet)
        write_making_sheet(page, tmp_path / f"{code}.pdf")
        assert f"{seat[0]:.4f} to {seat[1]:.4f} in" in picture(tmp_path / f"{code}.pdf")
        assert page.drawing.drawn is not None
        write_dxf(page.drawing.drawn, tmp_path / f"{code}.dxf", "in", title=title_of(page))
        document, audit = recover.readfile(tmp_path / f"{code}.dxf")
        assert not audit.has_errors
        assert len(document.modelspace()) > 10

        with empty.store.read() as connection:
            together = ways_in(connection, fit(connection, key))
        d, tight = float(read), float(wanted.partition("-")[2])  # the shaft is not made: the most wanted
        E = 206_000 / 6.894757e-3  # psi
        p = E * tight / d * (4 - d * d) / (2 * 4)
        low, high = (mu * p * pi * d * 1.0 for mu in (0.05, 0.20))
        text = together.working.text()
        said = re.search(r"over the friction there may be: ([\d,]+) to ([\d,]+) lbf", text)
        assert said is not None
        assert [float(one.replace(",", "")) for one in said.groups()] == pytest.approx([low, high], rel=0.01)
        pressure = re.search(r"pressure when home: ([\d,]+) psi", text)
        assert pressure is not None
        assert float(pressure[1].replace(",", "")) == pytest.approx(p, rel=0.005)
        assert together.value[0].method.name == "pressed cold"


def test_pinned_collars(empty: Shop, tmp_path: Path) -> None:
    """Two collars on a 5/8 shaft, 1 in outside: a taper pin a quarter to a third of the shaft, from a published row.

    Source: ASME B18.8.2, no. 2: 0.1930 at the large end, 0.1722 at 1 in. By hand its middle is 0.1930 - 0.25 in x 1/24.
    """
    row = published_row("taper_pins_b18_8_2_in", number="2")
    pin = choose_pin("inch", 0.625 * INCH, 1.0 * INCH).value
    assert (pin.pin.size, pin.filed_mm / INCH) == ("2", pytest.approx(1.0))
    assert pin.big_mm / INCH == pytest.approx(float(row["basic_large_end_dia_in"]), abs=5e-5)
    assert pin.small_mm / INCH == pytest.approx(float(row["small_end_at_1in_length"]), abs=1e-4)
    assert pin.middle_mm / INCH == pytest.approx(0.1930 - 0.5 / 48, abs=1e-4)
    assert 1 / 4 < pin.share < 1 / 3
    shaft = empty.part("shaft", "CF-5", Decision.REUSE)
    journal = empty.feature(shaft, "journal", FeatureKind.OUTSIDE_DIAMETER)
    empty.read(journal, "0.6248")
    for code in ("CF-6", "CF-7"):
        collar = empty.part("collar", code, Decision.REMAKE)
        bore = empty.feature(collar, "bore", FeatureKind.BORE)
        add_fit(
            empty.store,
            FitEntry(bore, journal, FitKind.SLIDING, wanted="0.0003-0.0010", master=Side.INNER),
            confirmed=True,
        )
        sheet = making.start_sheet(empty.store, collar, shape=PartShape.COLLAR)
        assert ends(empty.size(sheet, "bore")) == (pytest.approx(0.6251), pytest.approx(0.6258))
        empty.type(sheet, outside_diameter="0.998-1.000", width="0.500 ±0.005")
        small = f"{pin.small_mm / INCH:.4f}"
        add_detail(
            empty.store, sheet, DetailKind.CROSS_HOLE, "pin hole, drilled under a no. 2",
            {"place": "0.250", "size": small, "depth": "right through"},
        )  # fmt: skip
        making.release(empty.store, sheet)
        page = empty.page(sheet)
        assert page.drawing.drawn is not None
        assert page.drawing.drawn.dimension(
            "place of pin hole, drilled under a no. 2"
        ).measured_mm == pytest.approx(6.35)
        write_making_sheet(page, tmp_path / f"{code}.pdf")
        front = picture(tmp_path / f"{code}.pdf")
        assert "0.6251 to 0.6258 in" in front
        assert small in front
