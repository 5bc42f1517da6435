"""What belongs together stands together in the book: a drawing under its heading, photos by what they show."""

from __future__ import annotations

import re
from math import dist
from pathlib import Path

from PIL import Image

from rebuild.sheets.book.build import build_book, compose
from rebuild.sheets.book.figures import Plate
from rebuild.sheets.book.flow import Heading
from rebuild.sheets.book.options import BookOptions
from rebuild.sheets.book.plot import Plot
from rebuild.sheets.strokes_pdf import MARK_GAP_MM, MARK_PITCH_MM
from rebuild.store.reading import reading
from rebuild.trade.lubrication.leaders import around
from rebuild.trade.lubrication.machine_outline import outline
from rebuild.words.controls import ControlKind
from rebuild.words.readings import Stage
from rebuild.words.steps import TaskKind
from rebuild.work.book.rows import read_book
from rebuild.work.controls import acts as controls
from rebuild.work.editing.acts import edit
from rebuild.work.photos.about import About
from rebuild.work.photos.acts_take import take_in
from rebuild.work.readings.acts import Entry, record_reading
from rebuild.work.records.field import show_exact
from rebuild.work.steps import acts as tasks
from tests.conftest import Shop
from tests.sheets.read_back import Read, squeezed, words_at

#: Words drawn as part of a curve's frame or under a plate.
DRAWN = (
    "from the reference line [",
    "level across [",
    "Heights above the lowest",
    "slope [mm/m]",
    "bearing [°C]",
)


def test_every_drawing_follows_its_heading_in_the_story(book: Read) -> None:
    story = compose(book.data, BookOptions(), lambda _share, _words: None)
    found = [at for at, one in enumerate(story) if isinstance(one, (Plot, Plate))]
    assert len(found) >= 5
    for at in found:
        assert isinstance(story[at - 1], Heading), at


def test_every_drawing_stands_under_its_heading_on_the_same_page(book: Read) -> None:
    titles = (
        {squeezed(f"{pair.now.data.name}, {pair.now.data.stage.value}") for pair in book.data.surveys}
        | {squeezed(f"{row.name}: temperatures") for row in book.data.tried.run}
        | {"Level"}
    )
    seen = 0
    for page in book.pdf.pages:
        waiting = False
        for _, _, text in sorted(words_at(page), key=lambda word: -word[1]):
            waiting = waiting or squeezed(text) in titles
            if any(words in text for words in DRAWN):
                assert waiting, text
                waiting, seen = False, seen + 1
    assert seen >= 5


def test_a_photo_stands_in_the_section_of_what_it_shows(book: Read) -> None:
    groups = {group.id: group.title for group in book.data.groups}
    placed = [one.row for one in book.data.photos if one.row.subassembly_id in groups]
    assert len(placed) > 2
    in_parts = book.whole.index("Matchedsets", book.whole.index("Subassembliesandparts", 9000))
    for row in placed:
        at = book.whole.index(squeezed(f"{row.about}. {row.proves}")[:40])
        assert at < in_parts, row.about


def test_what_was_measured_before_and_after_has_a_chapter(book: Read) -> None:
    lines = [line for line in book.data.features if line.found_and_now is not None]
    assert len(lines) > 10
    start = book.whole.rindex("Asfoundtorebuilt")
    for line in lines:
        found, now = line.found_and_now or ()
        assert squeezed(line.title) in book.whole[:start]
        assert squeezed(f"{found.words}{now.words}") in book.whole, line.title


def test_overrides_controls_photos_and_serial_of_a_small_machine(shop: Shop, tmp_path: Path) -> None:
    edit(shop.store, "machine", [shop.machine], {"serial": "4711"})
    wheel = controls.add_control(
        shop.store, shop.machine, "saddle wheel", ControlKind.KNOB, {"does": "moves the saddle"}
    )
    controls.found(shop.store, wheel, "half a turn of play")
    first = tasks.add_task(shop.store, shop.machine, None, "First power", TaskKind.COMMISSION)
    tasks.tick(shop.store, first, reason="to set the belt", by="Ada")
    Image.new("L", (60, 40), 90).save(tmp_path / "cap.png")
    take_in(shop.store, shop.machine, [tmp_path / "cap.png"], About(part_id=shop.cap))
    record_reading(shop.store, "59.95", Entry(shop.journal, shop.near, stage=Stage.AS_FOUND))
    record_reading(shop.store, "59.98", Entry(shop.journal, shop.near, stage=Stage.AS_MADE))
    with reading(shop.path) as connection:
        data = read_book(connection, shop.machine, shop.path)
    target = build_book(shop.path, shop.machine, tmp_path / "a.pdf", BookOptions(photos=True))
    read = Read(target, data)
    for words in (
        "saddle wheel",
        "half a turn of play",
        "to set the belt",
        "Ada",
        show_exact(data.tried.gone_on[0].at),
        "4711",
    ):
        assert read.says(words), words
    assert read.says("59.95 mm59.98 mm")


def test_a_page_is_headed_by_the_chapter_it_begins_in(book: Read) -> None:
    """A page on which one chapter ends and the next begins was headed by the next."""
    chapters = [one for one in book.pdf.outline if not isinstance(one, list)]
    begun: dict[int, list[str]] = {}
    for one in chapters:
        begun.setdefault(int(book.pdf.get_destination_page_number(one) or 0), []).append(str(one.title))
    heads: list[str] = []
    for number in range(max(begun) + 1):
        words = sorted(words_at(book.pdf.pages[number]), key=lambda word: (-word[1], word[0]))
        heads.append(squeezed(words[1][2]) if number else "")
    open_now, shared = "", 0
    for number, head in enumerate(heads):
        mine = begun.get(number, [])
        if number > 1 and mine and squeezed(open_now) == head:
            shared += 1
        elif number > 1 and mine and "Contents" not in head:
            assert head == squeezed(mine[0]), number
        open_now = mine[-1] if mine else open_now
    assert shared >= 2, "chapters begin in the middle of pages too"


def test_what_was_farthest_out_of_its_limits_stands_first(book: Read) -> None:
    _, _, below = book.whole.rpartition("Outoflimitswhenfirstmeasured")
    told = re.findall(r"(\d\.\d+)(mm|in)(?:under|over)", below[:3000])
    beyond = [float(number) * (25.4 if unit == "in" else 1.0) for number, unit in told]
    assert len(beyond) > 10
    assert beyond == sorted(beyond, reverse=True)


def test_numbers_of_the_oil_map_keep_apart_on_paper(book: Read) -> None:
    card = book.data.oil
    spots = [(row.x, 1 - row.y) for row in card.rows if row.x is not None and row.y is not None]
    drawn = outline(card.kind.value)
    wide, high = 150.0, 150.0 * drawn.height / drawn.width
    places = around([(x * wide, y * high) for x, y in spots], wide, high, MARK_GAP_MM, MARK_PITCH_MM)
    assert len(places) > 20
    ring_mm = 2 * 6.2 * 25.4 / 72
    assert min(dist(one, other) for at, one in enumerate(places) for other in places[:at]) > ring_mm
    assert not any(0 <= x <= wide and 0 <= y <= high for x, y in places), "outside the outline"
