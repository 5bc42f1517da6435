"""Tables, words and plots of the book: nothing is lost at a page's end, nothing is wider than its room."""

from __future__ import annotations

import itertools

from hypothesis import given, settings, strategies as st

from rebuild.sheets import fonts
from rebuild.sheets.book import measure
from rebuild.sheets.book.columns import GAP, Column, Need, widths
from rebuild.sheets.book.flow import Heading, Room, facts, prose, section, table
from rebuild.sheets.book.options import file_name
from rebuild.sheets.book.plot import ticks
from rebuild.sheets.book.ruled import SIZE, Band, Linked, Ruled, Wide

ROOM = 480.0
WORDS = st.text(alphabet=st.sampled_from("abcdefghijklm nopq 0123456789.±µØ°-"), min_size=0, max_size=60).map(
    lambda text: " ".join(text.split())
)


def told(piece: Ruled) -> list[str]:
    """Every text of a table's rows, in order; what is only said again on a further page is left out."""
    return [
        text.replace(" ", "")
        for row in piece._laid or ()
        for cell in row.cells
        for text in ["".join(cell)]
        if text and not text.endswith("(continued)")
    ]


def pages(whole: Ruled, high: float) -> list[Ruled]:
    found, left = [], whole
    for _ in range(500):
        if left.wrap(ROOM, high)[1] <= high:
            return [*found, left]
        split = left.split(ROOM, high)
        assert split, "a table that cannot be put on an empty page would never be printed"
        first, left = split
        assert first.wrap(ROOM, high)[1] <= high
        found.append(first)
    raise AssertionError("no end")


@settings(max_examples=40, deadline=None)
@given(rows=st.lists(st.tuples(WORDS, WORDS, WORDS), min_size=1, max_size=60), high=st.floats(150, 700))
def test_a_table_over_pages_loses_no_word(rows: list[tuple[str, str, str]], high: float) -> None:
    lines = [
        line for at, row in enumerate(rows) for line in ([Band(f"band {at}")] if at % 7 == 0 else []) + [row]
    ]
    whole = Ruled((Column("one"), Column("two", right=True), Column("three")), lines)
    whole.wrap(ROOM, high)
    wanted = told(whole)
    assert list(itertools.chain.from_iterable(told(piece) for piece in pages(whole, high))) == wanted


def test_a_band_never_ends_a_page_and_is_said_again_on_the_next() -> None:
    lines = [Band("HS-01 spindle", "part-1"), *((f"row {at}", "x") for at in range(60))]
    found = pages(Ruled((Column("a"), Column("b")), lines), 300)
    assert len(found) > 2
    for piece in found:
        laid = piece._laid or ()
        assert laid[0].band is not None
        assert laid[-1].band is None
    assert found[1]._laid[0].cells[0][0] == "HS-01 spindle (continued)"
    assert found[2]._laid[0].cells[0][0] == "HS-01 spindle (continued)"
    assert found[1]._laid[0].links == ("part-1",)


def test_both_heads_of_a_row_are_said_again() -> None:
    lines = [Band("part"), Band("feature one", inner=True), ("r", "0"), Band("feature two", inner=True),
             *((f"row {at}", "x") for at in range(40))]  # fmt: skip
    second = pages(Ruled((Column("a"), Column("b")), lines), 250)[1]
    assert [row.cells[0][0] for row in second._laid[:2]] == ["part (continued)", "feature two (continued)"]


def test_a_cell_higher_than_a_page_is_cut_between_lines() -> None:
    text = " ".join(f"word{at}" for at in range(4000))
    whole = Ruled((Column("a", mm=30), Column("b")), [("x", text)])
    whole.wrap(ROOM, 600)
    found = pages(whole, 600)
    assert len(found) > 1
    joined = " ".join(" ".join(row.cells[1]) for piece in found for row in piece._laid or ())
    assert joined.split() == text.split()


