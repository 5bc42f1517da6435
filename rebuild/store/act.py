"""The acts a user can do, named once: menus, history, log and tests read these words."""

from __future__ import annotations

from enum import Enum


class Act(Enum):
    """One kind of act; the value is the noun that follows "undo" in the menu."""

    ADD_MACHINE = "new machine"
    ADD_SUBASSEMBLY = "new subassembly"
    ADD_PART = "new part"
    ADD_FEATURE = "new feature"
    ADD_STATION = "new station"
    ADD_INSTRUMENT = "new instrument"
    ADD_TASK = "new task"
    ADD_LINK = "new link"
    ADD_PLACE = "new place"
    ADD_SET = "new matched set"
    ADD_QUESTION = "new question"
    ADD_LOG = "bench log entry"
    ADD_CAUTION = "caution"
    ADD_CONSTRAINT = "constraint"
    ADD_CONCESSION = "concession"
    EDIT = "edit"
    SET_SPEC = "spec"
    RECORD_READING = "reading"
    PASTE = "paste"
    STRIKE_READING = "struck reading"
    DECIDE = "decision"
    PUT = "putting away"
    MOVE = "move"
    REORDER = "new order"
    TICK = "step done"
    UNTICK = "step not done"
    ANSWER = "answer"
    REMOVE = "removal"
    BUILD_DEMO = "demo"
    IMPORT = "import"
    UNDO = "undo"
    REDO = "redo"
