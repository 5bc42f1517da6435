"""The machine's book read back with a PDF library: contents, links, page numbers, and every value against the store."""

from __future__ import annotations

import re
import shutil
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

import pypdfium2 as pdfium
import pytest
from pypdf import PageObject, PdfReader
from pypdf.generic import DictionaryObject

from rebuild.errors import FileTrouble, NotThere
from rebuild.sheets.book.build import build_book
from rebuild.sheets.book.options import BookOptions, Cancelled
from rebuild.store.reading import reading
from rebuild.store.store import Store
from rebuild.trade.fits.words import value_words
from rebuild.work.book.rows import read_book
from rebuild.work.readings.acts import Entry, record_reading
from rebuild.work.records.field import show_day
from tests.conftest import Shop
from tests.sheets.read_back import Read, squeezed

CONTENTS_LINE = re.compile(r"^(?P<text>.+?) ?(?P<page>\d+)$")


def contents_of(book: Read) -> Iterator[tuple[str, int]]:
    """Lines of the contents: drawn as text, then page number."""
    for number in range(1, len(book.pages)):
        lines = book.pages[number].splitlines()
        if "Contents" not in lines[:4]:
            return
        body = [line for line in lines if line.strip() and not line.startswith("page ")]
        texts = body[2:]
        at = 0
        while at + 1 < len(texts):
            if texts[at + 1].strip().isdigit():
                yield texts[at].strip(), int(texts[at + 1])
                at += 2
            else:
                at += 1


# Contents, links, page numbers


def test_every_line_of_the_contents_names_the_page_it_stands_on(book: Read) -> None:
    listed = list(contents_of(book))
    assert len(listed) > 40
    for text, page in listed:
        assert squeezed(text) in squeezed(book.pages[page - 1]), (text, page)
    named = [text for text, _ in listed]
    for chapter in (
        "Identity",
        "Condition as found",
        "Subassemblies and parts",
        "Readings and verdicts",
        "Fits as built",
        "Making sheets",
        "Surveys of ways and plates",
        "Test chart",
        "Lubrication card",
        "Commissioning",
        "Questions and answers",
        "Bench log",
        "Cautions and limits of use",
        "Colophon",
    ):
        assert chapter in named
    assert [page for _, page in listed] == sorted(page for _, page in listed)


def test_the_outline_says_the_same_as_the_contents(book: Read) -> None:
    def flat(items: list[object]) -> Iterator[tuple[str, int]]:
        for item in items:
            if isinstance(item, list):
                yield from flat(item)
            else:
                yield str(item.title), book.pdf.get_destination_page_number(item) + 1  # type: ignore[attr-defined, operator, arg-type]

    assert list(flat(book.pdf.outline)) == list(contents_of(book))


def links_of(page: PageObject) -> Iterator[tuple[tuple[float, ...], DictionaryObject]]:
    """Where each link of a page lies and the page it leads to."""
    for annotation in page.get("/Annots", ()):
        link = annotation.get_object()
        assert link["/Subtype"] == "/Link"
        place = link["/Dest"].get_object()
        yield tuple(float(side) for side in link["/Rect"]), place[0].get_object()


def test_every_link_leads_to_a_page_that_says_what_the_link_says(book: Read) -> None:
    """What stands inside each link is read by another library than the one that lays pages out."""
    numbers = {page.indirect_reference.idnum: at for at, page in enumerate(book.pdf.pages)}
    count = 0
    with closing(pdfium.PdfDocument(book.path)) as drawn:
        for page, seen in zip(book.pdf.pages, drawn, strict=True):
            with closing(seen.get_textpage()) as words:
                for (left, low, right, top), target in links_of(page):
                    at = numbers[target.indirect_reference.idnum]
                    inside = words.get_text_bounded(left - 2, low, right, top)
                    said = squeezed(inside.replace("(continued)", "")).rstrip("0123456789")
                    assert said, "a link over nothing"
                    assert said in squeezed(book.pages[at]), (inside, at + 1)
                    count += 1
    assert count > 200


def test_every_page_but_the_first_says_which_of_how_many_it_is(book: Read) -> None:
    assert "page" not in book.pages[0].splitlines()[-1]
    for number, text in enumerate(book.pages[1:], start=2):
        assert re.search(rf"page {number} of\s*{len(book.pages)}\b", text), number


# Values against the store


