"""Holes and flats of a sheet, and fits at assembly: drawn, ticked, part of acceptance, kept by the next attempt."""

from __future__ import annotations

from pathlib import Path

import pytest
from ezdxf import recover
from pypdf import PdfReader

from rebuild.errors import BadEntry
from rebuild.sheets.dxf import write_dxf
from rebuild.sheets.making_sheet import title_of, write_making_sheet
from rebuild.trade.drawing.ink import Layer, Line
from rebuild.words.decisions import Decision
from rebuild.words.fitting import FittingKind
from rebuild.words.making_details import DetailKind
from rebuild.words.readings import Stage
from rebuild.words.steps import TaskKind
from rebuild.work.decisions import acts as decide
from rebuild.work.editing.acts import edit, remove
from rebuild.work.making import acts as making, acts_as_made as as_made
from rebuild.work.making.acts_as_made import Conceding
from rebuild.work.making.acts_details import add_detail, tick_detail
from rebuild.work.making.acts_fittings import add_fitting, finish_fitting
from rebuild.work.making.acts_sizes import set_size
from rebuild.work.making.rows_fittings import fittings
from rebuild.work.making.rows_sheet import sheet_page
from rebuild.work.making.rows_sheet_lists import SheetPage, SizeRow
from rebuild.work.steps.guess import kind_of_step
from tests.sheets.conftest import PRINTED
from tests.support import enter_as_made, refuses, tick_steps
from tests.work.teardown.apron import Apron


def page(shop: Apron, sheet: int) -> SheetPage:
    with shop.store.read() as connection:
        return sheet_page(connection, sheet)


@pytest.fixture
def bush(small_apron: Apron) -> tuple[Apron, int]:
    """The bush's sheet, its shaft measured, its length typed."""
    shop = small_apron
    decide.decide(shop.store, [shop.parts["AP-12"], shop.parts["AP-11"]], Decision.REMAKE, reason="worn oval")
    shop.read("journal A", "0.6247", Stage.AS_MADE)
    sheet = making.start_sheet(shop.store, shop.parts["AP-12"])
    length = next(size.id for size in page(shop, sheet).sizes if size.name == "length")
    set_size(shop.store, length, "1.250 ±0.010")
    return shop, sheet


def made(shop: Apron, sheet: int) -> None:
    """Its turned sizes measured well within their limits."""
    for size in page(shop, sheet).sizes:
        if size.feature_id is not None and size.measure.low_mm is not None and not size.made:
            enter_as_made(shop.store, size.id, f"{size.measure.at_mm / 25.4:.5f}", shop.micrometer)


#: ISO 2768-1, table 1, class m: to 6 mm ±0.1, to 30 ±0.2, to 120 ±0.3. By hand, as a shop in inches rounds down:
#: 0.1 / 25.4 = 0.0039, 0.2 / 25.4 = 0.0079, 0.3 / 25.4 = 0.0118; 6, 30, 120 mm are 0.236, 1.181, 4.724 in. The bush,
#: 1.25 in long, needs no more rows.
_GENERAL = "ISO 2768-m, in inches: to 0.236 ±0.003, to 1.181 ±0.007, to 4.724 ±0.011"


# Seen: the strip of a sheet in inches, and of its DXF, said "ISO 2768-m" alone: that standard's millimetres.
def test_a_detail_is_drawn_printed_and_in_the_exchange_file(bush: tuple[Apron, int], tmp_path: Path) -> None:
    shop, sheet = bush
    add_detail(
        shop.store, sheet, DetailKind.CROSS_HOLE, "oil hole", {"place": "0.500", "size": "0.125-0.130"}
    )
    add_detail(shop.store, sheet, DetailKind.FLAT, "stop", {"place": "1.0", "long": "0.5", "depth": "0.02"})
    found = page(shop, sheet)
    assert found.drawing.drawn is not None
    # Seen: typed 1.250, shown 1.25; the decimals say how a size is meant.
    assert "1.250 ±0.010 in" in [one.words for one in found.sizes]
    assert found.drawing.drawn.dimension("length").measure.lines("in") == ("1.250 ±0.010",)
    # By hand: 0.500 in from the left end is 12.7 mm.
    assert found.drawing.drawn.dimension("place of oil hole").measured_mm == pytest.approx(12.7)
    assert found.details[0].words == "Ø0.125 to Ø0.130, through one wall, 0.500 from the left end, 0° round"
    assert "ends 1.5000 in (38.100 mm) from the left end, beyond the part" in found.details[1].trouble
    target = tmp_path / "sheet.pdf"
    write_making_sheet(found, target, printed=PRINTED)
    front = " ".join(PdfReader(target).pages[0].extract_text().split())
    for said in (
        "oil hole (cross-hole)",
        "Ø0.125 to Ø0.130",
        _GENERAL,
        "without limits",
        "material",
        "finish",
    ):
        assert said in front
    drawing = tmp_path / "part.dxf"
    write_dxf(found.drawing.drawn, drawing, "in", title="bush", strip=title_of(found))
    document, auditor = recover.readfile(drawing)
    assert (auditor.errors, auditor.fixes) == ([], [])
    texts = {entity.dxf.text for entity in document.modelspace().query("TEXT")}
    assert {"scale", _GENERAL.replace("±", "%%p"), "inches", "material"} <= texts
    assert any("oil hole" in entity.text for entity in document.modelspace().query("MTEXT"))


