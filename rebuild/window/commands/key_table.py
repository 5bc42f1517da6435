"""The keys of the panes, by where they work; those of the menus stand in ``actions.py``."""

from __future__ import annotations

from collections.abc import Iterator

from rebuild.trade.teardown.removal_words import HOW_KEYS
from rebuild.window.commands.groups import GROUPS
from rebuild.window.commands.menu_lines import ACTIONS
from rebuild.window.commands.pages import present_pages
from rebuild.work.records.ways_out import KEYS

Rows = tuple[tuple[str, str], ...]

_EVERYWHERE: Rows = (
    ("Alt+1 … Alt+6", "a view of the page shown"), ("Left, Right", "along the page names, when they have the keyboard"),
    ("Alt and the letter underlined", "a button or a menu"), ("Esc", "away from a question, out of a dialog"),
    ("Ctrl+Enter", "in a dialog: add, and begin the next; in a long field: store it"),
    ("Ctrl+Shift+C", "in a working: copy the whole of it"),
)  # fmt: skip
_TREE: Rows = (
    ("Ins", "new part"), ("Ctrl+V", "paste a list of parts"), ("Shift+Ins", "new subassembly inside the chosen one"),
    ("F2", "rename"), ("Del", "remove"),
    ("Alt+Up, Alt+Down", "one place up or down"), ("Esc", "take the filter away"),
)  # fmt: skip
_LINE: Rows = (
    ("Enter", "store; once more confirms a value that was held"),
    ("Ctrl+Enter", "store with fewer readings than asked for"), ("1 … 9", "answer a question by its number"),
    ("Esc", "leave the question, then clear the text"), ("Up, Down", "the row before or after"),
    ("Ctrl+Up, Ctrl+Down", "the stage before or after"), ("Ctrl+Z", "with the line empty: take the last reading back"),
    ("Alt+G, Alt+I, Alt+T, Alt+D", "stage, instrument, temperature, how many readings"),
    ("Alt+J", "a note on the reading"),
    (", ".join(f"Ctrl+Alt+{at}" for at in range(1, 6)), "move one of the last values to the row in hand"),
    (", ".join(f"Ctrl+Shift+{at}" for at in range(1, 6)), "take one of the last values back"),
    ("Ctrl+Alt+0", "put the value that waited longest on the row in hand"),
    ("Alt+A", "again: back to the row stored last"), ("Alt+U", "take values from a gauge, or not"),
)  # fmt: skip
_GRID: Rows = (
    ("Enter", "the working of the verdict"),
    ("a digit", "a reading in a stage's cell; anywhere else on the page it goes to the line"),
    ("F2", "edit the spec"), ("Del", "delete the entry, with the reason"), ("Ctrl+Enter", "into the entry line"),
    ("Ctrl+C, Ctrl+V", "copy and paste a block, to and from a spreadsheet"),
    ("Ctrl+Shift+C", "copy with headings"), ("Ctrl+Shift+F", "into the filter"),
)  # fmt: skip
_STEPS: Rows = (
    ("Space", "tick off, with what was measured or torqued"), ("Shift+Space", "open again"), ("Ctrl+U", "under way"),
    ("Alt+Up, Alt+Down", "one place earlier or later"), ("Ctrl+L", "what it waits for"), ("F2", "edit"),
    ("Ins", "new step"), ("Del", "remove"),
)  # fmt: skip
_TEARDOWN: Rows = (
    ("a letter and Enter", "log the part in the line as come off: " + ", ".join(
        f"{key} {word}" for key, word in HOW_KEYS.items())),
    ("Ctrl+V", "in the line: a picture is a photo of what was logged last"),
    ("Alt and the letter shown", "a way out of a question the line was asked; letters alone go on with the line"),
    ("Up, Down", "in the line: another part"), ("Alt+Up, Alt+Down", "in the log: one place earlier or later"),
)  # fmt: skip
_JOINTS: Rows = (("the letters under the list", "how it is left, and how dressed"),
                 ("Alt+Up, Alt+Down", "along the walk"))  # fmt: skip
_SESSION: Rows = (("Ctrl+Enter", "store the session"),)
#: Keys of one page only, by the page's key.
_OF_PAGE: dict[str, Rows] = {
    "where": _SESSION,
    "log": _SESSION,
    "waiting": (("Ins", "a new order"),),
    "plan": (("Enter", "go to it"), ("arrows", "Dates: from step to step; Network: to the step before, after, beside"),
             ("+ and -", "Network: nearer and farther")),
    "chart": (("Enter", "the working of the line"),),
    "photos": (("P, S, T, I, H", "to the chosen part, subassembly, step; back to the inbox; to what was in hand"),
               ("Shift+P, Shift+T", "shows the chosen part or step, too"), ("Del", "remove"), ("Ctrl+V", "paste one")),
    "manuals": (("PgUp, PgDown", "the page before or after"),
                ("+, -, W, 0", "larger, smaller, to the width, the whole page")),
    "survey": (("Ctrl+V", "paste a column of readings"),),
    "teardown": _TEARDOWN,
    "joints": _JOINTS,
}  # fmt: skip
#: Pages the entry line stands on, beside the bench.
_WITH_LINE = ("making", "survey", "chart", "run-in")


def _menus() -> Rows:
    return tuple((row.keys, row.text.replace("&", "").rstrip("…")) for row in ACTIONS if row.keys)


def _pages() -> Rows:
    named = {page.key: page.name for page in present_pages()}
    told = {
        group: ", ".join(named[key] for key in group.pages) + "; again: the next" * (len(group.pages) > 1)
        for group in GROUPS
    }
    return tuple((group.keys, f"{group.name}: {told[group]}") for group in GROUPS)


def _ways() -> Rows:
    return tuple((key, kind.value) for kind, key in KEYS.items())


def sections() -> Iterator[tuple[str, Rows]]:
    """Every key the window knows: where it works, then key and meaning."""
    yield "Menus", _menus()
    yield "Pages", _pages()
    yield "Everywhere", _EVERYWHERE
    yield "Part tree", _TREE
    yield "Entry line", _LINE
    yield "Measurement grid", _GRID
    yield "Steps", _STEPS
    yield "When a step is refused", _ways()
    named = {page.key: page.name for page in present_pages()}
    for key, rows in _OF_PAGE.items():
        yield named[key], rows


def sections_of(page: str) -> Iterator[tuple[str, Rows]]:
    """The keys that work on one page, its own first; an empty page is the start page, where only menus work."""
    named = {one.key: one.name for one in present_pages()}
    if page in _OF_PAGE:
        yield named[page], _OF_PAGE[page]
    if page == "bench":
        yield from (("Entry line", _LINE), ("Measurement grid", _GRID), ("Part tree", _TREE), ("Steps", _STEPS),
                    ("When a step is refused", _ways()))  # fmt: skip
    elif page in _WITH_LINE:
        yield "Entry line", _LINE
    if page:
        yield "On every page", _EVERYWHERE
        yield "Pages", _pages()
    yield "Menus", _menus()
