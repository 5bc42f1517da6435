"""Sheets of help: the keys, a worked example of each figure, the cautions of the trade, and the limits of use."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from html import escape

from PySide6.QtCore import QEvent, Qt, QUrl
from PySide6.QtGui import QKeySequence, QShortcut, QTextCursor
from PySide6.QtWidgets import (
    QDialog,
    QDialogButtonBox,
    QLineEdit,
    QPushButton,
    QTextBrowser,
    QVBoxLayout,
    QWidget,
)

from rebuild.trade.results.cautions import caution, topics
from rebuild.trade.results.limits_of_use import LIMITS
from rebuild.window.commands.key_table import sections, sections_of
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.leads import HasPages, ShowsPages, ShowsTopics
from rebuild.window.desk.machine_unit import machine_unit
from rebuild.window.ink import theme
from rebuild.window.layout.plain import PlainLabel
from rebuild.words.glossary import GLOSSARY

Written = Callable[[theme.Ink], str]
#: How a link to a figure begins in a sheet.
FIGURE = "figure:"


class HelpSheet(QDialog):
    """A text to read, written in the ink in force; Esc closes it."""

    def __init__(
        self,
        title: str,
        written: Written,
        parent: QWidget,
        size: tuple[int, int],
        meant: Callable[[str], str] | None = None,
    ) -> None:
        super().__init__(parent)
        self._written = written
        self._meant = meant
        self.setWindowTitle(title)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.text = QTextBrowser(self)
        self.text.setAccessibleName(title)
        self.text.setTabChangesFocus(True)
        self.text.setFrameShape(QTextBrowser.Shape.NoFrame)
        self.text.document().setDocumentMargin(10)
        self.text.setOpenLinks(False)
        self.text.anchorClicked.connect(self._follow)
        self.sought = QLineEdit(self)
        self.sought.setPlaceholderText("Find in this sheet  Ctrl+F")
        self.sought.setAccessibleName("Find in this sheet")
        self.sought.returnPressed.connect(self.find_next)
        self.sought.textChanged.connect(self.find_first)
        self.said = PlainLabel(self)
        self.said.setWordWrap(True)
        QShortcut(QKeySequence(QKeySequence.StandardKey.Find), self, self.sought.setFocus)
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Close, self)
        for button in buttons.buttons():
            if isinstance(button, QPushButton):
                button.setAutoDefault(False)
        buttons.rejected.connect(self.reject)
        layout = QVBoxLayout(self)
        layout.addWidget(self.sought)
        layout.addWidget(self.said)
        layout.addWidget(self.text)
        layout.addWidget(buttons)
        self.resize(*size)
        self._write()
        self.text.setFocus()
        self.open()

    def find_first(self) -> None:
        """While it is typed: the entry that begins with the words, else the first place they stand."""
        words = self.sought.text().strip()
        self.said.setText("")
        block = self.text.document().begin()
        while words and block.isValid():
            if block.text().casefold().startswith(words.casefold()):
                cursor = QTextCursor(block)
                cursor.movePosition(
                    QTextCursor.MoveOperation.Right, QTextCursor.MoveMode.KeepAnchor, len(words)
                )
                self.text.setTextCursor(cursor)
                self._bring_up()
                return
            block = block.next()
        self.text.moveCursor(QTextCursor.MoveOperation.Start)
        if words:
            self.find_next()

    def find_next(self) -> None:
        """The next place the words stand, from the top again after the last; else what they are another word for."""
        words = self.sought.text().strip()
        self.said.setText("")
        if not words:
            return
        if self.text.find(words):
            self._bring_up()
            return
        self.text.moveCursor(QTextCursor.MoveOperation.Start)
        if self.text.find(words):
            self._bring_up()
        elif self._meant is not None and (topic := self._meant(words)):
            self.show_title(topic)
        else:
            self.said.setText(
                f"“{words}” does not stand in this sheet. Fewer letters, or another word for it."
            )

    def _bring_up(self) -> None:
        """What was found in the upper third, with all that is said of it beneath."""
        bar = self.text.verticalScrollBar()
        bar.setValue(bar.value() + self.text.cursorRect().top() - self.text.viewport().height() // 4)

    def show_title(self, topic: str) -> None:
        """Stand at the title of a topic."""
        self.text.scrollToAnchor(topic)

    def _follow(self, link: QUrl) -> None:
        """A figure's title leads to it on its page; the sheet closes."""
        window = self.parentWidget()
        if link.toString().startswith(FIGURE) and isinstance(window, HasPages) and window.page_shown:
            page = window.page("figures")
            if isinstance(page, ShowsTopics):
                page.choose_topic(link.toString().removeprefix(FIGURE))
            self.accept()

    def _write(self) -> None:
        ink = theme.ink()
        self.text.setHtml(f'<body style="color:{ink.ink.name()}">{self._written(ink)}</body>')

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() is QEvent.Type.PaletteChange and hasattr(self, "_written"):
            self._write()


