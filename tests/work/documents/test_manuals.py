"""Manuals: taken in with their words, found, marked, carried along, and refused in sentences."""

from __future__ import annotations

from pathlib import Path

import pypdf
import pytest
from PIL import Image

from rebuild.errors import NotThere, Stopped
from rebuild.exchange.folder import export_folder
from rebuild.exchange.whole_in import bring_in_folder
from rebuild.store.photo_copies import backup_with_photos, wanted_photos
from rebuild.store.photos import damaged_photos, photo_path
from rebuild.store.store import Store
from rebuild.work.checks.check import check
from rebuild.work.documents import rules_files
from rebuild.work.documents.acts import mark_page, name_call_out, note
from rebuild.work.documents.names import Names
from rebuild.work.documents.pdf import Locked, page_picture
from rebuild.work.documents.rows import call_outs, documents, page, pages, pages_of_part
from rebuild.work.documents.rows_cited import (
    page_noted,
    page_of_feature,
    page_of_oil_point,
    page_of_part,
)
from rebuild.work.documents.rules_files import keep
from rebuild.work.editing.acts import edit, remove
from rebuild.work.find.rows import find
from rebuild.work.lubrication.acts import add_point
from rebuild.work.machines.acts import add_machine, add_part
from tests.conftest import Shop
from tests.support import refuses
from tests.work.documents.manuals import manual


def heard(_share: float, _words: str) -> bool:
    return True


def taken(shop: Shop, path: Path) -> int:
    return note(shop.store, shop.machine, keep(shop.store.path, [path], heard))


def test_a_pdf_is_kept_page_by_page_with_its_words_and_found(shop: Shop, tmp_path: Path) -> None:
    path = manual(tmp_path / "instruction_book.pdf")
    key = taken(shop, path)
    with shop.store.read() as connection:
        (row,) = documents(connection, shop.machine)
        listed = pages(connection, key)
        words = connection.exec_driver_sql("SELECT words FROM document_page ORDER BY number").scalars().all()
    assert (row.name, row.pages, row.worded, row.call_outs) == ("instruction book", 3, 3, 0)
    # Source: pypdf, a second reader, of the same file.
    read = pypdf.PdfReader(path)
    assert [text.split() for text in words] == [one.extract_text().split() for one in read.pages]
    assert [(round(one.width), round(one.height)) for one in listed] == [
        (round(float(one.mediabox.width)), round(float(one.mediabox.height))) for one in read.pages
    ]
    assert listed[0].path(shop.store.path).read_bytes() == path.read_bytes()
    shop.store.follow_words()
    with shop.store.read() as connection:
        found = find(connection, "spindle oil")
    assert [(one.kind, one.title, one.page, one.target) for one in found] == [
        ("manual page", "instruction book, page 2", "manuals", listed[1].id)
    ]
    with refuses(shop.store, "“instruction_book.pdf” is here already as “instruction book”. Open that one"):
        taken(shop, path)
    shop.store.undo()
    with shop.store.read() as connection:
        assert documents(connection, shop.machine) == []
    shop.store.redo()
    with shop.store.read() as connection:
        assert pages(connection, key) == listed


def test_a_page_is_drawn_as_wide_as_asked_and_never_larger_than_memory_allows(
    shop: Shop, tmp_path: Path
) -> None:
    path = manual(tmp_path / "book.pdf")
    made = page_picture(path, 0, 600)
    assert (made.width, made.stride >= 3 * made.width, len(made.pixels)) == (
        pytest.approx(600, abs=1),
        True,
        made.stride * made.height,
    )
    ink = Image.frombytes("RGB", (made.width, made.height), made.pixels, "raw", "RGB", made.stride)
    assert ink.convert("L").getextrema()[0] < 60, "the print is dark"
    assert ink.getpixel((5, 5)) == (255, 255, 255)
    huge = page_picture(path, 0, 500_000)
    assert huge.width * huge.height < 12_100_000


def test_a_locked_pdf_is_opened_by_its_password_which_is_kept_nowhere(shop: Shop, tmp_path: Path) -> None:
    path = manual(tmp_path / "locked.pdf", password="rattling-gib")
    # Source: pypdf, a second reader, says that it is locked.
    assert pypdf.PdfReader(path).is_encrypted
    with refuses(shop.store, "“locked.pdf” is not opened by that password. Type its password", Locked):
        keep(shop.store.path, [path], heard, "rattling gib")
    kept = keep(shop.store.path, [path], heard, "rattling-gib")
    key = note(shop.store, shop.machine, kept)
    with shop.store.read() as connection:
        listed = pages(connection, key)
    lies = listed[0].path(shop.store.path)
    read = pypdf.PdfReader(lies)
    assert not read.is_encrypted
    assert [page.extract_text().split() for page in read.pages][1][:2] == ["Lubrication", "Apron:"]
    assert page_picture(lies, 1, 200).width == pytest.approx(200, abs=1)
    for file in (shop.path, lies, *shop.path.parent.glob("*-wal")):
        assert b"rattling-gib" not in file.read_bytes()