def test_one_row_alone_is_not_left_for_the_next_page() -> None:
    whole = Ruled((Column("a"), Column("b")), [(f"row {at}", "x") for at in range(20)])
    whole.wrap(ROOM, 999)
    high = whole.wrap(ROOM, 999)[1] - 5
    second = whole.split(ROOM, high)[1]
    assert len(second._laid) >= 2


@settings(max_examples=60, deadline=None)
@given(text=st.text(alphabet="abcdefghij WXYZ.,0123456789\n", max_size=300), room=st.floats(12, 400))
def test_no_line_is_wider_than_its_room_and_no_letter_is_lost(text: str, room: float) -> None:
    found = measure.lines(text, room, fonts.NORMAL, SIZE)
    assert "".join("".join(found).split()) == "".join(text.split())
    for line in found:
        assert len(line) <= 1 or measure.width(line, fonts.NORMAL, SIZE) <= room + 1e-6


@given(
    wants=st.lists(st.tuples(st.floats(1, 900), st.floats(1, 90)), min_size=1, max_size=9),
    room=st.floats(380, 600),
)
def test_columns_fill_their_room_and_no_more(wants: list[tuple[float, float]], room: float) -> None:
    needs = [Need(max(natural, least), least) for natural, least in wants]
    found = widths([Column("x")] * len(needs), needs, room)
    assert sum(found) + GAP * (len(found) - 1) <= room + 1e-6
    assert sum(found) + GAP * (len(found) - 1) >= room - 1e-6
    assert all(wide > 0 for wide in found)


def test_columns_without_a_word_are_left_out_and_tables_without_rows_too() -> None:
    made = table(("a", "b", "c"), [("1", "", Linked("3", "x")), ("1", " ", "")])
    assert [column.head for column in made[0].columns] == ["a", "c"]
    assert table(("a",), []) == []
    assert table(("a",), [("",)]) == []
    assert facts((("a", ""), ("b", " "))) == []
    assert section("head", "key", []) == []


def test_a_heading_asks_for_room_for_what_begins_under_it() -> None:
    rows = [Band("band"), ("a", "b" * 40), ("c", "d")]
    made = section("Head", "k", [Ruled((Column("x"), Column("y")), rows)])
    assert isinstance(made[0], Room)
    assert isinstance(made[1], Heading)
    tall = made[2].least(ROOM)
    assert tall > 3 * 9.6


def test_wide_remarks_take_the_whole_width() -> None:
    text = " ".join(["remark"] * 60)
    made = Ruled((Column("a", mm=20), Column("b", mm=20)), [("1", "2"), Wide(text)])
    made.wrap(ROOM, 999)
    lines = made._laid[1].cells[0]
    assert " ".join(lines) == text
    assert all(measure.width(line, fonts.NORMAL, SIZE) <= ROOM for line in lines)
    assert len(lines) < 6


@given(low=st.floats(-1e4, 1e4), span=st.floats(1e-6, 1e4))
def test_ticks_reach_past_both_ends_in_even_steps(low: float, span: float) -> None:
    found = ticks(low, low + span)
    assert found[0] <= low + 1e-6 * span
    assert found[-1] >= low + span * (1 - 1e-6)
    assert 2 <= len(found) <= 20
    steps = [b - a for a, b in itertools.pairwise(found)]
    assert max(steps) - min(steps) < 1e-6 * max(1.0, abs(found[-1]))


def test_prose_keeps_signs_that_mean_something_in_markup() -> None:
    assert "".join(prose("a < b & <c>").getPlainText().split()) == "a<b&<c>"


def test_letters_have_every_sign_of_the_trade() -> None:
    signs = "µ±Ø°×≤≥−“”‘’…→′″²³½¼⅛·√Σαβπφν⌀Ω≈äöüßéřčěłšžАбвΔ"
    assert fonts.printable(signs) == signs
    assert fonts.printable("a\u0007b\u4e2d") == "ab\N{REPLACEMENT CHARACTER}"


def test_a_machine_name_becomes_a_file_name() -> None:
    assert file_name("16 in / shaper?") == "16 in  shaper"
    assert file_name("  ..  ") == "machine"