# Seen: an oil hole of a bush was drawn through both walls.
def test_an_oil_hole_goes_through_one_wall_of_a_bush(bush: tuple[Apron, int]) -> None:
    """By hand: outside 0.8138 in, bore 0.62595 in, so that a wall is (0.8138 - 0.62595) / 2 = 0.0939 in thick."""
    shop, sheet = bush
    deep: dict[str, float] = {}
    for name, depth in (
        ("oil hole", ""),
        ("pin hole", ""),
        ("oil way", "right through"),
        ("vent", "one wall"),
    ):
        key = add_detail(
            shop.store,
            sheet,
            DetailKind.CROSS_HOLE,
            name,
            {"place": "0.5", "size": "0.125", "depth": depth},
        )
        drawn = page(shop, sheet).drawing.drawn
        assert drawn is not None
        x = (0.5 + 0.0625) * 25.4
        deep[name] = max(
            abs(one.a[1] - one.b[1]) / 25.4
            for one in drawn.strokes
            if isinstance(one, Line)
            and one.layer is Layer.HIDDEN
            and one.a[0] == pytest.approx(x)
            and one.b[0] == pytest.approx(x)
        )
        remove(shop.store, "making_detail", [key])
    assert deep == pytest.approx(
        {"oil hole": 0.0939, "pin hole": 0.8138, "oil way": 0.8138, "vent": 0.0939}, abs=1e-4
    )


def test_a_detail_is_part_of_acceptance(bush: tuple[Apron, int]) -> None:
    shop, sheet = bush
    hole = add_detail(
        shop.store, sheet, DetailKind.CROSS_HOLE, "oil hole", {"place": "0.500", "size": "0.125-0.130"}
    )
    making.release(shop.store, sheet)
    making.begin(shop.store, sheet)
    made(shop, sheet)
    tick_steps(shop.store, sheet)
    with refuses(shop.store, "no as-made value yet: oil hole"):
        as_made.finish(shop.store, sheet)
    as_made.finish(shop.store, sheet, sure=True)
    with refuses(shop.store, "is not ticked as made: oil hole"):
        as_made.accept(shop.store, sheet)
    tick_detail(shop.store, hole, "0.1301")
    assert page(shop, sheet).details[0].outside
    with refuses(shop.store, r"oil hole: came out to 0\.1301, asked for 0\.125-0\.130"):
        as_made.accept(shop.store, sheet)
    tick_detail(shop.store, hole, "0.130")
    assert not page(shop, sheet).details[0].outside, "on the limit"
    tick_detail(shop.store, hole, "0.131")
    as_made.accept(shop.store, sheet, concession=Conceding("oil passes all the same", "J. R."))
    assert page(shop, sheet).outcome.concessions == ("oil hole 0.131: oil passes all the same (J. R.)",)


def test_the_next_attempt_keeps_the_detail_and_not_what_became_of_it(bush: tuple[Apron, int]) -> None:
    shop, sheet = bush
    hole = add_detail(shop.store, sheet, DetailKind.SPOT, "spot", {"place": "0.3", "size": "0.25"})
    making.release(shop.store, sheet)
    making.begin(shop.store, sheet)
    tick_detail(shop.store, hole, "0.25")
    again = as_made.scrap(shop.store, sheet, "bored too large")
    assert again is not None
    (row,) = page(shop, again).details
    assert (row.name, row.came_out, row.done_at) == ("spot", "", None)


