"""Every page printed of the demo's machines, walked for the other unit standing before the owner's.

Common practice, no source: a shop reads in the unit its machine was built in; what was typed in another keeps
its own words, behind the owner's.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pypdfium2 as pdfium
import pytest

from rebuild.sheets.charts import write_test_chart
from rebuild.sheets.oil_card import write_oil_card
from rebuild.sheets.pages.printed import PRINTED, Of, Wanted, printed_named
from rebuild.store.store import Store
from rebuild.work.log.rows import questions
from rebuild.work.places.rows import places
from rebuild.work.plan.rows_tonight import Tonight
from rebuild.work.surveys.rows import surveys
from tests.conftest import demo_copy

#: A length of the other system, by the machine's unit. "in" is a word too: only behind a decimal or before a bracket.
OTHER = {
    "in": re.compile(r"-?\d[\d.]* ?(?:mm|µm)(?![\w²])"),
    "mm": re.compile(r"-?(?:\d*\.\d+ ?in|\d[\d.]* ?(?:thou|µin|in/ft))(?!\w)"),
}
#: What stands right before it where the owner's stands first.
OWNERS_FIRST = {
    "in": re.compile(r"\d ?(?:in|thou|µin)(?: per [\d.]+ in)?(?:, [\w ]+)? \((?:[\d.;,+ -]|mm)*$"),
    "mm": re.compile(r"\d ?(?:mm|µm)(?: per [\d.]+ mm)?(?:, [\w ]+)? \((?:[\d.;,+ -]|in)*$"),
}


#: Labels carry names and codes only.
KINDS = ("chart", "oil", *(one.key for one in PRINTED if one.key not in ("tags", "bags")))
#: Where people write names and notes with sizes in them.
NAMED = {
    "part": "code, name, note, condition, material",
    "task": "title, note",
    "question": "text, answer",
    "feature": "spec_text || ' ' || unit",
    "means": "name, note",
    "place": "name, note",
    "fastener": "note, length_text || ' ' || length_unit",
    "survey": "name",
    "machine": "name, model, story",
}


@pytest.fixture(scope="module")
def shop(demo_template: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Store]:
    store = Store.open(demo_copy(demo_template, tmp_path_factory.mktemp("units")))
    yield store
    store.close()


def wanted(store: Store, machine: int, key: str) -> list[Wanted]:
    """What a kind of page is made of: every survey and question, the subassembly with most read in the other unit."""
    of = printed_named(key).of
    plain = Wanted(machine, tonight=Tonight(600, helper=True))
    with store.read() as connection:
        if of is Of.SURVEY:
            return [replace(plain, survey_id=row.id) for row in surveys(connection, machine)]
        if of is Of.QUESTION:
            return [replace(plain, question_id=row.id) for row in questions(connection, machine)]
        if of is Of.PLACES:
            return [replace(plain, place_ids=tuple(row.id for row in places(connection)[:4]))]
        if of is not Of.SUBASSEMBLY and key != "measuring":
            return [plain]
        odd = connection.exec_driver_sql(
            "SELECT part.subassembly_id FROM reading JOIN feature ON feature.id = reading.feature_id "
            "JOIN part ON part.id = feature.part_id JOIN machine ON machine.id = part.machine_id "
            "WHERE machine.id = ? AND part.subassembly_id IS NOT NULL GROUP BY 1 "
            "ORDER BY SUM(reading.unit <> machine.unit) DESC LIMIT 1",
            (machine,),
        )
        return [replace(plain, subassembly_id=row[0]) for row in odd]


def names_of(store: Store) -> str:
    """Every text typed as a name, a note or a question, which keeps its own words: ``scraper, carbide 20 mm``."""
    said: list[str] = []
    with store.read() as connection:
        for table, columns in NAMED.items():
            for row in connection.exec_driver_sql(f"SELECT {columns} FROM {table}"):
                said += [str(word) for word in row if word]
    return "\n".join(said)


@pytest.mark.parametrize("what", KINDS)
def test_no_page_says_the_other_unit_before_the_owners(what: str, shop: Store, tmp_path: Path) -> None:
    """35.011 mm stood alone on an inch machine's page, a bridge of 3 in as 76.2 mm, 0.0004 in on a metric chart."""
    typed, told = names_of(shop), 0
    for machine, unit in ((1, "in"), (2, "mm")):
        for text in texts(what, shop, machine, tmp_path / "page.pdf"):
            told += len(text)
            found = [
                text[max(0, at.start() - 60) : at.end() + 5]
                for at in OTHER[unit].finditer(text)
                if at.group() not in typed and not OWNERS_FIRST[unit].search(text[: at.start()])
            ]
            assert found == []
    assert told > 500


def texts(what: str, shop: Store, machine: int, target: Path) -> Iterator[str]:
    """The words of each page of one kind."""
    if what == "chart":
        write_test_chart(shop, machine, target)
        yield read(target)
    elif what == "oil":
        write_oil_card(shop, machine, target)
        yield read(target)
    else:
        for one in wanted(shop, machine, what):
            printed_named(what).write(shop, one, target)
            yield read(target)


def read(target: Path) -> str:
    document = pdfium.PdfDocument(target)
    text = " ".join(page.get_textpage().get_text_range() for page in document)
    document.close()
    return re.sub(r"\s+", " ", text)
