"""The pages of the frame and the panes of the bench, as one table each.

A widget is named by module and class and made when its page is first shown. To add a page, add a row, and
its key to a group in ``groups.py``.
Every widget here is made as ``Class(desk, parent)``.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from importlib import import_module
from importlib.util import find_spec
from typing import cast

from PySide6.QtWidgets import QWidget

from rebuild.window.desk.desk import Desk

Maker = Callable[[Desk, QWidget | None], QWidget]


@dataclass(frozen=True, slots=True)
class Slot:
    """Where a widget comes from."""

    module: str
    maker: str

    @property
    def present(self) -> bool:
        """Whether the module is part of this program; a folder without modules is not."""
        found = find_spec(self.module)
        return found is not None and found.origin is not None

    def make(self, desk: Desk, parent: QWidget | None) -> QWidget:
        """Import the module and make the widget."""
        maker = cast(Maker, getattr(import_module(self.module), self.maker))
        return maker(desk, parent)


@dataclass(frozen=True, slots=True)
class Page:
    """One page of the frame: the word on its tab, what it is for, and its widget."""

    key: str
    name: str
    help: str
    slot: Slot


PAGES: tuple[Page, ...] = (
    Page("where", "Where was I", "What to read on coming back, and where a session is ended",
         Slot("rebuild.window.where_was_i.page", "WherePage")),
    Page("plan", "Plan", "What can be done next, and why", Slot("rebuild.window.plan.page", "PlanPage")),
    Page("waiting", "Waiting", "Orders, loans, clocks, stock and cost",
         Slot("rebuild.window.waiting.page", "WaitingPage")),
    Page("places", "Places", "What lies where, and since when", Slot("rebuild.window.places.page", "PlacesPage")),
    Page("bench", "Bench", "Parts, readings and steps", Slot("rebuild.window.bench.page", "BenchPage")),
    Page("teardown", "Removal log", "What came off and how, and putting it back",
         Slot("rebuild.window.teardown.page", "TeardownPage")),
    Page("photos", "Photos", "Photos of parts and steps", Slot("rebuild.window.photos.page", "PhotosPage")),
    Page("manuals", "Manuals", "PDFs and scans of the machine, with call-outs that name its parts",
         Slot("rebuild.window.documents.page", "ManualsPage")),
    Page("boxes", "Unknown", "What came in boxes and nobody knows: clues, suspects, what became of it",
         Slot("rebuild.window.boxes.page", "BoxesPage")),
    Page("questions", "Questions", "What is not known yet", Slot("rebuild.window.log.questions", "QuestionsPage")),
    Page("decide", "Decide", "What is out or undecided, and the ways to go",
         Slot("rebuild.window.decisions.page", "DecidePage")),
    Page("fits", "Fits", "Fits between two parts", Slot("rebuild.window.fits.page", "FitsPage")),
    Page("making", "Making", "Sheets of parts to be made, with their drawing",
         Slot("rebuild.window.making.page", "MakingPage")),
    Page("means", "Means", "Tools, gauges and helpers: what steps need, and what the shop lacks",
         Slot("rebuild.window.means.page", "MeansPage")),
    Page("joints", "Joints", "What is not tight yet before power-on",
         Slot("rebuild.window.joints.page", "JointsPage")),
    Page("lubrication", "Lubrication", "Oil, points and intervals",
         Slot("rebuild.window.lubrication.page", "LubricationPage")),
    Page("survey", "Survey", "Ways and geometry", Slot("rebuild.window.surveys.page", "SurveyPage")),
    Page("chart", "Test chart", "Geometry tests before and after, and the level",
         Slot("rebuild.window.charts.page", "ChartPage")),
    Page("controls", "Controls", "Every knob, lever and clutch, as found and proved",
         Slot("rebuild.window.controls.page", "ControlsPage")),
    Page("run-in", "Run-in", "Before power, bearing temperatures, cut tests",
         Slot("rebuild.window.run_in.page", "RunInPage")),
    Page("book", "Book", "Everything of the machine as one PDF", Slot("rebuild.window.book.page", "BookPage")),
    Page("log", "Bench log", "Sessions at the bench", Slot("rebuild.window.log.bench_log", "BenchLogPage")),
    Page("history", "History", "Every act, to read and to take back",
         Slot("rebuild.window.log.history", "HistoryPage")),
    Page("figures", "Figures", "Work out a size, thread, gear or joint",
         Slot("rebuild.window.figures.page", "FiguresPage")),
)  # fmt: skip

GRID = Slot("rebuild.window.readings.grid", "MeasurementGrid")
ENTRY_LINE = Slot("rebuild.window.entry.line", "EntryLine")
WORKING = Slot("rebuild.window.results.working", "WorkingPane")
TASK_LIST = Slot("rebuild.window.steps.pane", "TaskList")


def present_pages() -> list[Page]:
    """The pages whose modules are there, in order."""
    return [page for page in PAGES if page.slot.present]
