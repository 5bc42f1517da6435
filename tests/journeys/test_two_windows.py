"""One file, two windows and two processes."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLineEdit

from rebuild.window.parts.fields_leaf import FieldsLeaf
from rebuild.window.readings.columns import Column
from rebuild.work.editing.acts import edit
from rebuild.work.records import rows as record, rows_kept
from tests.conftest import Shop
from tests.journeys.conftest import Start
from tests.journeys.hands import Hands

OTHER_PROCESS = """
import sys
from pathlib import Path
from rebuild.store.store import Store
from rebuild.work.editing.acts import edit
from rebuild.work.readings.acts import Entry, record_reading
from rebuild.work.steps.acts import tick
store = Store.open(Path(sys.argv[1]))
record_reading(store, "59.981", Entry(int(sys.argv[2]), int(sys.argv[3])))
edit(store, "part", [int(sys.argv[4])], {"name": "cap, rear"})
tick(store, int(sys.argv[5]))
store.close()
"""


def field(user: Hands, name: str) -> QLineEdit:
    leaf = user.bench.details.leaf("details")
    assert isinstance(leaf, FieldsLeaf)
    found = leaf.form("part").boxes[name].widget
    assert isinstance(found, QLineEdit)
    return found


def test_another_process_is_seen_within_a_second(hands: Hands, shop: Shop) -> None:
    """The laptop in the office and the one on the bench have the same file open.

    Another process stores a reading, renames a part and ticks a step. Within a second after it is done this
    window shows the reading in the grid, the name in the tree, the tick in the list, and says that another window
    changed the file.
    """
    user = hands
    assert "cap, rear" not in " ".join(user.tree_lines())
    ids = (shop.journal, shop.far, shop.cap, shop.strip)
    subprocess.run(
        [sys.executable, "-c", OTHER_PROCESS, str(shop.path), *map(str, ids)],
        check=True,
        timeout=60,
        cwd=Path(__file__).parents[2],
    )
    user.bot.waitUntil(lambda: "cap, rear" in " ".join(user.tree_lines()), timeout=1000)
    assert user.cell("HS-01", "front journal", "far", Column.AS_FOUND) == "59.981"
    assert user.words("How far it is") == "1 of 4 steps done"
    assert "Another window changed this file" in user.said


def test_two_windows_show_the_same(start: Start, shop: Shop) -> None:
    """Two windows of one program on one file: a reading typed in the first stands in the second within a second,
    and taken back in the second it is gone from the first."""
    first, second = start(shop.path), start(shop.path, memory="second.ini")
    for user in (first, second):
        user.frame.show_page("bench")
        user.frame.desk.choose(subassembly_id=shop.headstock, part_ids=(), key=None)

    def shown(user: Hands) -> str:
        return user.cell("HS-01", "front journal", "near", Column.AS_FOUND)

    first.come_forward()
    first.frame.desk.choose(part_ids=(shop.spindle,), key=(shop.journal, shop.near))
    first.line.focus_entry()
    first.person("59.985\r")
    assert shown(first) == "59.985"
    first.bot.waitUntil(lambda: shown(second) == "59.985", timeout=1000)
    second.come_forward()
    second.menu("Edit", "Undo")
    first.bot.waitUntil(lambda: shown(first) == "", timeout=1000)


def test_a_clash_says_who_wins_and_keeps_the_other_text(hands: Hands, shop: Shop) -> None:
    """Both type into the same field of the same part.

    1. "GG-25" is being typed here as the cap's material; the keyboard is still in the field.
    2. Another window stores "EN-GJL-300" there. What is typed here is not touched.
    3. Enter: the sentence beside the field says what the other one stored; the typed text stays in its field, and
       is among the kept entries, counted at the foot of the window.
    4. The part is left for another without a second Enter: the stored value is the other one's; the kept entry says
       what it was meant for, once.
    """
    user = hands
    user.frame.desk.choose(part_ids=(shop.cap,), key=None)
    user.bench.details.show_leaf("details")
    material = field(user, "material")
    user.click(material)
    user.replace("GG-25")
    edit(shop.store, "part", [shop.cap], {"material": "EN-GJL-300"})
    user.bot.waitUntil(lambda: "Another window" in user.said, timeout=1000)
    assert material.text() == "GG-25"
    user.enter()
    leaf = user.bench.details.leaf("details")
    assert isinstance(leaf, FieldsLeaf)
    told = leaf.form("part").boxes["material"].trouble
    assert "EN-GJL-300" in told
    assert material.text() == "GG-25"
    assert user.frame.messages.kept.isVisible()
    tree = user.bench.tree.view
    tree.setFocus()
    user.press(Qt.Key.Key_Up)
    assert leaf.form("part").row_id == shop.spindle
    assert user.frame.messages.kept.text() == "1 kept entry…"
    with shop.store.read() as connection:
        kept = rows_kept.kept_entries(connection)
        now = record.card(connection, "part", shop.cap).fields["material"]
    assert now == "EN-GJL-300"
    assert [(one.typed, "material" in one.meant_for) for one in kept] == [("GG-25", True)]
    user.click(user.frame.messages.kept)
    user.dialog("Kept entries")
    user.press(Qt.Key.Key_Escape)
