"""Lists as the world keeps them: every shape comes in whole, and what is no list of parts never becomes parts."""

from __future__ import annotations

from pathlib import Path

import pytest

from rebuild.errors import BadEntry, FileTrouble
from rebuild.exchange.guess import batches_of, which
from rebuild.exchange.tables import Table, read_tables
from rebuild.work.lists.acts import bring_in, look_over
from rebuild.work.lists.fields import What
from rebuild.work.lists.line import InHand
from rebuild.work.lists.quantities import quantity_said
from rebuild.work.machines import rows_tree as tree
from rebuild.work.readings.acts_features import add_feature
from tests.conftest import Shop
from tests.exchange.shapes import SHAPES, Shape
from tests.support import refuses


@pytest.mark.parametrize("shape", SHAPES, ids=lambda shape: shape.name)
def test_a_list_comes_in_whole(shape: Shape, tmp_path: Path, shop: Shop) -> None:
    path = tmp_path / shape.name
    shape.write(path)
    with shop.store.read() as connection:
        before = {row.id for row in tree.parts(connection, shop.machine)}
    looked = look_over(shop.store, shop.machine, batches_of(path))
    assert [row.trouble for row in looked if row.trouble] == []
    said = f"{shape.count} × part" if shape.count != 1 else "part"
    assert any(row.says.startswith(said) and shape.part in row.says for row in looked), (
        "the quantity is in the preview"
    )
    bring_in(shop.store, shop.machine, batches_of(path))
    with shop.store.read() as connection:
        made = [row for row in tree.parts(connection, shop.machine) if row.id not in before]
    assert len(made) == shape.parts
    assert {(row.name, row.quantity) for row in made} >= {(shape.part, shape.count)}
    shop.store.undo()
    with shop.store.read() as connection:
        assert {row.id for row in tree.parts(connection, shop.machine)} == before


def test_what_is_measured_out_is_one_and_says_how_much(tmp_path: Path, shop: Shop) -> None:
    path = tmp_path / "felt.csv"
    path.write_text("code,item,qty,unit\nQ-1,felt strip,0.5,m\n", encoding="utf-8")
    looked = look_over(shop.store, shop.machine, batches_of(path))
    assert looked[0].says == "part Q-1 felt strip (0.5 m)"
    bring_in(shop.store, shop.machine, batches_of(path))
    with shop.store.read() as connection:
        note = connection.exec_driver_sql("SELECT note FROM part WHERE code = 'Q-1'").scalar_one()
    assert note == "quantity in the list: 0.5 m"


@pytest.mark.parametrize("text", ["2x", "x2", "2 ×", "2 pcs", "2 Stk.", "2.0", "2 個", "2 off"])
def test_ways_to_say_two(text: str) -> None:
    assert (quantity_said(text).count, quantity_said(text).said) == (2, "")


@pytest.mark.parametrize("text", ["many", "-1", "2 and 3", "1,500,2"])
def test_no_quantity_becomes_one_in_silence(text: str) -> None:
    with pytest.raises(BadEntry):
        quantity_said(text)


def test_sections_and_merged_cells_become_subassemblies(tmp_path: Path, shop: Shop) -> None:
    for shape in SHAPES:
        if shape.name not in ("sections.csv", "merged groups.xlsx"):
            continue
        path = tmp_path / shape.name
        shape.write(path)
        groups = {line.typed.get("group_name") for batch in batches_of(path) for line in batch.lines}
        assert groups == ({"Tailstock", "Saddle"} if "sections" in shape.name else {"Apron"})


REPORT = (
    "Report of the measuring machine\n\nMerkmal;Nennmaß;Istwert;Abweichung\nfront journal;60;59,981;-0,019\n"
    "rear journal;45;44,990;-0,010\n"
)


def test_a_measuring_report_becomes_readings_of_the_part_in_hand_and_never_parts(
    tmp_path: Path, shop: Shop
) -> None:
    add_feature(shop.store, shop.spindle, "rear journal")
    path = tmp_path / "report.csv"
    path.write_text(REPORT, encoding="utf-8")
    batches = batches_of(path)
    assert [batch.what for batch in batches] == [What.READINGS]
    from rebuild.work.records.acts_settings import set_decimal_comma

    set_decimal_comma(shop.store, True)
    with refuses(shop.store, "Part: is not given"):
        bring_in(shop.store, shop.machine, batches)
    made = bring_in(shop.store, shop.machine, batches, hand=InHand(part_id=shop.spindle))
    assert made.words == "2 readings"


def test_a_column_of_sizes_is_no_part_list() -> None:
    log = Table("log", ("name",), tuple((f"24.98{number}",) for number in range(5)))
    with pytest.raises(BadEntry, match="no headings of a part list"):
        which(log)


@pytest.mark.parametrize("text", ["59.981\n59.982\n59.980\n", "Messwert\n59.981\n59.982\n59.980\n"])
def test_a_log_of_one_column_goes_to_the_feature_in_hand(text: str, tmp_path: Path, shop: Shop) -> None:
    path = tmp_path / "indicator.txt"
    path.write_text(text, encoding="utf-8")
    batches = batches_of(path)
    assert [(batch.what, len(batch.lines)) for batch in batches] == [(What.READINGS, 3)]
    with refuses(shop.store, "Part: is not given"):
        bring_in(shop.store, shop.machine, batches)
    made = bring_in(shop.store, shop.machine, batches, hand=InHand(None, shop.spindle, shop.journal))
    assert made.words == "3 readings"


def test_parts_go_into_the_subassembly_in_hand_unless_they_say_another(tmp_path: Path, shop: Shop) -> None:
    path = tmp_path / "list.csv"
    path.write_text("name,assembly\nwiper,\ngib,Headstock\n", encoding="utf-8")
    bring_in(shop.store, shop.machine, batches_of(path), hand=InHand(shop.carriage))
    with shop.store.read() as connection:
        where = {row.name: row.subassembly_id for row in tree.parts(connection, shop.machine)}
    assert (where["wiper"], where["gib"]) == (shop.carriage, shop.headstock)


def test_a_workbook_of_the_old_kind_is_said_plainly(tmp_path: Path) -> None:
    """The eight bytes every compound file begins with: [MS-CFB] section 2.2."""
    path = tmp_path / "old.xls"
    path.write_bytes(bytes.fromhex("D0CF11E0A1B11AE1") + b"\x00" * 600)
    for name in ("old.xls", "old.xlsx"):
        (tmp_path / name).write_bytes(path.read_bytes())
        with pytest.raises(
            FileTrouble, match=r"workbook of the old kind \(XLS, before 2007\).*XLSX, ODS or CSV"
        ):
            read_tables(tmp_path / name)