def test_scans_of_a_folder_are_one_manual_in_their_order(shop: Shop, tmp_path: Path) -> None:
    folder = tmp_path / "Parts list 1957"
    folder.mkdir()
    for at in (1, 2, 3):
        Image.new("L", (60 * at, 80), 200).save(folder / f"page {at}.png")
    kept = keep(shop.store.path, sorted(folder.iterdir()), heard)
    key = note(shop.store, shop.machine, kept)
    assert (kept.name, kept.wordless) == ("Parts list 1957", 3)
    with shop.store.read() as connection:
        assert [(one.number, one.width, one.ending) for one in pages(connection, key)] == [
            (1, 60, ".png"), (2, 120, ".png"), (3, 180, ".png"),
        ]  # fmt: skip


def test_what_is_no_manual_is_refused_with_a_way_out_and_nothing_is_stored(
    shop: Shop, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    whole = manual(tmp_path / "whole.pdf")
    cut, junk, empty = tmp_path / "cut.pdf", tmp_path / "junk.pdf", tmp_path / "empty.pdf"
    cut.write_bytes(whole.read_bytes()[: whole.stat().st_size // 2])
    junk.write_bytes(b"%PDF-1.7 and then nothing of the kind")
    empty.touch()
    text = tmp_path / "letter.txt"
    text.write_text("no manual")
    large = tmp_path / "large.pdf"
    with large.open("wb") as file:
        file.truncate(500_000_000)  # a sparse file: half a gigabyte that takes no room
    for path, said in (
        (
            manual(tmp_path / "locked.pdf", password="secret"),
            "locked with a password. Type its password; it is kept nowhere",
        ),
        (cut, "damaged or cut short. Copy or download it again"),
        (junk, "damaged or cut short"),
        (empty, "damaged or cut short"),
        (text, "neither a PDF nor a picture of a page. Print it to a PDF"),
        (tmp_path / "gone.pdf", "is not there. Choose the file again"),
        (large, "is 500 MB, more than the 400 MB taken in.* Print the chapters you need"),
    ):
        with refuses(shop.store, f"Manual: “{path.name}” .*{said}"):
            keep(shop.store.path, [path], heard)
    with refuses(shop.store, "is a PDF among other files"):
        keep(shop.store.path, [whole, cut], heard)
    monkeypatch.setattr(rules_files, "MOST_PAGES", 2)
    with refuses(shop.store, "has 3 pages, more than 2. Print the part you need"):
        keep(shop.store.path, [whole], heard)
    monkeypatch.undo()
    with refuses(shop.store, "was stopped; nothing was stored", Stopped):
        keep(shop.store.path, [whole], lambda share, _words: share < 0.5)
    assert wanted_photos(shop.path) == ()


def test_a_place_is_marked_and_names_a_part_a_spec_or_an_oil_point(shop: Shop, tmp_path: Path) -> None:
    key = taken(shop, manual(tmp_path / "book.pdf"))
    point = add_point(shop.store, shop.machine, "spindle", typed={"number": "1", "old_oil": "spindle oil 10"})
    with shop.store.read() as connection:
        listed = pages(connection, key)
    at = ((0.2, 0.3), (0.25, 0.33))
    cap = mark_page(shop.store, listed[2].id, *at, "15", Names(part_id=shop.cap), "ours has two lugs")
    spec = mark_page(shop.store, listed[2].id, *at, "14", Names(feature_id=shop.journal))
    with shop.store.read() as connection:
        marks = call_outs(connection, listed[2].id)
        assert [(one.text, one.named, one.differs) for one in marks] == [
            ("15", "HS-02 bearing cap", "ours has two lugs"),
            ("14", "HS-01 spindle: front journal", ""),
        ]
        assert [(one.called, mark.id) for one, mark in pages_of_part(connection, shop.cap)] == [
            ("book, page 3", cap)
        ]
        assert page_of_part(connection, shop.cap).call_out_id == cap
        assert page_of_feature(connection, shop.journal).call_out_id == spec
        assert page_of_part(connection, shop.spindle).call_out_id == spec
        assert page_of_oil_point(connection, point).page_id == listed[1].id, "the page has the oil's name"
    name_call_out(shop.store, cap, Names(oil_point_id=point))
    with shop.store.read() as connection:
        assert call_outs(connection, listed[2].id)[0].named == "oil point 1 spindle"
        assert page_of_oil_point(connection, point).call_out_id == cap
    shop.store.undo()
    remove(shop.store, "part", [shop.cap])
    with shop.store.read() as connection:
        left = call_outs(connection, listed[2].id)[0]
        assert (left.id, left.named, left.differs) == (cap, "", "ours has two lugs")
    shop.store.undo()
    with refuses(shop.store, "Call-out: lies off the page"):
        mark_page(shop.store, listed[0].id, (0.5, 0.5), (1.0001, 0.6), "a")
    with refuses(shop.store, "Call-out: says nothing. Type its words"):
        mark_page(shop.store, listed[0].id, (0, 0), (1, 1), "  ")
    mill = add_machine(shop.store, "Mill")
    knee = add_part(shop.store, mill, None, "knee screw")
    with refuses(shop.store, "“knee screw” belongs to another machine"):
        mark_page(shop.store, listed[0].id, (0, 0), (1, 1), "", Names(part_id=knee))
    assert mark_page(shop.store, listed[0].id, (0, 0), (1, 1), "", None, "no such plate here")


def test_a_note_of_page_or_figure_opens_it(shop: Shop, tmp_path: Path) -> None:
    key = taken(shop, manual(tmp_path / "book.pdf"))
    with shop.store.read() as connection:
        ids = [one.id for one in pages(connection, key)]
    edit(shop.store, "part", [shop.cap], {"figure_item": "12-15"})
    edit(shop.store, "feature", [shop.journal], {"spec_note": "manual p. 2"})
    edit(shop.store, "document_page", [ids[0]], {"label": "iv"})
    item = mark_page(shop.store, ids[2], (0.1, 0.1), (0.2, 0.2), "15")
    with shop.store.read() as connection:
        assert page_of_part(connection, shop.cap).page_id == ids[2], (
            "the drawing, not the page that speaks of it"
        )
        assert page_of_part(connection, shop.cap).call_out_id == item
        assert page_of_feature(connection, shop.journal).page_id == ids[1]
        assert page_noted(connection, shop.machine, "3").page_id == ids[2]
        assert page_noted(connection, shop.machine, "iv").page_id == ids[0]
        assert page(connection, ids[0]).called == "book, page 1 (printed iv)"
        with pytest.raises(
            NotThere, match=r"“99” names none that is here. Mark it on its page under Manuals"
        ):
            page_noted(connection, shop.machine, "99")
        with pytest.raises(NotThere, match="No page of a manual is known for it"):
            page_of_part(connection, shop.spindle)


def test_manuals_go_along_with_a_backup_and_an_export_and_are_checked(shop: Shop, tmp_path: Path) -> None:
    path = manual(tmp_path / "book.pdf")
    key = taken(shop, path)
    with shop.store.read() as connection:
        ids = [one.id for one in pages(connection, key)]
    mark_page(shop.store, ids[2], (0.1, 0.1), (0.2, 0.2), "15", Names(part_id=shop.cap), "ours has two lugs")
    made = backup_with_photos(shop.path, to=tmp_path / "copy.rebuild")
    assert made.photos == 1
    assert damaged_photos(made.path, list(wanted_photos(made.path))) == []
    assert check(made.path) == []
    export_folder(shop.path, tmp_path / "out", photos=True)
    other = Store.create(tmp_path / "other.rebuild")
    came = bring_in_folder(other, tmp_path / "out")
    assert (came.photos, came.lacking) == (1, 0)
    with other.read() as connection:
        (row,) = documents(connection, 1)
        page_id = pages(connection, row.id)[2].id
        (mark,) = call_outs(connection, page_id)
        assert (mark.named, mark.differs) == ("HS-02 bearing cap", "ours has two lugs")
        kept = page(connection, page_id).path(other.path)
    assert kept.read_bytes() == path.read_bytes()
    other.close()
    shop.store.close()
    photo_path(shop.path, *wanted_photos(shop.path)[0]).write_bytes(b"not what the name says")
    (finding,) = check(shop.path)
    assert "“book”, page 1" in finding
    assert "take the manual in again" in finding
