"""The pages for the shop, written from the demo and read back with a PDF library and a barcode library."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pypdfium2 as pdfium
import pytest
import zxingcpp
from pypdf import PdfReader

from rebuild.cli import printing as cli_printing
from rebuild.cli.main import main
from rebuild.errors import BadEntry
from rebuild.sheets.pages.day_sheet import lines_of
from rebuild.sheets.pages.measuring_sheet import grid_rows
from rebuild.sheets.pages.printed import PRINTED, Wanted, printed_named
from rebuild.sheets.pages.survey_sheet import columns_of, places_of
from rebuild.sheets.paper import LETTER, PAPERS
from rebuild.store.store import Store
from rebuild.work.day_sheet.rows import day_steps
from rebuild.work.joints.rows import not_final
from rebuild.work.labels.rows import code_meant
from rebuild.work.log.rows import questions
from rebuild.work.machines.rows_tree import subassemblies
from rebuild.work.places.rows import lying, places
from rebuild.work.plan.rows_input import plan_input
from rebuild.work.plan.rows_tonight import Tonight, fits_tonight
from rebuild.work.question_pack.rows import question_pack
from rebuild.work.records.rows_settings import verdict_rule
from rebuild.work.records.wall_clock import now
from rebuild.work.surveys.rows import survey_data, surveys
from rebuild.work.teardown.rows_removals import attempts, removals
from rebuild.work.waiting.acts import add_waiting
from rebuild.work.waiting.rows_to_buy import to_buy
from tests.conftest import demo_copy

LATHE = 2


@pytest.fixture(scope="module")
def shop(demo_template: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Store]:
    store = Store.open(demo_copy(demo_template, tmp_path_factory.mktemp("printed")))
    yield store
    store.close()


@pytest.fixture(scope="module")
def apron(shop: Store) -> int:
    with shop.read() as connection:
        return next(row.id for row in subassemblies(connection, LATHE) if row.name == "Apron")


def told(target: Path) -> str:
    """All words of a PDF without white space, so that line ends do not matter."""
    return "".join("".join(page.extract_text() for page in PdfReader(target).pages).split())


def squeezed(text: str) -> str:
    return "".join(text.split())


@pytest.mark.parametrize("what", PRINTED, ids=lambda one: one.key)
def test_each_is_written_on_both_papers_and_large_enough(
    what: object, shop: Store, apron: int, tmp_path: Path
) -> None:
    with shop.read() as connection:
        survey = surveys(connection, LATHE)[0].id
        question = questions(connection, LATHE)[0].id
    for on in PAPERS:
        target = tmp_path / f"{on.name}.pdf"
        of = None if what.key == "removals" else apron  # type: ignore[attr-defined]
        wanted = Wanted(LATHE, of, (), (1, 2), survey, question, on, tonight=Tonight(240))
        pages = what.write(shop, wanted, target)  # type: ignore[attr-defined]
        reader = PdfReader(target)
        assert len(reader.pages) == pages >= 1
        if what.key not in ("tags", "bags"):  # type: ignore[attr-defined]
            assert float(reader.pages[0].mediabox.width) == pytest.approx(on.width_mm / 25.4 * 72, abs=0.01)


def test_the_measuring_sheet_has_the_grid_s_rows_in_its_order(
    shop: Store, apron: int, tmp_path: Path
) -> None:
    target = tmp_path / "m.pdf"
    next(one for one in PRINTED if one.key == "measuring").write(shop, Wanted(LATHE, apron), target)
    rows, text, at = grid_rows(shop, LATHE, apron), told(target), 0
    assert len(rows) > 30
    for number, row in enumerate(rows, 1):
        at = text.index(squeezed(f"{number}{row.part_code}"), at)
        assert squeezed(row.feature) in text[at : at + 200]
    assert {row.part_code[:2] for row in rows} <= {"AP", "HN"}, "only what lies in the subassembly"


def test_the_survey_sheet_is_typed_back_in_the_page_s_order(shop: Store, tmp_path: Path) -> None:
    target = tmp_path / "s.pdf"
    with shop.read() as connection:
        listed = surveys(connection, LATHE)
        data = [survey_data(connection, row.id) for row in listed]
    one = data[0]
    next(it for it in PRINTED if it.key == "survey").write(shop, Wanted(LATHE, survey_id=one.id), target)
    text = told(target)
    spots = [text.index(squeezed(name)) for name in columns_of(one)]
    assert spots == sorted(spots)
    longest = max(len(run) for line in one.lines for run in line.runs.values())
    assert places_of(one, None) == longest
    assert f"step{longest}" in text
    assert f"step{longest + 1}" not in text


def test_a_tray_list_names_each_thing_and_its_code_opens_the_tray(shop: Store, tmp_path: Path) -> None:
    target = tmp_path / "t.pdf"
    with shop.read() as connection:
        full = [row for row in places(connection) if 16 < row.things < 25][:3]  # shorter ones share a page
        things = {row.id: [one.called for one in lying(connection, row.id, now())] for row in full}
    wanted = Wanted(LATHE, place_ids=tuple(row.id for row in full))
    pages = next(one for one in PRINTED if one.key == "tray").write(shop, wanted, target)
    assert pages == len(full)
    document = pdfium.PdfDocument(target)
    for row, page, read in zip(full, PdfReader(target).pages, document, strict=True):
        text = squeezed(page.extract_text())
        assert squeezed(row.called) in text
        assert all(squeezed(thing) in text for thing in things[row.id])
        codes = zxingcpp.read_barcodes(read.render(scale=200 / 72).to_pil())
        assert len(codes) == 2
        with shop.read() as connection:
            assert {code_meant(connection, code.text).id for code in codes} == {row.id}
    document.close()


def test_short_tray_lists_share_a_page_to_be_cut_apart_and_none_is_torn(shop: Store, tmp_path: Path) -> None:
    target = tmp_path / "t.pdf"
    with shop.read() as connection:
        few = [row for row in places(connection) if row.things and row.things < 5]
        things = {row.id: [one.called for one in lying(connection, row.id, now())] for row in few}
    assert len(few) > 2
    wanted = Wanted(LATHE, place_ids=tuple(row.id for row in few))
    pages = next(one for one in PRINTED if one.key == "tray").write(shop, wanted, target)
    assert pages < len(few)
    texts = [squeezed(page.extract_text()) for page in PdfReader(target).pages]
    for row in few:
        wanted_words = [squeezed(row.called), *(squeezed(thing) for thing in things[row.id])]
        assert any(all(words in text for words in wanted_words) for text in texts), row.called


def test_the_tray_lists_of_a_machine_are_of_its_own_trays_and_few_pages(shop: Store, tmp_path: Path) -> None:
    """Seen: 25 pages, half of them of the other machine, of what is on it, or two rows long."""
    target = tmp_path / "t.pdf"
    with shop.read() as connection:
        every = {row.called: lying(connection, row.id, now()) for row in places(connection) if row.things}
    pages = next(one for one in PRINTED if one.key == "tray").write(shop, Wanted(LATHE), target)
    text = squeezed("".join(page.extract_text() for page in PdfReader(target).pages))
    ours = [called for called, things in every.items() if any(one.machine_id == LATHE for one in things)]
    for called, things in every.items():
        away = called.startswith(("on the", "at ", "lent "))
        assert (squeezed(f"{called}{len(things)} in it") in text) == (called in ours and not away), called
    assert pages <= len(ours) - 4


def test_the_day_sheet_fits_the_evening_and_tells_what_is_wanted(shop: Store, tmp_path: Path) -> None:
    target = tmp_path / "d.pdf"
    with shop.read() as connection:
        steps = day_steps(connection, LATHE, Tonight(240), now(), verdict_rule(shop))
    assert len(steps) > 1
    assert sum(one.minutes or 0 for one in steps) <= 240
    wanted = Wanted(LATHE, on=LETTER, tonight=Tonight(240))
    next(one for one in PRINTED if one.key == "day").write(shop, wanted, target)
    text = told(target)
    for one in steps:
        assert squeezed(one.title) in text
        assert squeezed(one.lies) in text
        assert one.step is None or squeezed(one.step.torque_wanted) in text
    long = Tonight(100_000, helper=True)
    with shop.read() as connection:
        whole = day_steps(connection, LATHE, long, now(), verdict_rule(shop))
        ready = fits_tonight(plan_input(connection, LATHE, now()), long)
    assert [one.title for one in whole] == [one.title for one in ready], "none of tonight's work is left out"
    untyped = [one for one in whole if one.step is None]
    assert untyped
    assert "follows from what is known" in lines_of(untyped[0], "mm")[0]


def test_the_walk_round_and_the_removal_log_leave_nothing_out(shop: Store, tmp_path: Path) -> None:
    walk, log = tmp_path / "w.pdf", tmp_path / "r.pdf"
    kinds = {one.key: one for one in PRINTED}
    kinds["walk"].write(shop, Wanted(LATHE), walk)
    kinds["removals"].write(shop, Wanted(LATHE), log)
    with shop.read() as connection:
        joints = not_final(connection, LATHE)
        rows = [row for one in attempts(connection, LATHE) for row in removals(connection, one.id)]
    assert joints
    assert all(squeezed(row.name) in told(walk) for row in joints)
    assert rows
    assert all(squeezed(row.called) in told(log) for row in rows)


def test_from_as_found_to_rebuilt_is_one_page(shop: Store, apron: int, tmp_path: Path) -> None:
    target = tmp_path / "f.pdf"
    kinds = {one.key: one for one in PRINTED}
    assert kinds["rebuilt"].write(shop, Wanted(LATHE, apron), target) == 1
    text = told(target)
    assert "Asfound" in text
    assert all(squeezed(row.feature) in text for row in grid_rows(shop, LATHE, apron) if row.speaking)
    with pytest.raises(BadEntry, match="“AP Apron” has no log yet"):
        kinds["removals"].write(shop, Wanted(LATHE, apron), tmp_path / "none.pdf")
    with pytest.raises(BadEntry, match="Subassembly: is not named"):
        kinds["rebuilt"].write(shop, Wanted(LATHE), target)


def test_a_question_goes_out_with_machine_part_and_sizes(shop: Store, tmp_path: Path) -> None:
    target = tmp_path / "q.pdf"
    with shop.read() as connection:
        asked = questions(connection, LATHE)
        packs = [question_pack(connection, row.id, verdict_rule(shop)) for row in asked]
    sized = next(number for number, pack in enumerate(packs) if pack.sizes)
    pack = packs[sized]
    wanted = Wanted(LATHE, question_id=asked[sized].id)
    next(one for one in PRINTED if one.key == "question").write(shop, wanted, target)
    for line in (pack.question, *pack.facts, *pack.sizes):
        assert squeezed(line) in told(target)
        assert line in pack.text()
    assert "Tram lathe" in pack.facts[0]


def test_the_command_line_prints_the_same_and_says_what_it_cannot(
    shop: Store, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file, target = str(shop.path), tmp_path / "cli.pdf"
    assert tuple(one.key for one in PRINTED) == cli_printing.WORDS
    args = ["print", "tags", file, "--machine", "Tram lathe", "--part", "AP-07", "--labels", "roll 62 x 29"]
    assert main([*args, "--to", str(target)]) == 0
    assert "1 page." in capsys.readouterr().out
    assert squeezed("AP-07") in told(target)
    with shop.read() as connection:
        survey, asked = surveys(connection, LATHE)[0].name, questions(connection, LATHE)[0].text
    every = ["--machine", "Tram lathe", "--of", "Apron", "--survey", survey, "--question", asked]
    for key in cli_printing.WORDS:
        for on in PAPERS:
            of = [*every[:2], *every[4:]] if key == "removals" else every
            assert main(["print", key, file, *of, "--paper", on.name.lower(), "--to", str(target)]) == 0, key
            wide = float(PdfReader(target).pages[0].mediabox.width)
            assert wide == pytest.approx(on.width_mm / 25.4 * 72, abs=0.01), f"{key} on {on.name}"
    capsys.readouterr()
    for more, said in (
        (["print", "hats", file], "is nothing that is printed. There are: tags"),
        (["print", "walk", file], "Machine: is not named. Name one with --machine"),
        (["print", "walk", file, "--machine", "Lathe of nobody"], "There is no machine “Lathe of nobody”"),
        ([*args, "--labels", "A4, 300 x 10, 1 x 1"], "too small to be read"),
        ([*args, "--first", "0"], "First label"),
    ):
        assert main(more) == 2
        assert said in capsys.readouterr().err


def test_the_measuring_sheet_of_a_part_holds_that_part_alone(shop: Store, apron: int, tmp_path: Path) -> None:
    target, measuring = tmp_path / "m.pdf", printed_named("measuring")
    rows = grid_rows(shop, LATHE, apron)
    part, *others = dict.fromkeys(row.part_id for row in rows)
    measuring.write(shop, Wanted(LATHE, apron, (part,)), target)
    mine = [row for row in rows if row.part_id == part]
    text = told(target)
    assert squeezed(f"{mine[0].part_code} {mine[0].part_name}") in text
    assert f"{len(mine)}line" in text
    assert others
    named = {squeezed(f"{row.part_code} {row.part_name}") for row in rows if row.part_id in others}
    assert not [name for name in named if name in text]


def test_the_list_of_what_to_buy_has_each_thing_and_the_orders_by_supplier(
    shop: Store, tmp_path: Path
) -> None:
    target = tmp_path / "b.pdf"
    add_waiting(shop, LATHE, "oil seal 30 x 47", typed={"who": "seal house"})
    printed_named("buy").write(shop, Wanted(LATHE), target)
    text = told(target)
    with shop.read() as connection:
        things = to_buy(connection, LATHE)
    assert things
    assert all(squeezed(one.what) in text for one in things)
    assert text.index("Fromsealhouse") < text.index(squeezed("oil seal 30 x 47"))
    assert f"{len(things)}thing" in text