def test_identity_and_its_evidence(book: Read) -> None:
    for name in (
        "name",
        "model",
        "serial",
        "serial_where",
        "stampings",
        "year",
        "year_basis",
        "capacity",
        "bought",
        "power_found",
        "power_planned",
        "story",
        "location",
    ):
        assert book.says(book.data.identity[name]), name


def test_every_part_with_its_decision_marks_and_reasons(book: Read) -> None:
    for group in book.data.groups:
        assert book.says(group.title)
        for part in group.parts:
            for text in (
                part.code,
                part.name,
                part.material,
                part.condition,
                part.reason,
                part.criterion,
                part.would_change,
                part.match_mark,
                part.orientation,
                part.stamped,
                part.handedness,
                part.note,
                part.place,
            ):
                assert book.says(text), (part.code, text)
            for conceded in part.concessions:
                assert book.says(conceded.accepted)
                assert book.says(conceded.reason)
    for kept in book.data.sets:
        assert book.says(kept.name)


def test_every_reading_as_typed_with_its_instrument_and_verdict(book: Read) -> None:
    count = 0
    for line in book.data.features:
        assert book.says(line.feature)
        assert book.says(line.spec)
        for read in line.readings:
            for text in (read.words, read.instrument, show_day(read.taken_at), read.note, read.struck):
                assert book.says(text), (line.title, text)
            count += 1
        if line.judgement is not None:
            assert book.says(line.judgement.verdict.value)
    assert count > 200
    for tool in book.data.instruments:
        assert book.says(tool.name)
        assert book.says(tool.limit)


def test_a_row_of_readings_stands_in_its_order(book: Read) -> None:
    """Stage, value, instrument and date of one reading follow each other on the page."""
    seen = 0
    for line in book.data.features:
        for read in line.readings:
            if read.instrument and not read.struck and read.temperature_c is not None:
                row = squeezed(f"{read.stage.value}{read.words}{read.instrument}{show_day(read.taken_at)}")
                assert row in book.whole, (line.title, row)
                seen += 1
    assert seen > 80


def test_fits_with_what_they_are_and_their_state(book: Read) -> None:
    for fit in book.data.fits:
        assert book.says(fit.title)
        if fit.now is not None:
            assert book.says(value_words(fit.now, fit.unit)), fit.title
        for side in fit.sides:
            for one in side.readings:
                assert book.says(one.words)
    for odd in book.data.odd:
        assert book.says(odd.what)
        assert book.says(odd.reason)


def test_making_sheets_with_their_limits_and_drawing(book: Read) -> None:
    assert book.data.sheets
    for sheet in book.data.sheets:
        for size in sheet.sizes:
            assert book.says(size.words), (sheet.head.part, size.name)
            for made in size.made:
                assert book.says(made.words)
        if sheet.drawing.drawn is not None:
            for drawn in sheet.drawing.drawn.dimensions:
                assert drawn.measured_mm >= 0
        for block in sheet.data:
            for _, text in block.lines:
                assert book.says(text), (sheet.head.part, text)


def test_surveys_with_readings_as_typed(book: Read) -> None:
    assert book.data.surveys
    for pair in book.data.surveys:
        assert book.says(pair.now.data.name)
        for line in pair.now.data.lines:
            for read in line.runs.values():
                assert book.says("".join(text for text, _ in read)), line.name


def test_chart_oil_run_and_joints(book: Read) -> None:
    for test in book.data.tried.chart:
        assert book.says(test.name)
        for line in test.lines:
            assert book.says(line.allowed_words(line.unit)), line.name
            for stage in (line.found, line.after):
                if stage is not None:
                    assert book.says(stage.verdict.value if stage.judgement is not None else stage.trouble)
    for point in book.data.oil.rows:
        for text in (point.feeds, point.oil, point.old_oil, point.flow):
            assert book.says(text), (point.number, text)
    for step in book.data.tried.run:
        assert book.says(step.name)
        for course in step.courses:
            assert book.says(course.heated.value.text)
    for check in book.data.tried.checks:
        assert book.says(check.text)
    for joint in book.data.joints:
        assert book.says(joint.name)
        assert book.says(joint.state)


def test_bench_log_questions_orders_and_cautions(book: Read) -> None:
    for row in book.data.bench.log:
        for text in (row.did, row.found, row.next_step, row.do_not_forget):
            assert book.says(text)
    for question in book.data.bench.questions:
        assert book.says(question.text)
        assert book.says(question.answer)
    for order in book.data.bought.waiting:
        assert book.says(order.what)
    from rebuild.trade.results.cautions import caution

    assert book.data.bench.cautions
    for topic, _ in book.data.bench.cautions:
        assert book.says(caution(topic).text)
        assert book.says(caution(topic).defer_to)
    assert book.says("Lifting, mains electricity, lead paint")


