"""Part lists and readings out of other people's tables: headings, signs, units, and a sentence for every bad row."""

from __future__ import annotations

from pathlib import Path

import pytest
from openpyxl import Workbook

from rebuild.errors import BadEntry, FileTrouble
from rebuild.exchange.columns import mapping
from rebuild.exchange.guess import batches_of, which
from rebuild.exchange.tables import Table, read_tables
from rebuild.work.lists.acts import Looked, bring_in, look_over
from rebuild.work.lists.fields import What
from rebuild.work.machines import rows_tree as tree
from rebuild.work.readings import rows_grid as grid
from rebuild.work.records.acts_settings import set_decimal_comma
from rebuild.work.records.rows_kept import kept_entries
from rebuild.work.records.rows_settings import verdict_rule
from tests.conftest import Shop
from tests.support import read_contents, readings_of as row_readings

PARTS = (
    "Tag;Description;Qty;Mat;Assembly;Location\nQ-1;worm wheel;2;C93200;Headstock;A2\nQ-2;knob;;;Gearbox;\n"
)


def write(tmp_path: Path, text: str, name: str = "list.csv", coding: str = "utf-8") -> Path:
    path = tmp_path / name
    path.write_bytes(text.encode(coding))
    return path


def looked(shop: Shop, path: Path) -> list[Looked]:
    return look_over(shop.store, shop.machine, batches_of(path))


def parts_of(shop: Shop) -> dict[str, tree.PartRow]:
    with shop.store.read() as connection:
        return {row.code: row for row in tree.parts(connection, shop.machine)}


def readings_of(shop: Shop) -> list[tuple[str, str, float]]:
    with shop.store.read() as connection:
        keys = grid.keys(connection, grid.Asked(shop.machine), verdict_rule(shop.store), {})
        rows = grid.rows(connection, keys, verdict_rule(shop.store), {})
        return [
            (f"{row.feature} {row.station}".strip(), reading.typed, reading.value_mm)
            for row in rows
            for reading in row.readings
            if reading is not None
        ]


# Tables


@pytest.mark.parametrize(
    ("coding", "mark"),
    [("utf-8", ";"), ("utf-8-sig", ","), ("utf-16", "\t"), ("cp1252", ";")],
)
def test_tables_are_read_whatever_wrote_them(coding: str, mark: str, tmp_path: Path) -> None:
    text = PARTS.replace(";", mark).replace("worm wheel", "wälzlager Ø 20")
    table = read_tables(write(tmp_path, text, coding=coding))[0]
    assert table.heads == ("Tag", "Description", "Qty", "Mat", "Assembly", "Location")
    assert table.rows[0][1] == "wälzlager Ø 20"
    assert which(table) is What.PARTS


def test_quoted_text_keeps_its_commas_and_line_ends(tmp_path: Path) -> None:
    table = read_tables(write(tmp_path, 'code,name,note\nA-1,"pin, taper","two\nlines"\n'))[0]
    assert table.rows == (("A-1", "pin, taper", "two\nlines"),)


def test_headings_may_stand_below_empty_rows_and_rows_keep_their_number(shop: Shop, tmp_path: Path) -> None:
    path = write(tmp_path, "\n\ncode,name\nQ-1,pin\n\nHS-01,\n")
    bad = [row for row in looked(shop, path) if row.trouble]
    assert [(row.line.number, row.trouble.split(".")[0]) for row in bad] == [
        (6, "Code: “HS-01” is already the code of “spindle”")
    ]


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (b"", "holds no rows"),
        (b"code,name\n", "holds no rows"),
        (b"\x00\x01\x02\x03" * 50, "not a text file"),
        (b"code,name\nA,b,c,d\n", "more fields in row 2"),
    ],
)
def test_what_is_no_table_is_refused_with_a_sentence(content: bytes, said: str, tmp_path: Path) -> None:
    path = tmp_path / "list.csv"
    path.write_bytes(content)
    with pytest.raises(FileTrouble, match=said):
        read_tables(path)


