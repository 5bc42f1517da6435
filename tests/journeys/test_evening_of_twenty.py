"""An evening's teardown: twenty parts, each with its photo and its bag, without leaving the page; keys counted."""

from __future__ import annotations

from pathlib import Path

import pytest
from PIL import Image
from PySide6.QtCore import QMimeData, Qt, QUrl
from PySide6.QtWidgets import QApplication

from rebuild.window.teardown.page import TeardownPage
from rebuild.work.machines import acts as identify
from rebuild.work.photos.rows_shown import of_removal
from rebuild.work.teardown import rows_removals as removals
from tests.conftest import Shop
from tests.journeys.hands import Hands

PARTS, TO_A_BAG = 20, 4
#: What is said of some; of the others a letter and the bag.
SAID = {3: "u, 4 x M6 x 20 socket", 8: "d from small end, mark two dots", 13: "p, found a nest of swarf"}
#: As README says it: keys a part, its photo and its bag included.
MOST_KEYS_A_PART = 16


class Counted:
    """Keys of the evening: a chord is one."""

    def __init__(self, user: Hands) -> None:
        self.user, self.keys = user, 0

    def say(self, text: str) -> None:
        """Words and Enter into the line."""
        self.user.type(text)
        self.user.enter()
        self.keys += len(text) + 1

    def enter(self) -> None:
        """Enter once more."""
        self.user.enter()
        self.keys += 1

    def paste(self) -> None:
        """Ctrl+V."""
        self.user.ctrl(Qt.Key.Key_V)
        self.keys += 1


@pytest.mark.slow
def test_twenty_parts_with_photos_and_bags_in_one_line(hands: Hands, shop: Shop, tmp_path: Path) -> None:
    """Removal log, the keyboard in the line the whole evening: a letter, the bag, Enter; a bag nobody has made is
    made by one more Enter; the photo of each comes by the clipboard from the phone and is pasted into the line."""
    store = hands.frame.desk.store
    group = identify.add_subassembly(store, shop.machine, "Apron", "AP")
    for number in range(1, PARTS + 1):
        identify.add_part(store, shop.machine, group, f"piece {number}", f"AP-{number:02d}")
    hands.frame.desk.choose(subassembly_id=group, part_ids=(), key=None)
    page = hands.page("teardown")
    assert isinstance(page, TeardownPage)
    page.off.line.setFocus()
    evening = Counted(hands)
    for number in range(1, PARTS + 1):
        bag = (number - 1) // TO_A_BAG + 1
        evening.say(f"{SAID.get(number, 'l')}, > bag {bag}")
        if (number - 1) % TO_A_BAG == 0:
            assert page.off.line.text(), "a bag nobody has made is asked about"
            evening.enter()
        assert page.off.line.text() == "", page.off.ways.sentence.text()
        copied(tmp_path / f"{number:02}.jpg", number)
        evening.paste()
        assert page.off.line.text() == "", "a picture is no text"
    assert hands.frame.page_shown == "teardown"
    with store.read() as connection:
        attempt = removals.current_attempt(connection, shop.machine, group)
        assert attempt is not None
        rows = removals.removals(connection, attempt.id)
        seen = {row.id: of_removal(connection, shop.machine, row.id) for row in rows}
    assert [row.called for row in rows] == [f"AP-{n:02d} piece {n}" for n in range(1, PARTS + 1)]
    assert [row.place for row in rows] == [f"bag {(n - 1) // TO_A_BAG + 1}" for n in range(1, PARTS + 1)]
    assert [[one.file_name for one in seen[row.id]] for row in rows] == [
        [f"{n:02}.jpg"] for n in range(1, PARTS + 1)
    ]
    print(f"{evening.keys} keys for {PARTS} parts, {evening.keys / PARTS:.1f} a part")
    assert evening.keys / PARTS <= MOST_KEYS_A_PART, evening.keys
    page.detail.photos.strip.model.stop()


def copied(path: Path, shade: int) -> None:
    """A photo copied from the phone's folder: its file lies on the clipboard."""
    Image.new("RGB", (320, 240), (12 * shade, 90, 120)).save(path)
    held = QMimeData()
    held.setUrls([QUrl.fromLocalFile(str(path))])
    QApplication.clipboard().setMimeData(held)
