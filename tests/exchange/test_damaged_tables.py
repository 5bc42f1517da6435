"""Damaged and hostile tables: a sentence with the file, the sheet and the row; never a traceback, never a formula."""

from __future__ import annotations

import contextlib
import csv
import os
import re
import zipfile
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import given, strategies as st
from openpyxl import Workbook

from rebuild.errors import RebuildError
from rebuild.exchange.cells import cell_text, typed_text
from rebuild.exchange.tables import read_tables

Damage = Callable[[bytes], bytes]
#: Words of zip, zlib, XML and of the libraries that read them.
RAW = re.compile(
    r"CRC|zip|decompress|token|column \d|expected|invalid|literal|NoneType|archive|encrypted|<class|Error|dict|object"
)
SHEET = "xl/worksheets/sheet1.xml"


def workbook(path: Path, rows: int = 300) -> Path:
    book = Workbook()
    sheet = book.active
    assert sheet is not None
    sheet.title = "Parts"
    sheet.append(["code", "name", "quantity"])
    for number in range(rows):
        sheet.append([f"A-{number}", f"part {number}", number])
    book.save(path)
    return path


def damaged(path: Path, member: str, damage: Damage) -> Path:
    """The workbook with one of its parts changed."""
    with zipfile.ZipFile(path) as packed:
        parts = {name: packed.read(name) for name in packed.namelist()}
    parts[member] = damage(parts[member])
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as packed:
        for name, content in parts.items():
            packed.writestr(name, content)
    return path


BOMB = b'<?xml version="1.0"?><!DOCTYPE x [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;&a;&a;&a;&a;&a;&a;">]>'
BAD_DATE = b'<c r="A2" t="d"><v>not a date</v></c>'