def test_what_cannot_be_read_stores_nothing(bush: tuple[Apron, int]) -> None:
    shop, sheet = bush
    with refuses(shop.store, "Diameter or width: “wide”"):
        add_detail(shop.store, sheet, DetailKind.FLAT, "flat", {"size": "wide"})
    key = add_detail(shop.store, sheet, DetailKind.FLAT, "flat", {"long": "0.5", "depth": "0.02"})
    with refuses(shop.store, "Depth: “1,250” has a comma"):
        edit(shop.store, "making_detail", [key], {"depth": "1,250"}, seen={"depth": "0.02"})
    shop.store.undo()
    assert page(shop, sheet).details == ()


def test_a_fit_at_assembly_has_a_start_an_allowance_a_condition_and_an_end(bush: tuple[Apron, int]) -> None:
    shop, sheet = bush
    part = shop.parts["AP-12"]
    with refuses(shop.store, "Until: is empty"):
        add_fitting(shop.store, part, FittingKind.REAM, "bore")
    key = add_fitting(
        shop.store, part, FittingKind.REAM, "bore",
        {"start": "0.6150", "allowance": "0.010", "condition": "the shaft turns by hand without shake"},
    )  # fmt: skip
    (row,) = page(shop, sheet).fittings
    assert row.asked == (
        "ream in place: bore, from 0.6150, 0.010 left on, until the shaft turns by hand without shake"
    )
    with refuses(shop.store, "Came out: is empty"):
        finish_fitting(shop.store, key, " ")
    finish_fitting(shop.store, key, "0.6258")
    with shop.store.read() as connection:
        (row,) = fittings(connection, part)
    assert (row.came_out, row.done_at is not None) == ("0.6258", True)
    with pytest.raises(BadEntry, match="Say what must hold"):
        edit(shop.store, "fitting", [key], {"condition": ""}, seen={"condition": row.condition})
    shop.store.undo()
    assert page(shop, sheet).fittings[0].done_at is None


@pytest.mark.parametrize(
    ("title", "kind"),
    [
        ("Stone the thrust face", TaskKind.STONE),
        ("Trial fit of the gib", TaskKind.TRIAL_FIT),
        ("Fit the gib", TaskKind.REFIT),
        ("Scrape the saddle", TaskKind.REWORK),
    ],
)
def test_stoning_and_trial_fits_are_steps_of_their_own_kind(title: str, kind: TaskKind) -> None:
    assert kind_of_step(title) is kind


def test_a_band_finer_than_its_step_holds_is_said_and_limits_keep_their_decimals(
    bush: tuple[Apron, int], tmp_path: Path
) -> None:
    """ISO 286-1, Table 1, over 10 to 18 mm: IT 5 8, IT 6 11, IT 8 27 µm; a reamed hole is IT 8 as a rule.

    By hand: 0.6257 to 0.6261 in is 0.0004 in = 10.2 µm: IT 5, as 11 µm is more; IT 8 is 0.00106 in.
    """
    shop, sheet = bush

    def size(name: str) -> SizeRow:
        return next(one for one in page(shop, sheet).sizes if one.name == name)

    set_size(shop.store, size("bore").id, "0.6257-0.6261")
    assert size("bore").tight == (
        "bore: 0.00040 in wide is IT 5 at this size, and reaming holds IT 8 (0.00106 in) as a rule, "
        "IT 6 (0.00043 in) at best"
    )
    paper = tmp_path / "sheet.pdf"
    write_making_sheet(page(shop, sheet), paper, printed=PRINTED)
    front, *back = (" ".join(sheet.extract_text().split()) for sheet in PdfReader(paper).pages)
    assert "IT 5, reaming: IT 8" in front
    assert "bore: 0.00040 in wide is IT 5 at this size" in " ".join(back)
    assert "lb (" in page(shop, sheet).blank.words, "an inch machine's blank is weighed in pounds first"
    set_size(shop.store, size("bore").id, "0.625-0.627")
    assert (size("bore").tight, size("bore").words) == ("", "0.625 to 0.627 in")
    drawn = page(shop, sheet).drawing.drawn
    assert drawn is not None
    assert drawn.dimension("bore").measure.lines("in", diameter=True) == ("Ø0.627", "Ø0.625")
    # Typed in the other unit, nobody said how many decimals of this one are meant.
    set_size(shop.store, size("bore").id, "15.88-15.92 mm")
    assert size("bore").words == "0.6252 to 0.6267 in"
