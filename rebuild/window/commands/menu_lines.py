"""Every menu line and key of the frame, as data. To add one, add a row.

Its act is named there once, as ``module:function``; ``dispatch.py`` says how it is called. A row without
an act is done by the frame itself.
"""

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
    """One menu line, and what it does. An empty key is a rule between lines."""

    menu: str
    key: str = ""
    text: str = ""
    keys: str = ""
    needs: Needs = Needs.NOTHING
    act: str = ""
    help: str = ""


MENUS = ("&File", "&Edit", "&Machine", "&Part", "S&hop", "&Show", "He&lp")

ACTIONS: tuple[ActionRow, ...] = (
    ActionRow("&File", "new_file", "&New file…", "Ctrl+Alt+N", help="Make an empty project file"),
    ActionRow("&File", "open_file", "&Open…", "Ctrl+O", help="Open a project file"),
    ActionRow("&File", "mend_file", "&Mend a damaged file…",
              help="Make a sound file from what can be read of a damaged one, its log and its backups"),
    ActionRow("&File", "try_demo", "&Try the demo", help="Two invented machines in the middle of a rebuild"),
    ActionRow("&File"),
    ActionRow("&File", "back_up", "&Back up now", needs=Needs.FILE, act="rebuild.window.desk.backup:back_up",
              help="A verified copy beside the file"),
    ActionRow("&File", "import", "&Import…", needs=Needs.FILE,
              act="rebuild.window.exchange.import_dialog:import_tables",
              help="A part list or readings from CSV, a workbook, or an exported folder"),
    ActionRow("&File", "export", "&Export…", needs=Needs.FILE,
              act="rebuild.window.exchange.export_dialog:export_project",
              help="Everything as plain CSV and JSON, or the lists as a workbook"),
    ActionRow("&File", "kept", "&Kept entries…", needs=Needs.FILE, act="rebuild.window.log.kept:show_kept",
              help="What was typed but could not be stored where it was meant"),
    ActionRow("&File", "bad_cells", "Cells that cannot be rea&d…", needs=Needs.FILE,
              act="rebuild.window.desk.bad_cells:show_bad_cells",
              help="What lies in a damaged cell, what may stand there, and setting it right"),
    ActionRow("&File", "settings", "&Settings of this file…", needs=Needs.FILE,
              act="rebuild.window.forms.file_settings:file_settings",
              help="How a comma is read, the rule for verdicts, who signs"),
    ActionRow("&File"),
    ActionRow("&File", "close_file", "&Close file", "Ctrl+W", needs=Needs.FILE),
    ActionRow("&File", "quit", "&Quit", "Ctrl+Q"),
    ActionRow("&Edit", "undo", "&Undo", "Ctrl+Z", needs=Needs.FILE),
    ActionRow("&Edit", "redo", "&Redo", "Ctrl+Shift+Z", needs=Needs.FILE),
    ActionRow("&Edit"),
    ActionRow("&Edit", "find_all", "Find &anything", "F3", needs=Needs.FILE,
              help="Every word, number, code and size of the file, opened where it stands"),
    ActionRow("&Edit", "find", "&Find a part", "Ctrl+F", needs=Needs.MACHINE, help="Filter the tree"),
    ActionRow("&Machine", "new_machine", "&New machine…", "Ctrl+M", needs=Needs.FILE,
              act="rebuild.window.forms.new_machine:new_machine"),
    ActionRow("&Machine", "machine_card", "Machine’s &details…", needs=Needs.MACHINE,
              act="rebuild.window.forms.machine_card:machine_card"),
    ActionRow("&Machine", "remove_machine", "&Remove machine", needs=Needs.MACHINE,
              act="rebuild.window.forms.machine_card:remove_machine",
              help="Removes it with all its parts and steps; undo brings everything back"),
    ActionRow("&Machine"),
    ActionRow("&Machine", "new_subassembly", "New &subassembly…", "Ctrl+Shift+N", needs=Needs.MACHINE,
              act="rebuild.window.forms.new:new_subassembly"),
    ActionRow("&Machine", "new_inner", "New subassembly &inside the chosen one…", needs=Needs.SUBASSEMBLY,
              act="rebuild.window.forms.new:new_inner_subassembly"),
    ActionRow("&Machine", "new_step", "New s&tep…", "Ctrl+T", needs=Needs.MACHINE,
              act="rebuild.window.forms.new:new_step"),
    ActionRow("&Part", "part_card", "P&art card", "F4", needs=Needs.ONE_PART,
              act="rebuild.window.parts.card_window:open_card", help="All that is known of it, over any page"),
    ActionRow("&Part", "manual_of_part", "Man&ual page", "Shift+F4", needs=Needs.MACHINE,
              act="rebuild.window.documents.opening:open_of_chosen",
              help="The page of a manual the chosen spec, part or subassembly stands on"),
    ActionRow("&Part", "new_part", "&New part…", "Ctrl+N", needs=Needs.MACHINE,
              act="rebuild.window.forms.new:new_part"),
    ActionRow("&Part", "new_loose", "New &loose part…", needs=Needs.MACHINE,
              act="rebuild.window.forms.new:new_loose_part", help="One nobody has placed yet"),
    ActionRow("&Part", "paste_list", "Paste a &list…", needs=Needs.MACHINE,
              act="rebuild.window.exchange.paste_list:paste_list",
              help="Parts copied from a spreadsheet or a text, into the chosen subassembly; Ctrl+V in the tree"),
    ActionRow("&Part", "new_feature", "New &feature…", "Ctrl+E", needs=Needs.ONE_PART,
              act="rebuild.window.forms.feature_dialog:add_feature"),
    ActionRow("&Part"),
    ActionRow("&Part", "decide", "&Decide…", "Ctrl+D", needs=Needs.PARTS,
              act="rebuild.window.decisions.decide_dialog:decide_parts", help="What is to become of it, and why"),
    ActionRow("&Part", "put_away", "Put &away…", "Ctrl+P", needs=Needs.PARTS,
              act="rebuild.window.forms.put_dialog:put_parts", help="Say where it lies now"),
    ActionRow("&Part", "concede", "&Concession…", needs=Needs.ONE_PART,
              act="rebuild.window.forms.concede_dialog:concede_part",
              help="Accept it outside its spec, with the reason"),
    ActionRow("&Part", "make_sheet", "Ma&king sheet", "Ctrl+K", needs=Needs.ONE_PART,
              act="rebuild.window.making.one_click:make_sheet",
              help="A sheet to make it by, filled with all that is known"),
    ActionRow("&Part", "join_set", "&Matched set…", needs=Needs.PARTS, act="rebuild.window.forms.new:join_in_set",
              help="Parts that must stay together"),
    ActionRow("&Part", "apart_again", "&Take apart again…", needs=Needs.ONE_PART,
              act="rebuild.window.forms.again_dialog:take_apart",
              help="It comes off again: open the steps that put it on, with why"),
    ActionRow("&Part", "part_step", "New &step for it…", needs=Needs.ONE_PART,
              act="rebuild.window.forms.new:new_step_for_part"),
    ActionRow("&Part"),
    ActionRow("&Part", "rename", "&Rename", needs=Needs.MACHINE, help="F2 in the tree"),
    ActionRow("&Part", "move_to", "Move &to…", "Ctrl+Shift+M", needs=Needs.PARTS,
              act="rebuild.window.forms.put_dialog:move_dialog", help="To another subassembly"),
    ActionRow("&Part", "remove", "R&emove", needs=Needs.MACHINE, help="Del in the tree; undo brings it back"),
    ActionRow("S&hop", "instruments", "&Instruments…", "Ctrl+I", needs=Needs.FILE,
              act="rebuild.window.forms.shop_lists:instrument_list",
              help="What each reads to, its limit of error, and where that figure comes from"),
    ActionRow("S&hop", "places", "&Places…", needs=Needs.FILE, act="rebuild.window.forms.shop_lists:place_list",
              help="Bags, totes, shelves, baths, other shops"),
    ActionRow("S&hop", "matched_sets", "&Matched sets…", needs=Needs.MACHINE,
              act="rebuild.window.forms.shop_lists:matched_set_list"),
    ActionRow("S&hop"),
    ActionRow("S&hop", "print_tags", "Print &tags…", needs=Needs.MACHINE,
              act="rebuild.window.labels.stock_dialog:print_tags",
              help="Of the chosen parts, else of the chosen subassembly, with a code that a photo is filed by"),
    ActionRow("S&hop", "print_bags", "Print &bag labels…", needs=Needs.MACHINE,
              act="rebuild.window.labels.stock_dialog:print_bags", help="Of every bag, tote and shelf"),
    ActionRow("S&hop", "print_trays", "Print tray &lists…", needs=Needs.MACHINE,
              act="rebuild.window.labels.printing:print_trays", help="What lies where, a page a place"),
    ActionRow("S&hop"),
    ActionRow("S&hop", "print_day", "Print &day sheet…", needs=Needs.MACHINE,
              act="rebuild.window.labels.printing:print_day",
              help="Tonight’s steps with photo, sizes, torques, cautions and boxes"),
    ActionRow("S&hop", "print_measuring", "Print m&easuring sheet…", needs=Needs.MACHINE,
              act="rebuild.window.labels.printing:print_measuring",
              help="Blank boxes for the chosen subassembly, in the order the entry line moves on"),
    ActionRow("S&hop", "print_measuring_part", "Print measuring sheet of ch&osen parts…", needs=Needs.PARTS,
              act="rebuild.window.labels.printing:print_measuring_part",
              help="Blank boxes for the chosen parts alone"),
    ActionRow("S&hop", "print_to_buy", "Print what is to bu&y…", needs=Needs.MACHINE,
              act="rebuild.window.labels.printing:print_to_buy",
              help="What stands on no order yet, with boxes to write in, and what is on order from whom"),
    ActionRow("S&hop", "print_removals", "Print remo&val log…", needs=Needs.MACHINE,
              act="rebuild.window.labels.printing:print_removals", help="What came off, first off first"),
    ActionRow("S&hop", "print_walk", "Print &walk round…", needs=Needs.MACHINE,
              act="rebuild.window.labels.printing:print_walk", help="Every joint not final, by where one stands"),
    ActionRow("S&hop", "print_rebuilt", "Print as found to &rebuilt…", needs=Needs.SUBASSEMBLY,
              act="rebuild.window.labels.printing:print_rebuilt",
              help="One page of the chosen subassembly: photos, readings before and after, hours"),
    ActionRow("&Show", "bench_mode", "&Bench mode", "F8", needs=Needs.MACHINE,
              help="The entry line alone, in digits seen from the machine; F8 leads back"),
    ActionRow("&Show", "act_finder", "Find an a&ct…", "Shift+F3",
              act="rebuild.window.commands.act_finder:find_act",
              help="Every act, page and button of the page shown, by its words"),
    ActionRow("&Show", "next_pane", "Next &pane", "F6", needs=Needs.FILE),
    ActionRow("&Show", "text_larger", "&Larger text", "Ctrl++", help="Up to twice the usual size; remembered"),
    ActionRow("&Show", "text_smaller", "S&maller text", "Ctrl+-", help="Down to 80 %; remembered"),
    ActionRow("&Show", "text_usual", "&Usual text size", "Ctrl+0"),
    ActionRow("He&lp", "keys", "&Keys of this page, and words…", "F1",
              act="rebuild.window.commands.help_sheets:page_keys",
              help="The keys that work here, and what the words on the screens mean"),
    ActionRow("He&lp", "all_keys", "&All keys…", "Shift+F1", act="rebuild.window.commands.help_sheets:key_sheet"),
    ActionRow("He&lp", "examples", "&Worked examples…", act="rebuild.window.commands.help_sheets:worked_examples",
              help="One of everything the handbook works out"),
    ActionRow("He&lp", "cautions", "&Cautions…", act="rebuild.window.commands.help_sheets:cautions",
              help="What can hurt, and to whom that defers"),
    ActionRow("He&lp", "limits", "&Limits of use…", act="rebuild.window.commands.help_sheets:limits_of_use"),
)  # fmt: skip

#: What a right click in the tree offers, by what is chosen there.
ON_PARTS = ("decide", "make_sheet", "put_away", "concede", "join_set", "", "new_feature", "part_step", "", "rename",
            "move_to", "print_tags", "print_measuring_part", "remove")  # fmt: skip
ON_SUBASSEMBLY = (
    "new_part",
    "new_inner",
    "new_step",
    "print_tags",
    "print_measuring",
    "print_rebuilt",
    "",
    "rename",
    "remove",
)
ON_NOTHING = ("new_part", "new_loose", "new_subassembly")


def row_of(key: str) -> ActionRow:
    """The row of one action."""
    return next(row for row in ACTIONS if row.key == key)
