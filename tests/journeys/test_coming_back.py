"""Leaving the bench, and coming back half a year later."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel

from rebuild.window.where_was_i.page import WherePage
from rebuild.work.log.rows import log
from rebuild.work.machines.acts import add_machine
from rebuild.work.records.rows_kept import kept_entries
from tests.conftest import Shop
from tests.journeys.conftest import Start
from tests.journeys.hands import Hands


def read(page: WherePage) -> str:
    return " ".join(one.text() for one in page.findChildren(QLabel) if one.isVisible())


def test_a_session_is_ended_and_found_again(hands: Hands, start: Start, shop: Shop) -> None:
    """Three short answers at the end, and two minutes to be back in it.

    1. Where was I: what was done, what lies out, what comes first next time, each with Enter; hours that are no
       number are refused and everything typed stays; then they are stored.
    2. The window closes. Opened again, the file opens on Where was I: the session stands first, with what was left
       and the next thing; the next actions can be followed by a click to the step on the bench.
    3. Bench log finds the session by a word.
    """
    user = hands
    user.page("where")
    user.tab_to("Did")
    user.type("spindle in, wicks wired")
    user.enter()
    user.type("caps finger tight")
    user.enter()
    user.type("peel one leaf rear")
    user.enter()
    user.type("an hour")
    user.ctrl(Qt.Key.Key_Return)
    page = user.frame.page("where")
    assert isinstance(page, WherePage)
    assert page.end.fields["did"].text() == "spindle in, wicks wired"
    assert "hour" in page.end.said.text()
    user.tab_to("Hours")
    user.replace("1.5")
    user.ctrl(Qt.Key.Key_Return)
    assert page.end.fields["did"].text() == ""
    with user.frame.desk.store.read() as connection:
        newest = log(connection, shop.machine)[0]
    assert (newest.did, newest.left_on_bench, newest.hours) == (
        "spindle in, wicks wired",
        "caps finger tight",
        1.5,
    )
    user.ctrl(Qt.Key.Key_Q)

    again = start(shop.path)
    assert again.frame.page_shown == "where"
    back = again.frame.page("where")
    assert isinstance(back, WherePage)
    again.bot.waitUntil(lambda: "caps finger tight" in read(back), timeout=2000)
    assert "peel one leaf rear" in read(back)
    book = again.page("log")
    again.tab_to("Find in the log")
    again.type("wicks")
    assert book.sessions.count() == 1  # type: ignore[attr-defined]


def test_what_was_being_written_is_not_lost(hands: Hands, shop: Shop) -> None:
    """A session, a question and an answer half written when the machine is changed, and when the window closes:
    the first waits on its machine; at closing all of it is among the kept entries."""
    user = hands
    book = user.page("log")
    user.tab_to("Did")
    user.type("scraped the ")
    user.frame.desk.choose_machine(add_machine(user.frame.desk.store, "Crank shaper"))
    assert book.fields.typed()["did"] == ""  # type: ignore[attr-defined]
    user.frame.desk.choose_machine(shop.machine)
    assert book.fields.typed()["did"] == "scraped the "  # type: ignore[attr-defined]
    user.page("questions")
    user.tab_to("New question")
    user.type("which way up")
    user.tab_to("Answer")
    user.type("the plate says")
    user.page("where")
    user.tab_to("Left")
    user.type("wires in")
    user.ctrl(Qt.Key.Key_Q)
    with shop.store.read() as connection:
        kept = {entry.typed for entry in kept_entries(connection)}
    assert kept == {"scraped the", "which way up", "the plate says", "wires in"}