def limits_of_use(_desk: Desk, parent: QWidget) -> QDialog:
    """What the program can and cannot be trusted with."""
    return HelpSheet("Limits of use", _limits, parent, (660, 460))


def cautions(_desk: Desk, parent: QWidget) -> QDialog:
    """Every caution the program shows, with to whom it defers and where it comes from."""
    return HelpSheet("Cautions", _cautions, parent, (720, 620))


def page_keys(_desk: Desk, parent: QWidget) -> QDialog:
    """The keys of the page shown and those that work everywhere, then what the words mean."""
    page = parent.page_shown if isinstance(parent, ShowsPages) else ""
    return HelpSheet("Keys and words", lambda ink: _page_keys(page, ink), parent, (760, 640))


def key_sheet(_desk: Desk, parent: QWidget) -> QDialog:
    """The keys."""
    return HelpSheet("Keys", _keys, parent, (760, 640))


def worked_examples(desk: Desk, parent: QWidget) -> QDialog:
    """One worked example of everything the handbook works out, as the Figures page begins it.

    It opens at the figure shown on that page; what is sought may be the shop's word for one.
    """
    unit = machine_unit(desk)
    sheet = HelpSheet("Worked examples", lambda ink: _examples(unit, ink), parent, (820, 680), _title_of)
    page = (
        parent.page("figures") if isinstance(parent, HasPages) and parent.page_shown == "figures" else parent
    )
    if isinstance(page, ShowsTopics) and page.topic_shown:
        sheet.show_title(page.topic_shown)
    return sheet


def _limits(_ink: theme.Ink) -> str:
    return "".join(f"<p>{escape(part)}</p>" for part in LIMITS.strip().split("\n\n"))


def _cautions(ink: theme.Ink) -> str:
    faint = ink.faint.name()
    first = (
        "<p>The cautions of the trade as they stand beside the steps they belong to. Local codes and people "
        "licensed for the work go before anything written here.</p>"
    )
    return first + "".join(
        f"<p><b>{escape(one.title)}</b><br/>{escape(one.text)}<br/><i>Defers to:</i> {escape(one.defer_to)}"
        f'<br/><span style="color:{faint}">{escape(one.source.cite())}</span></p>'
        for one in map(caution, topics())
    )


def _title_of(asked: str) -> str:
    """The topic that the shop's words lead to first; empty where none does."""
    from rebuild.trade.figures import all_figures
    from rebuild.trade.results.figure_find import found_by

    found = found_by(all_figures().values(), asked)
    return found[0].topic if found else ""


def _examples(unit: str, ink: theme.Ink) -> str:
    # The engineering modules are read when first asked for, not when the menus are made.
    from rebuild.trade.figures import all_figures
    from rebuild.trade.figures.at_first import at_first
    from rebuild.trade.results.figure_text import example_lines

    faint, group, told = ink.faint.name(), "", []
    for figure in all_figures().values():
        if figure.group != group:
            group = figure.group
            told.append(f"<h4>{escape(group)}</h4>")
        typed, came, working = (
            example_lines(figure, at_first(figure, "in"), "in") if unit == "in" else example_lines(figure)
        )
        steps = "<br/>".join(escape(line.strip()) for line in working.splitlines()[1:])
        told.append(
            f'<p><a name="{escape(figure.topic)}" href="{FIGURE}{escape(figure.topic)}">'
            f"<b>{escape(figure.title)}</b></a><br/>"
            f'{escape(typed)}<br/>gives {escape(came)}<br/><span style="color:{faint}">{steps}</span></p>'
        )
    return "".join(told)


def _keys(ink: theme.Ink) -> str:
    return "".join(f"<h4>{escape(title)}</h4>{_table(rows, ink)}" for title, rows in sections())


def _page_keys(page: str, ink: theme.Ink) -> str:
    keys = "".join(
        f"<h4>{escape(title)}</h4>{_table(rows, ink)}"
        for title, rows in (sections_of(page) if page else sections())
    )
    words = _table(((meaning.word, meaning.line) for meaning in GLOSSARY), ink)
    return f"{keys}<h4>What the words mean</h4>{words}<p>Shift+F1 lists the keys of every page.</p>"


def _table(rows: Iterable[tuple[str, str]], ink: theme.Ink) -> str:
    rule = f"border-top:1px solid {ink.rule.name()};"
    cells = "".join(
        f'<tr><td width="230" valign="top" style="{rule}">{escape(keys)}</td>'
        f'<td valign="top" style="{rule}">{escape(what)}</td></tr>'
        for keys, what in rows
    )
    return f'<table width="100%" cellspacing="0" cellpadding="3">{cells}</table>'