def test_removals_fasteners_and_shims(book: Read) -> None:
    for made in book.data.taken_apart:
        for removal in made.removals:
            assert book.says(removal.called)
            for fastener in removal.fasteners:
                assert book.says(fastener.words)
            for shim in removal.shims:
                for leaf in shim.leaves:
                    assert book.says(leaf)


# Vector art, photos, options


def test_without_photos_prices_and_log_it_is_lines_and_words_alone(book: Read, demo_file: Path) -> None:
    assert len(book.images()) == len(book.data.photos) > 0
    target = demo_file.parent / "without.pdf"
    plain = Read(build_book(demo_file, book.data.machine_id, target, BookOptions(log=False)), book.data)
    assert plain.images() == set()
    content = b"".join(page.get_contents().get_data() for page in plain.pdf.pages)
    assert b"BI " not in content, "an inline image"
    assert content.count(b" l\n") + content.count(b" l S") > 500, "plots and drawings are made of lines"
    assert not plain.says("Costbysubassembly")
    assert book.says("Costbysubassembly")
    assert "Bench log" in [text for text, _ in contents_of(book)]
    assert "Bench log" not in [text for text, _ in contents_of(plain)]


def test_what_was_paid_stands_in_it_when_wanted(book: Read) -> None:
    priced = [row for row in book.data.bought.waiting if row.cost]
    assert priced or book.data.machine_id != 1
    assert all(book.says(f"{row.cost:.2f}") for row in priced)


@pytest.mark.parametrize(("paper", "wide", "high"), [("A4", 595, 842), ("Letter", 612, 792)])
def test_it_is_laid_out_for_the_paper_in_the_shop(
    shop: Shop, tmp_path: Path, paper: str, wide: int, high: int
) -> None:
    made = PdfReader(
        build_book(shop.path, shop.machine, tmp_path / "a.pdf", BookOptions(cost=True, paper=paper))
    )
    assert {tuple(round(float(side)) for side in page.mediabox[2:]) for page in made.pages} == {(wide, high)}


# The same data, the same book


def test_the_same_data_gives_the_same_bytes_wherever_the_file_lies(demo_file: Path, tmp_path: Path) -> None:
    other = tmp_path / "elsewhere" / "another name.rebuild"
    other.parent.mkdir()
    shutil.copy(demo_file, other)
    first = build_book(demo_file, 2, tmp_path / "one.pdf", BookOptions(cost=True)).read_bytes()
    again = build_book(other, 2, tmp_path / "two.pdf", BookOptions(cost=True)).read_bytes()
    assert first == again


def test_other_data_gives_another_book(shop: Shop, tmp_path: Path) -> None:
    before = build_book(shop.path, shop.machine, tmp_path / "a.pdf").read_bytes()
    assert build_book(shop.path, shop.machine, tmp_path / "b.pdf").read_bytes() == before
    record_reading(shop.store, "59.983", Entry(shop.journal, shop.near))
    after = build_book(shop.path, shop.machine, tmp_path / "c.pdf")
    assert after.read_bytes() != before
    assert "59.983 mm" in "".join(page.extract_text() for page in PdfReader(after).pages)


def test_a_small_machine_has_a_small_book_without_empty_chapters(shop: Shop, tmp_path: Path) -> None:
    with reading(shop.path) as connection:
        read = Read(
            build_book(shop.path, shop.machine, tmp_path / "a.pdf"), read_book(connection, shop.machine)
        )
    named = [text for text, _ in contents_of(read)]
    assert "Readings and verdicts" in named
    for chapter in (
        "Surveys of ways and plates",
        "Photos",
        "Making sheets",
        "Test chart",
        "How it came apart",
    ):
        assert chapter not in named
    assert len(read.pages) < 10


def test_a_machine_with_nothing_in_it_has_a_book_too(store: Store, tmp_path: Path) -> None:
    from rebuild.work.machines.acts import add_machine

    key = add_machine(store, "Bare lathe")
    pages = PdfReader(build_book(store.path, key, tmp_path / "bare.pdf")).pages
    assert "Bare lathe" in pages[0].extract_text()
    assert len(pages) >= 3