def test_a_broken_workbook_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "list.xlsx"
    path.write_bytes(b"PK\x03\x04 but no more")
    with pytest.raises(FileTrouble, match="no workbook"):
        read_tables(path)


def test_a_workbook_gives_numbers_and_dates_as_they_would_be_typed(shop: Shop, tmp_path: Path) -> None:
    import datetime as dt

    book = Workbook()
    sheet = book.active
    assert sheet is not None
    sheet.append(["Part code", "Feature", "Station", "Value", "Unit", "Date", "By"])
    sheet.append(["HS-01", "front journal", "near", 59.985, "mm", dt.datetime(2026, 3, 14, 19, 30), None])
    book.save(tmp_path / "readings.xlsx")
    made = bring_in(shop.store, shop.machine, batches_of(tmp_path / "readings.xlsx"))
    assert made.words == "1 reading"
    assert readings_of(shop) == [("front journal near", "59.985", 59.985)]
    with shop.store.read() as connection:
        assert row_readings(connection, (shop.journal, shop.near))[0][1] == "2026-03-14 19:30"


def test_a_table_of_neither_kind_is_refused() -> None:
    table = Table("weather", ("day", "rain"), (("Monday", "yes"),))
    with pytest.raises(BadEntry, match="no headings of a part list"):
        which(table)


def test_a_heading_means_one_thing_and_exact_words_go_first() -> None:
    found = mapping(What.READINGS, ("Value", "Reading, as typed", "Value [mm]", "Part code", "mm", "Colour"))
    assert found == {1: "typed", 2: "value_mm", 3: "part_code"}


# Part lists


def test_a_part_list_comes_in_with_its_subassemblies_and_places(shop: Shop, tmp_path: Path) -> None:
    made = bring_in(shop.store, shop.machine, batches_of(write(tmp_path, PARTS)))
    assert (made.words, made.kept) == ("2 parts", 0)
    there = parts_of(shop)
    assert (there["Q-1"].name, there["Q-1"].quantity, there["Q-1"].place) == ("worm wheel", 2, "A2")
    assert there["Q-1"].subassembly_id == shop.headstock
    with shop.store.read() as connection:
        groups = {row.id: row.name for row in tree.subassemblies(connection, shop.machine)}
    assert groups[there["Q-2"].subassembly_id or 0] == "Gearbox"


def test_one_undo_takes_the_whole_import_back(shop: Shop, tmp_path: Path) -> None:
    before = read_contents(shop.path)
    bring_in(shop.store, shop.machine, batches_of(write(tmp_path, PARTS)))
    assert shop.store.undo_label() == "import of 2 parts"
    shop.store.undo()
    assert read_contents(shop.path) == before
    shop.store.redo()
    assert "Q-2" in parts_of(shop)


def test_every_bad_row_has_its_own_sentence_and_stops_the_rest(shop: Shop, tmp_path: Path) -> None:
    path = write(
        tmp_path,
        "code,name,quantity,decision,reason\n"
        "HS-01,spindle,1,,\nQ-1,pin,many,,\nQ-2,nut,1,melt,\nQ-3,key,1,remake,\nQ-4,cap,1,,\nQ-4,cap,1,,\n",
    )
    before = read_contents(shop.path)
    found = looked(shop, path)
    assert [bool(row.trouble) for row in found] == [True, True, True, True, False, True]
    for row, said in zip(
        found,
        ("already the code", "not a whole number", "not one of the words", "eason", "", "already the code"),
        strict=True,
    ):
        assert said in row.trouble
    with pytest.raises(BadEntry, match=r"part list, row 2: .*4 more rows") as stopped:
        bring_in(shop.store, shop.machine, batches_of(path))
    assert "kept entries" in str(stopped.value)
    assert read_contents(shop.path) == before


