"""Labels read back from the PDF: where they lie, by a PDF library; what the squares hold, by a barcode library."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pypdfium2 as pdfium
import pytest
import zxingcpp
from PIL import Image, ImageDraw
from pypdf import PdfReader

from rebuild.errors import BadEntry
from rebuild.sheets.labels.pages import write_labels
from rebuild.trade.labels.code import Code, Tagged
from rebuild.trade.labels.stock import READY, Stock, placed, read_stock
from rebuild.work.labels.rows import Label

DPI = 200
LABELS = tuple(
    Label(
        Code(sort, mark, number).text(),
        big,
        name,
        "Bench lathe",
        "Headstock",
        mark_seen,
        "2 off",
    )
    for sort, mark, number, big, name, mark_seen in (
        (Tagged.PART, "7QF", 41, "HS-04", "Spindle bush, front", "1-1"),
        (Tagged.PART, "Z0I", 987654, "CS-112", "Cross-slide feed screw with a long name", ""),
        (Tagged.PLACE, "000", 60466175, "bag 7", "", ""),
        (Tagged.PART, "A1B", 3, "Tumbler reverse bracket", "", "3|"),
    )
)


def pages_of(path: Path) -> Iterator[Image.Image]:
    """Each page as a grey picture at 200 dots to the inch."""
    document = pdfium.PdfDocument(path)
    for page in document:
        yield page.render(scale=DPI / 72, grayscale=True).to_pil().convert("L")
    document.close()


def read(picture: Image.Image) -> list[str]:
    return [found.text for found in zxingcpp.read_barcodes(picture)]


def squares(picture: Image.Image) -> list[tuple[str, int, int, int, int]]:
    """Text and the edges of each square found."""
    found = []
    for code in zxingcpp.read_barcodes(picture):
        at = code.position
        corners = (at.top_left, at.top_right, at.bottom_left, at.bottom_right)
        across, down = [one.x for one in corners], [one.y for one in corners]
        found.append((code.text, min(across), min(down), max(across), max(down)))
    return found


def torn(picture: Image.Image, x: int, y: int, toward_x: int, toward_y: int) -> Image.Image:
    """A corner gone: a triangle from (x, y) to points as far as said."""
    copy = picture.copy()
    ImageDraw.Draw(copy).polygon([(x, y), (x + toward_x, y), (x, y + toward_y)], fill=255)
    return copy


@pytest.mark.parametrize("words", [*READY, "roll 24 x 12", "A4, 25 x 15, 8 x 19"])
def test_every_square_is_read_and_lies_inside_its_label(words: str, tmp_path: Path) -> None:
    stock, target = read_stock(words), tmp_path / "labels.pdf"
    pages = write_labels(LABELS, stock, target)
    reader = PdfReader(target)
    assert len(reader.pages) == pages
    box = reader.pages[0].mediabox
    assert (float(box.width), float(box.height)) == pytest.approx(
        (stock.page_wide / 25.4 * 72, stock.page_high / 25.4 * 72), abs=0.01
    )
    assert reader.trailer["/Root"]["/ViewerPreferences"]["/PrintScaling"] == "/None"
    pictures = list(pages_of(target))
    for label, spot in zip(LABELS, placed(stock, len(LABELS)), strict=True):
        mine = [one for one in squares(pictures[spot.page]) if one[0] == label.code]
        assert mine, f"{label.code} is not read on {words}"
        for _, left, top, right, low in mine:
            mm = 25.4 / DPI
            assert spot.left + stock.hole <= left * mm
            assert right * mm <= spot.left + stock.wide
            assert spot.top <= top * mm
            assert low * mm <= spot.top + stock.high


@pytest.mark.parametrize("words", [READY[0], READY[3], READY[5], READY[8]])
def test_any_corner_of_the_larger_square_or_of_the_label_may_be_missing(words: str, tmp_path: Path) -> None:
    stock, target = read_stock(words), tmp_path / "labels.pdf"
    write_labels(LABELS[:1], stock, target)
    picture = next(pages_of(target))
    code, left, top, right, low = max(squares(picture), key=lambda one: one[3] - one[1])
    gone = int(0.4 * (right - left))
    for x, y, across, down in (
        (left, top, gone, gone), (right, top, -gone, gone), (left, low, gone, -gone), (right, low, -gone, -gone),
    ):  # fmt: skip
        assert code in read(torn(picture, x, y, across, down))
    dots = DPI / 25.4
    edges = (
        stock.left * dots,
        stock.top * dots,
        (stock.left + stock.wide) * dots,
        (stock.top + stock.high) * dots,
    )
    first, upper, last, lower = (round(edge) for edge in edges)
    gone = round(0.4 * (lower - upper) if stock.high < stock.wide else 0.4 * (last - first))
    for x, y, across, down in (
        (first, upper, gone, gone), (last, upper, -gone, gone),
        (first, lower, gone, -gone), (last, lower, -gone, -gone),
    ):  # fmt: skip
        assert code in read(torn(picture, x, y, across, down))


def test_a_square_alone_bears_the_loss_of_its_label_s_corner_but_not_of_another(tmp_path: Path) -> None:
    """The check can fail: the smallest label has one square, and three of its corners are what it is found by."""
    target = tmp_path / "labels.pdf"
    write_labels(LABELS[:1], read_stock("roll 24 x 12"), target)
    picture = next(pages_of(target))
    code, left, top, right, _ = squares(picture)[0]
    gone = int(0.3 * (right - left))
    assert code in read(torn(picture, right, top, -gone, gone))
    assert code not in read(torn(picture, left, top, gone, gone))


def test_words_stand_on_the_label_and_the_code_is_large(tmp_path: Path) -> None:
    target = tmp_path / "labels.pdf"
    write_labels(LABELS, read_stock(READY[0]), target)
    sizes: dict[str, float] = {}

    def seen(text: str, _cm: object, matrix: list[float], _font: object, size: float) -> None:
        if text.strip():
            sizes[text.strip()] = size * matrix[0]

    whole = PdfReader(target).pages[0].extract_text(visitor_text=seen)
    for words in ("HS-04", "match mark 1-1", "Bench lathe", "Spindle bush", "bag 7"):
        assert words in whole
    full = replace(
        LABELS[1], match_mark="3|", note="2 off, left-hand thread, bag 7, 3 × M6 × 16, shim 0.5 mm"
    )
    write_labels((*LABELS, full), read_stock(READY[0]), tmp_path / "full.pdf")
    printed = PdfReader(tmp_path / "full.pdf").pages[0].extract_text()
    assert [printed.count(label.code) for label in LABELS] == [1, 2, 1, 1], "the small code is on every label"
    assert "3 × M6 × 16" in " ".join(printed.split())
    # A 200th of 0.7 m (common practice, no source), capitals being 0.73 of the letters' size: 13.6 points.
    assert sizes["HS-04"] * 0.73 / 72 * 25.4 >= 3.5


def test_nothing_to_print_and_odd_words_are_met(tmp_path: Path) -> None:
    target = tmp_path / "labels.pdf"
    with pytest.raises(BadEntry, match="names nothing to print"):
        write_labels([], Stock("one", 62, 29, 62, 29), target)
    assert not target.exists()
    odd = replace(LABELS[0], big="W" * 300, name="<b>&\u0001 𝄞 " * 40)
    for words in READY[::4]:
        write_labels([odd], read_stock(words), target)
        assert odd.code in read(next(pages_of(target)))


def test_a_roll_of_many_has_a_page_for_each(tmp_path: Path) -> None:
    target = tmp_path / "labels.pdf"
    assert write_labels(LABELS, read_stock("roll 62 x 29"), target) == len(LABELS)
    assert [LABELS[at].code in read(picture) for at, picture in enumerate(pages_of(target))] == [True] * len(
        LABELS
    )


@pytest.mark.parametrize("words", ["roll 24 x 12", "roll 30 x 14", "roll 38 x 13"])
def test_a_small_label_says_code_and_name_and_nothing_by_halves(words: str, tmp_path: Path) -> None:
    """Seen: the smallest said where the part lies ("on th…") and the machine ("Quarr…"), and not what it is."""
    target = tmp_path / "labels.pdf"
    pin = replace(LABELS[0], big="BA-04", name="taper pin, base", match_mark="", note="2 off, on the lathe")
    column = replace(pin, big="BA-01", name="column", note="on the shaper")
    write_labels([pin, column], read_stock(words), target)
    for page, (code, name) in zip(
        PdfReader(target).pages, (("BA-04", "taper pin"), ("BA-01", "column")), strict=True
    ):
        printed = page.extract_text()
        assert code in printed
        assert name in printed
        assert "…" not in printed
