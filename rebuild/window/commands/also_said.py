"""What a page or an act is also called at a bench, and what the buttons of a page do: the act finder looks here too.

One entry a page and an act; words only. A word that is wanted and finds nothing is added here.
"""

from __future__ import annotations

#: The property of a menu line that holds them.
ALSO = "also_said"

#: By the key of the page: what its buttons do, and the shop's words for it.
OF_PAGES = {
    "where": "resume come back yesterday end the session tonight start again",
    "plan": "todo what next dates calendar finish week days off schedule critical tonight evening",
    "waiting": "buy order purchase shopping supplier parcel delivery loan lent borrow clock cure soak stock price cost "
    "batch bath paint coat ordered chased arrived checked returned"
    " invoice derust de-rust degrease wash prime primer electrolysis",
    "places": "where is it bag tote shelf drawer tray bin label store find a part lies",
    "bench": "measure measurement gauge micrometer reading size part list tree spec step tick"
    " tenths thou endplay end play backlash play indicate indicator bore gauge",
    "teardown": "take off remove strip dismantle disassemble came off removal undo put back refit order"
    " shim shims shimming",
    "photos": "picture camera image snapshot mark label inbox take in watch a folder",
    "manuals": "pdf scan drawing exploded book document call-out page",
    "boxes": "unknown mystery loose odd bits box what is it suspects clues",
    "questions": "ask answer not known uncertain open points",
    "decide": "keep remake repair rework replace buy new scrap wear worn weigh accept concession"
    " weld braze build up sleeve",
    "fits": "clearance interference press running slide shaft bore hub tolerance",
    "making": "make machine turn mill grind drawing sheet dxf print operation job send out"
    " hone lap knurl weld braze harden temper anneal heat-treat heat treat backplate",
    "means": "buy borrow lend make tool tap reamer hoist gauge helper lacking have here gone came"
    " straightedge surface-plate surface plate angle plate mandrel puller",
    "joints": "bolt screw nut torque tighten spanner wrench locking finger tight recheck rechecked walk round"
    " setscrew set-screw grub screw threadlock thread locker preload",
    "lubrication": "oil grease lubricate lube way oil sump level interval oiler map point"
    " way-oil wick drip cutting oil coolant",
    "survey": "straightness flatness level bed way plate scrape convex twist autocollimator"
    " straightedge surface-plate surface plate blue blueing bluing spotting template",
    "chart": "geometry test acceptance alignment runout square parallel levelling level"
    " tram tramming indicate trammed test bar nod",
    "controls": "lever knob handle clutch switch stop proved as found",
    "run-in": "power on first start guard electrical bearing temperature warm heat speed cut test"
    " motor phase converter vfd inverter wiring rotation lockout lock out tag out",
    "book": "pdf report binder print everything save",
    "log": "diary session journal hours notes",
    "history": "undo take back who when changes acts audit",
    "figures": "calculate calculator work out formula thread gear taper spring belt",
}

#: By the key of the menu line.
OF_ACTS = {
    "new_file": "create project begin",
    "back_up": "save copy safe",
    "export": "save as spreadsheet csv json workbook",
    "import": "load read in spreadsheet csv",
    "try_demo": "example sample show",
    "settings": "options preferences configure",
    "undo": "take back revert",
    "redo": "again",
    "find_all": "search look for seek",
    "find": "search look for part",
    "new_machine": "add create machine",
    "new_subassembly": "add create group unit",
    "new_part": "add create part",
    "paste_list": "add many parts clipboard",
    "new_feature": "add dimension size bore diameter to measure",
    "new_step": "add task job to do",
    "decide": "keep remake repair buy new scrap",
    "put_away": "store bag box shelf place where",
    "concede": "accept deviation use as it is",
    "make_sheet": "make drawing machine it",
    "remove": "delete",
    "rename": "change name",
    "move_to": "other subassembly",
    "instruments": "micrometer gauge caliper tools calibration",
    "bench_mode": "large digits big full screen",
    "act_finder": "command do anything",
    "keys": "help shortcut glossary words meaning manual",
    "all_keys": "help shortcuts keyboard",
    "cautions": "safety danger",
    "text_larger": "font bigger zoom in",
    "text_smaller": "font zoom out",
}