def test_rows_that_cannot_be_are_kept_word_for_word(shop: Shop, tmp_path: Path) -> None:
    path = write(tmp_path, "code,name,note\nHS-01,spindle,do not lose me\nQ-1,pin,fine\n")
    made = bring_in(shop.store, shop.machine, batches_of(path), keep_bad=True)
    assert (made.words, made.kept) == ("1 part", 1)
    with shop.store.read() as connection:
        kept = kept_entries(connection)
    assert len(kept) == 1
    assert kept[0].meant_for == "import, part list, row 2"
    assert "do not lose me" in kept[0].typed
    assert "already the code" in kept[0].why


def test_a_list_for_another_machine_is_not_put_into_this_one(shop: Shop, tmp_path: Path) -> None:
    path = write(tmp_path, "machine,code,name\nToolroom lathe,Q-1,pin\nSome mill,Q-2,nut\n")
    found = looked(shop, path)
    assert found[0].clear
    assert "There is no machine “Some mill”" in found[1].trouble


def test_without_a_machine_the_rows_say_so(shop: Shop, tmp_path: Path) -> None:
    found = look_over(shop.store, None, batches_of(write(tmp_path, PARTS)))
    assert all("Choose the machine" in row.trouble for row in found)


# Readings

HEAD = "part code,feature,station,stage,reading,unit,with,temperature,date,note\n"


@pytest.mark.parametrize(
    ("row", "said"),
    [
        ("HS-99,front journal,near,cleaned,59.98,mm,,,,", "There is no part “HS-99”"),
        ("HS-01,rear journal,near,cleaned,59.98,mm,,,,", "has no feature “rear journal”"),
        ("HS-01,front journal,middle,cleaned,59.98,mm,,,,", "has no station “middle”"),
        ("HS-01,front journal,near,polished,59.98,mm,,,,", "not one of the words"),
        ("HS-01,front journal,near,cleaned,sixty,mm,,,,", "is not a size"),
        ("HS-01,front journal,near,cleaned,59.98,furlong,,,,", "not a unit here"),
        ('HS-01,front journal,near,cleaned,"1,250",mm,,,,', "comma"),
        ("HS-01,front journal,near,cleaned,59.98,mm,,,last week,", "is not a date"),
        ("HS-01,front journal,near,cleaned,59.98,mm,,warm,,", "emperature"),
        ("HS-01,front journal,near,cleaned,,mm,,,,nothing read", "is empty"),
        ("HS-01,front journal,near,cleaned,59.98; 2.361 in,mm,,,,", "mixes units"),
        (",,near,cleaned,59.98,mm,,,,", "is not given"),
    ],
)
def test_a_bad_reading_is_said_in_its_row(row: str, said: str, shop: Shop, tmp_path: Path) -> None:
    found = looked(
        shop, write(tmp_path, HEAD + "HS-01,front journal,near,cleaned,59.98,mm,,,,\n" + row + "\n")
    )
    assert found[0].clear
    assert said in found[1].trouble
    assert not found[1].odd
    assert found[1].line.number == 3


def test_an_odd_reading_wants_a_second_look_and_no_more(shop: Shop, tmp_path: Path) -> None:
    path = write(tmp_path, HEAD + "HS-01,front journal,near,cleaned,5.998,mm,,,,\n")
    found = looked(shop, path)
    assert found[0].odd
    assert "5.998" in found[0].trouble
    with pytest.raises(BadEntry):
        bring_in(shop.store, shop.machine, batches_of(path))
    assert bring_in(shop.store, shop.machine, batches_of(path), confirmed=True).words == "1 reading"
    assert readings_of(shop) == [("front journal near", "5.998", 5.998)]


