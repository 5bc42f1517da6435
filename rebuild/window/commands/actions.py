"""Every menu line and key of the frame, as data. To add one, add a row and its act in ``acts.py``."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from rebuild.window.desk.desk import Desk


class Needs(Enum):
    """What must be there before an action can be done."""

    NOTHING = "nothing"
    FILE = "an open file"
    MACHINE = "a machine"
    SUBASSEMBLY = "a chosen subassembly"
    ONE_PART = "a chosen part"
    PARTS = "chosen parts"

    def met(self, desk: Desk) -> bool:
        """Whether it is there now."""
        if self is Needs.NOTHING:
            return True
        if not desk.is_open:
            return False
        chosen = desk.selection
        return {
            Needs.FILE: True,
            Needs.MACHINE: desk.machine_id is not None,
            Needs.SUBASSEMBLY: chosen.subassembly_id is not None,
            Needs.ONE_PART: len(chosen.part_ids) == 1,
            Needs.PARTS: bool(chosen.part_ids),
        }[self]


@dataclass(frozen=True, slots=True)
class ActionRow:
    """One menu line. An empty key is a rule between lines."""

    menu: str
    key: str = ""
    text: str = ""
    keys: str = ""
    needs: Needs = Needs.NOTHING
    help: str = ""


MENUS = ("&File", "&Edit", "&Machine", "&Part", "S&hop", "&Show", "He&lp")

ACTIONS: tuple[ActionRow, ...] = (
    ActionRow("&File", "new_file", "&New file…", "Ctrl+Alt+N", help="Make an empty project file"),
    ActionRow("&File", "open_file", "&Open…", "Ctrl+O", help="Open a project file"),
    ActionRow("&File", "try_demo", "&Try the demo", help="Two invented machines in the middle of a rebuild"),
    ActionRow("&File"),
    ActionRow("&File", "back_up", "&Back up now", needs=Needs.FILE, help="A verified copy beside the file"),
    ActionRow("&File", "import", "&Import…", needs=Needs.FILE,
              help="A part list or readings from CSV, a workbook, or an exported folder"),
    ActionRow("&File", "export", "&Export…", needs=Needs.FILE,
              help="Everything as plain CSV and JSON, or the lists as a workbook"),
    ActionRow("&File", "kept", "&Kept entries…", needs=Needs.FILE,
              help="What was typed but could not be stored where it was meant"),
    ActionRow("&File", "settings", "&Settings of this file…", needs=Needs.FILE,
              help="How a comma is read, the rule for verdicts, who signs"),
    ActionRow("&File"),
    ActionRow("&File", "close_file", "&Close file", "Ctrl+W", Needs.FILE),
    ActionRow("&File", "quit", "&Quit", "Ctrl+Q"),
    ActionRow("&Edit", "undo", "&Undo", "Ctrl+Z", Needs.FILE),
    ActionRow("&Edit", "redo", "&Redo", "Ctrl+Shift+Z", Needs.FILE),
    ActionRow("&Edit"),
    ActionRow("&Edit", "find", "&Find a part", "Ctrl+F", Needs.MACHINE, "Filter the tree"),
    ActionRow("&Machine", "new_machine", "&New machine…", "Ctrl+M", Needs.FILE),
    ActionRow("&Machine", "machine_card", "Machine’s &details…", "", Needs.MACHINE),
    ActionRow("&Machine", "remove_machine", "&Remove machine", "", Needs.MACHINE,
              "Removes it with all its parts and steps; undo brings everything back"),
    ActionRow("&Machine"),
    ActionRow("&Machine", "new_subassembly", "New &subassembly…", "Ctrl+Shift+N", Needs.MACHINE),
    ActionRow("&Machine", "new_inner", "New subassembly &inside the chosen one…", "", Needs.SUBASSEMBLY),
    ActionRow("&Machine", "new_step", "New s&tep…", "Ctrl+T", Needs.MACHINE),
    ActionRow("&Part", "new_part", "&New part…", "Ctrl+N", Needs.MACHINE),
    ActionRow("&Part", "new_loose", "New &loose part…", "", Needs.MACHINE, "One nobody has placed yet"),
    ActionRow("&Part", "new_feature", "New &feature…", "Ctrl+E", Needs.ONE_PART),
    ActionRow("&Part"),
    ActionRow("&Part", "decide", "&Decide…", "Ctrl+D", Needs.PARTS, "What is to become of it, and why"),
    ActionRow("&Part", "put_away", "Put &away…", "Ctrl+P", Needs.PARTS, "Say where it lies now"),
    ActionRow("&Part", "concede", "&Concession…", "", Needs.ONE_PART, "Accept it outside its spec, with the reason"),
    ActionRow("&Part", "make_sheet", "Ma&king sheet", "Ctrl+K", Needs.ONE_PART,
              "A sheet to make it by, filled with all that is known"),
    ActionRow("&Part", "join_set", "&Matched set…", "", Needs.PARTS, "Parts that must stay together"),
    ActionRow("&Part", "part_step", "New &step for it…", "", Needs.ONE_PART),
    ActionRow("&Part"),
    ActionRow("&Part", "rename", "&Rename", "", Needs.MACHINE, "F2 in the tree"),
    ActionRow("&Part", "move_to", "Move &to…", "Ctrl+Shift+M", Needs.PARTS, "To another subassembly"),
    ActionRow("&Part", "remove", "R&emove", "", Needs.MACHINE, "Del in the tree; undo brings it back"),
    ActionRow("S&hop", "instruments", "&Instruments…", "Ctrl+I", Needs.FILE,
              "What each reads to, its limit of error, and where that figure comes from"),
    ActionRow("S&hop", "places", "&Places…", "", Needs.FILE, "Bags, totes, shelves, baths, other shops"),
    ActionRow("S&hop", "matched_sets", "&Matched sets…", "", Needs.MACHINE),
    ActionRow("&Show", "next_pane", "Next &pane", "F6", Needs.FILE),
    ActionRow("He&lp", "keys", "&Keys…", "F1"),
    ActionRow("He&lp", "cautions", "&Cautions…", help="What can hurt, and to whom that defers"),
    ActionRow("He&lp", "limits", "&Limits of use…"),
)  # fmt: skip

#: What a right click in the tree offers, by what is chosen there.
ON_PARTS = ("decide", "make_sheet", "put_away", "concede", "join_set", "", "new_feature", "part_step", "", "rename",
            "move_to", "remove")  # fmt: skip
ON_SUBASSEMBLY = ("new_part", "new_inner", "new_step", "", "rename", "remove")
ON_NOTHING = ("new_part", "new_loose", "new_subassembly")


def row_of(key: str) -> ActionRow:
    """The row of one action."""
    return next(row for row in ACTIONS if row.key == key)