DAMAGES: list[tuple[str, Damage, str]] = [
    (SHEET, lambda xml: xml[: len(xml) // 2], "sheet “Parts” is damaged after row"),
    (SHEET, lambda xml: BOMB + xml, "declares a document type"),
    ("xl/workbook.xml", lambda xml: xml[: len(xml) // 2], "is no workbook"),
    ("xl/workbook.xml", lambda xml: BOMB + xml, "declares a document type"),
    ("xl/styles.xml", lambda xml: xml[:200], "is no workbook"),
    ("[Content_Types].xml", lambda xml: b"<x/>", "is no workbook"),
    (SHEET, lambda xml: xml.replace(b'<row r="3"', b'<row r="three"'), "sheet “Parts” is damaged after row"),
    (SHEET, lambda xml: xml.replace(b'<c r="A2" t="inlineStr">', BAD_DATE + b'<c r="A2" t="inlineStr">')
        .replace(b'<c r="A2" t="s">', BAD_DATE + b'<c r="A2" t="s">'), "sheet “Parts” is damaged after row 1"),
    (SHEET, lambda xml: xml.replace(b"<v>", b"<v>1,5,", 1), "sheet “Parts” is damaged after row 1"),
]  # fmt: skip


@pytest.mark.parametrize(("member", "damage", "words"), DAMAGES)
def test_a_damaged_workbook_is_named_with_sheet_and_row(
    tmp_path: Path, member: str, damage: Damage, words: str
) -> None:
    path = damaged(workbook(tmp_path / "list.xlsx"), member, damage)
    with pytest.raises(RebuildError) as refused:
        read_tables(path)
    assert str(refused.value).startswith("list.xlsx: ")
    assert words in str(refused.value)
    assert not RAW.search(str(refused.value)), str(refused.value)


def test_what_is_wrong_with_a_packed_file_is_said_by_its_kind(tmp_path: Path) -> None:
    whole = workbook(tmp_path / "whole.xlsx").read_bytes()
    at = whole.index(b"xl/worksheets/sheet1.xml") + 60
    cases = {
        "older.xlsx": (
            b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + bytes(600),
            "of the old kind (XLS, before 2007), or one locked",
        ),
        "cut.xlsx": (whole[: len(whole) // 2], "cut off or overwritten"),
        "noise.xlsx": (whole[:at] + b"\x07" * 40 + whole[at + 40 :], "cut off or overwritten"),
    }
    locked = bytearray(whole)
    start = 0
    while (
        start := locked.find(b"PK\x01\x02", start)
    ) >= 0:  # each entry of the zip's own list: bit 0, locked
        locked[start + 8] |= 1
        start += 4
    cases["locked.xlsx"] = (bytes(locked), "locked with a password")
    for name, (content, words) in cases.items():
        (tmp_path / name).write_bytes(content)
        with pytest.raises(RebuildError) as refused:
            read_tables(tmp_path / name)
        assert words in str(refused.value)
        assert not RAW.search(str(refused.value)), str(refused.value)


@pytest.mark.parametrize("column", ["KKKKK2", "XFD2"])
def test_a_cell_far_to_the_right_is_refused_not_filled_up_to(tmp_path: Path, column: str) -> None:
    def far(xml: bytes) -> bytes:
        end = b"<v>0</v></c>"
        return xml.replace(end, end + b'<c r="%s" t="str"><v>x</v></c>' % column.encode(), 1)

    path = damaged(workbook(tmp_path / "list.xlsx", 3), SHEET, far)
    with pytest.raises(RebuildError, match=r"columns|damaged"):
        read_tables(path)


def test_three_hundred_thousand_columns_are_refused_quickly(tmp_path: Path) -> None:
    book = Workbook(write_only=True)
    sheet = book.create_sheet("Wide")
    sheet.append([f"c{number}" for number in range(16_384)])
    sheet.append(["x"] * 16_384)
    book.save(tmp_path / "wide.xlsx")
    with pytest.raises(RebuildError, match=r"wide.xlsx: sheet “Wide”, row 1, has more than 2000 columns"):
        read_tables(tmp_path / "wide.xlsx")
    (tmp_path / "wide.csv").write_text(",".join(["a"] * 300_000) + "\n" + ",".join(["1"] * 300_000) + "\n")
    with pytest.raises(RebuildError, match=r"wide\.csv: has more than 2000 columns"):
        read_tables(tmp_path / "wide.csv")


def test_every_cut_of_a_workbook_and_of_its_bytes_is_a_sentence(tmp_path: Path) -> None:
    whole = workbook(tmp_path / "whole.xlsx", 20).read_bytes()
    path = tmp_path / "cut.xlsx"
    for place in range(0, len(whole), 97):
        for content in (whole[:place], whole[:place] + b"\xff\x00\xff\x00" + whole[place + 4 :]):
            path.write_bytes(content)
            with contextlib.suppress(RebuildError):
                assert read_tables(path)[0].heads


def test_pipes_and_folders_are_no_tables(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe.csv")
    (tmp_path / "folder.xlsx").mkdir()
    for name in ("pipe.csv", "folder.xlsx"):
        with pytest.raises(RebuildError, match="is no ordinary file"):
            read_tables(tmp_path / name)


@given(st.text(alphabet=st.one_of(st.sampled_from("'=+-@\t\r0.,eE"), st.characters(codec="utf-8"))))
def test_text_comes_back_whole_and_no_formula_goes_out(text: str) -> None:
    out = cell_text(text)
    assert typed_text(out) == text
    if out[:1] in ("=", "+", "-", "@", "\t", "\r"):
        float(out.replace(",", "."))  # only a plain number may begin so


def test_formulas_in_a_list_come_back_through_csv_and_import(tmp_path: Path) -> None:
    texts = ['=HYPERLINK("file:///x")', "+1-2", "-0.010/-0.029", "@sum", "'=quoted", "-0.02", "plain"]
    with (tmp_path / "Part list.csv").open("w", newline="") as file:
        writer = csv.writer(file)
        writer.writerow(["code", "name"])
        writer.writerows([["A", cell_text(text)] for text in texts])
    raw = (tmp_path / "Part list.csv").read_text()
    assert ",=" not in raw
    assert ',"=' not in raw
    (table,) = read_tables(tmp_path / "Part list.csv")
    assert [row[1] for row in table.rows] == texts