def test_inches_in_a_metric_feature_keep_their_text(shop: Shop, tmp_path: Path) -> None:
    path = write(
        tmp_path, HEAD + "HS-01,front journal,near,cleaned,2.3615,in,Micrometer 50-75,68 F,14.03.2026,\n"
    )
    bring_in(shop.store, shop.machine, batches_of(path))
    assert readings_of(shop) == [("front journal near", "2.3615", pytest.approx(2.3615 * 25.4, rel=1e-15))]
    with shop.store.read() as connection:
        row = row_readings(connection, (shop.journal, shop.near))[0][0]
    assert (row.unit, row.instrument_id) == ("in", shop.micrometer)
    assert row.temperature_c == pytest.approx(20.0)


def test_a_comma_is_read_as_the_file_says(shop: Shop, tmp_path: Path) -> None:
    path = write(tmp_path, "part code;feature;station;reading\nHS-01;front journal;near;59,985\n")
    set_decimal_comma(shop.store, True)
    bring_in(shop.store, shop.machine, batches_of(path))
    assert readings_of(shop) == [("front journal near", "59,985", 59.985)]


def test_millimetres_that_disagree_with_the_text_are_refused(shop: Shop, tmp_path: Path) -> None:
    path = write(
        tmp_path,
        'Part code,Feature,Station,"Reading, as typed",Unit,Value [mm]\nHS-01,front journal,near,59.98,mm,59.89\n',
    )
    assert "does not read as the 59.89 mm" in looked(shop, path)[0].trouble


def test_an_instrument_nobody_knows_is_added_without_a_limit(shop: Shop, tmp_path: Path) -> None:
    path = write(tmp_path, HEAD + "HS-01,front journal,far,cleaned,59.981,mm,New micrometer,,,\n")
    bring_in(shop.store, shop.machine, batches_of(path))
    from rebuild.work.records.rows import card, choices

    with shop.store.read() as connection:
        named = {one.label: one.id for one in choices(connection, "instrument", shop.machine)}
        fields = card(connection, "instrument", named["New micrometer"]).fields
    assert fields["mpe"] == ""
    assert "came with an import" in fields["note"]


def test_a_bad_row_leaves_nothing_half_done_behind(shop: Shop, tmp_path: Path) -> None:
    """The subassembly and place a refused part would have made are not made."""
    path = write(
        tmp_path, "code,name,assembly,location\nHS-01,spindle,Brand new group,Brand new place\nQ-1,pin,,\n"
    )
    bring_in(shop.store, shop.machine, batches_of(path), keep_bad=True)
    with shop.store.read() as connection:
        assert "Brand new group" not in [row.name for row in tree.subassemblies(connection, shop.machine)]
        from rebuild.work.records.rows import choices

        assert not [one for one in choices(connection, "place", shop.machine) if "Brand new" in one.label]


def test_a_folder_without_lists_is_refused(tmp_path: Path) -> None:
    (tmp_path / "empty").mkdir()
    with pytest.raises(FileTrouble, match="no part list and no readings"):
        batches_of(tmp_path / "empty")


def test_the_comma_of_a_whole_list_says_what_that_of_a_cell_leaves_open(shop: Shop, tmp_path: Path) -> None:
    """Seen by a stranger: every row of a list with three decimals was asked what its comma means."""
    heads = "Part code;Feature;Station;Stage;Reading\n"
    rows = "HS-01;front journal;near;as found;59,985\nHS-01;front journal;far;as found;59,962\n"
    found = looked(shop, write(tmp_path, heads + rows))
    assert [row.trouble for row in found] == ["", ""]
    bring_in(shop.store, shop.machine, batches_of(write(tmp_path, heads + rows)))
    assert [(typed, mm) for _row, typed, mm in readings_of(shop)] == [("59,985", 59.985), ("59,962", 59.962)]
    mixed = heads + "HS-01;front journal;near;cleaned;1,250\nHS-01;front journal;far;cleaned;59.96\n"
    assert "comma" in looked(shop, write(tmp_path, mixed))[0].trouble
    alone = heads + "HS-01;front journal;near;cleaned;1,250\n"
    assert "comma" in looked(shop, write(tmp_path, alone))[0].trouble