def test_odd_signs_and_endless_words_are_printed_all_the_same(shop: Shop, tmp_path: Path) -> None:
    from rebuild.work.editing.acts import edit
    from rebuild.work.log.acts import log_session
    from rebuild.work.readings.acts_features import set_spec

    edit(
        shop.store, "machine", [shop.machine], {"name": "Stroj č. 5 <&> \N{PILE OF POO}", "story": "ž" * 4000}
    )
    edit(
        shop.store,
        "part",
        [shop.spindle],
        {"note": "x" * 3000, "condition": "Ø 60 ± 0.01 µm → ½ °C\n\n\nтокарный"},
    )
    log_session(shop.store, shop.machine, {"did": " ".join(f"w{at}" for at in range(2500))})
    set_spec(shop.store, [shop.lost_motion], "0.004 min")
    target = build_book(shop.path, shop.machine, tmp_path / "odd.pdf")
    whole = squeezed("".join(page.extract_text() for page in PdfReader(target).pages))
    assert "Strojč.5<&>" in whole
    assert "0.004minin" in whole  # "min" is no unit, though it ends like one
    assert "Ø60±0.01µm→½°C" in whole
    assert "токарный" in whole
    assert whole.count("ž") >= 4000
    assert whole.count("x") >= 3000
    for at in (0, 1250, 2499):
        assert f"w{at}" in whole


# Stopping, and trouble


def test_it_tells_how_far_it_is_and_can_be_stopped_at_any_moment(demo_file: Path, tmp_path: Path) -> None:
    told: list[float] = []

    def hear(share: float, _words: str) -> bool:
        told.append(share)
        return True

    build_book(demo_file, 2, tmp_path / "whole.pdf", progress=hear)
    assert told == sorted(told)
    assert told[0] == 0.0
    assert told[-1] > 0.95
    assert len(told) > 40
    for stop in (0, 1, 5, len(told) // 2, len(told) - 1):
        count = iter(range(10_000))
        target = tmp_path / "stopped.pdf"
        target.write_bytes(b"what was there before")
        with pytest.raises(Cancelled):
            build_book(demo_file, 2, target, progress=lambda _s, _w, n=count, at=stop: next(n) < at)  # type: ignore[misc]
        assert target.read_bytes() == b"what was there before"
        assert sorted(path.name for path in tmp_path.iterdir()) == ["stopped.pdf", "whole.pdf"]


def test_trouble_is_one_sentence(shop: Shop, tmp_path: Path) -> None:
    with pytest.raises(NotThere, match="no longer there"):
        build_book(shop.path, 999, tmp_path / "a.pdf")
    with pytest.raises(FileTrouble, match="cannot be written"):
        build_book(shop.path, shop.machine, tmp_path / "no such folder" / "a.pdf")
    with pytest.raises(FileTrouble, match="no such file"):
        build_book(tmp_path / "none.rebuild", 1, tmp_path / "a.pdf")
    assert not list(tmp_path.glob("*.part"))


def test_a_missing_photo_is_said(demo_file: Path, tmp_path: Path) -> None:
    copy = tmp_path / "without photos.rebuild"
    shutil.copy(demo_file, copy)
    with reading(copy) as connection:
        data = read_book(connection, 1, copy)
    read = Read(build_book(copy, 1, tmp_path / "a.pdf", BookOptions(photos=True)), data)
    assert read.images() == set()
    assert read.says(f"{data.photos[0].row.file_name}: the photo is missing")


#: What the program works out, told in the other unit first; what was typed in it keeps its own words.
OTHER_FIRST = {
    "in": re.compile(r"\d (?:mm|µm)(?: Ra)? \([\d.]+(?: to [\d.]+)? (?:in|thou|µin)\)(?!, typed)"),
    "mm": re.compile(r"\d (?:in|thou|µin)(?: Ra)? \([\d.]+(?: to [\d.]+)? (?:mm|µm)\)(?!, typed)"),
}


def test_no_page_says_the_other_unit_before_the_owners(book: Read) -> None:
    """The roughness of an inch machine's parts stood in µm first."""
    unit = book.data.unit
    pages = [" ".join(page.split()) for page in book.pages]
    assert sum(f" {unit}" in page for page in pages) > 10
    found = [
        page[max(0, at.start() - 40) : at.end()] for page in pages for at in OTHER_FIRST[unit].finditer(page)
    ]
    assert found == []
