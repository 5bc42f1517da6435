"""The line the removals are said into: what is next off, what was understood, and one Enter to store it."""

from __future__ import annotations

import re
from functools import partial

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent, QKeySequence, QPalette
from PySide6.QtWidgets import QLineEdit, QVBoxLayout, QWidget

from rebuild.errors import BadEntry, RebuildError
from rebuild.trade.results.cautions import caution, suggest
from rebuild.trade.teardown.fastener_words import fastener_words
from rebuild.trade.teardown.removal_words import HOW_KEYS, says_a_size, way_words
from rebuild.window.desk.desk import Desk, Say
from rebuild.window.desk.half_typed import HalfTyped
from rebuild.window.ink import theme
from rebuild.window.layout.plain import PlainLabel
from rebuild.window.photos.strip import pictures_held, take_clipboard
from rebuild.window.steps.ways_out_row import WaysOutRow
from rebuild.window.teardown.half_said import HalfSaid, LinesBegun, LogKey
from rebuild.window.teardown.samples import line_sample
from rebuild.work.records.ways_out import Refused, Way, WayKind
from rebuild.work.teardown import acts as teardown, acts_line, rows_candidates as candidates
from rebuild.work.teardown.off import EnterOnceMore
from rebuild.work.teardown.rows_candidates import Candidates

#: Inside one entry the spaces do not break.
LEGEND = "   ".join(f"{key} {word}".replace(" ", "\u00a0") for key, word in HOW_KEYS.items())
MORE = (
    "Ctrl+V\u00a0its\u00a0photo   ↑↓\u00a0another\u00a0part   new\u00a0NAME\u00a0one\u00a0nobody\u00a0listed"
)
_NOTHING = Candidates((), (), ())
_SAYS_IT = re.compile(r"(?:broke|broken|cracked|chipped|lost|missing|gone|snapped|torn)\b", re.IGNORECASE)
_AGAIN = {WayKind.ALIKE: teardown.Again.ALIKE, WayKind.NEW_ATTEMPT: teardown.Again.NEW_ATTEMPT}


class OffLine(QWidget):
    """Says the next thing off. Up and Down choose another part; Enter stores; a refusal names its ways out.

    ``photographed`` tells of pictures pasted into the line: they are of what was logged last.
    """

    stored = Signal(int)
    photographed = Signal(list)

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self._group: int | None = None
        self._log_of = ""
        self._log: LogKey = (None, None)
        self._begun = LinesBegun()
        self._among = _NOTHING
        self._read_of: int | None = None  # the machine it was read of
        #: Of the machine shown: what its samples are said in.
        self.unit = "mm"
        self._shift = 0
        self._asked = ""
        self.next_off = PlainLabel(self)
        self.line = QLineEdit(self)
        self.understood = PlainLabel(self)
        self.ways = WaysOutRow(self)
        self._compose()
        self.line.textEdited.connect(self._edited)
        self.line.returnPressed.connect(self.store)
        self.ways.taken.connect(self._take)
        self.ways.given_up.connect(self.line.setFocus)

    def _compose(self) -> None:
        self.setAccessibleName("Next off")
        self.next_off.setFont(theme.large(self.font(), 1.35))
        self.next_off.setWordWrap(True)
        self.line.setAccessibleName("What came off and how")
        self.line.setFont(theme.large(self.font(), 1.2))
        self.line.installEventFilter(self)
        self.understood.setWordWrap(True)
        legend = PlainLabel(f"{LEGEND}   {MORE}", self)
        legend.setWordWrap(True)
        legend.setForegroundRole(QPalette.ColorRole.PlaceholderText)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 4, 0, 0)
        layout.setSpacing(3)
        for widget in (self.next_off, self.line, self.understood, self.ways, legend):
            layout.addWidget(widget)

    def show_group(self, subassembly_id: int | None, called: str) -> None:
        """Turn to the log of a subassembly; what stands half typed in the line stays with the log before."""
        log = (self._desk.machine_id, subassembly_id)
        if log == self._log:
            self._log_of = called
            self.read()
            return
        left = HalfSaid(self.line.text(), self._log_of, self.next_part if self._shift else None)
        self._begun.lay_by(self._log, left)
        self._log, self._log_of = log, called
        self._group, self._shift, self._asked = subassembly_id, 0, ""
        self.ways.clear()
        self._take_up(self._begun.take_up(log))
        if left.text.strip():
            self._desk.say(f"“{left.text}” stays with the log of {left.log_of}: it stands there again.")

    def _take_up(self, line: HalfSaid | None) -> None:
        self.line.setText(line.text if line is not None else "")
        self.read()
        on = [one.part_id for one in self._among.still_on]
        if line is not None and line.part_id in on:
            self._shift = on.index(line.part_id)
            self._read_back()

    def laid_by(self) -> list[HalfTyped]:
        """Every line begun and not stored, in this log and in others."""
        shown = HalfSaid(self.line.text(), self._log_of, None)
        return [_half_typed(line) for line in (*self._begun, shown) if line.text.strip()]

    def put_by(self) -> None:
        """Lines begun and not stored go to the kept entries; the file may close next."""
        for line in self.laid_by():
            if self._desk.is_open:
                why = "The removal was not stored."
                self._desk.attempt(partial(self._desk.store.keep_entry, line.meant_for, line.text, why))
        self._begun.forget()
        self.line.clear()

    def read(self) -> None:
        """Read again what could come off next; a part chosen with the arrows stays the one meant."""
        meant = self.next_part if self._shift else None
        self._among = _NOTHING
        machine = self._desk.machine_id if self._desk.is_open else None
        self._read_of = None
        self.setEnabled(machine is not None)
        if machine is not None:
            with self._desk.store.read() as connection:
                self._among = candidates.candidates(connection, machine, self._group)
                self.unit = candidates.machine_unit(connection, machine)
            self._read_of = machine
            self.line.setPlaceholderText(f"one key and Enter; or {line_sample(self.unit)}")
        on = [one.part_id for one in self._among.still_on]
        self._shift = on.index(meant) if meant in on else 0
        self._read_back()

    @property
    def next_part(self) -> int | None:
        """The part a line that names none means."""
        on = self._among.still_on
        return on[self._shift].part_id if on else None

    def _edited(self) -> None:
        """What was asked was asked of another line."""
        if self._asked or self.ways.ways:
            self._asked = ""
            self.ways.clear()
        self._read_back()

    def _read_back(self) -> None:
        on = self._among.still_on
        if on:
            one = on[self._shift]
            self.next_off.setText(f"Next off: {one.told}")
        elif self._among.near:
            self.next_off.setText("All that is listed here is off: name what comes off next, listed or not")
        else:
            self.next_off.setText("No part is listed here yet: name what comes off, and it is made")
        self.understood.setText(self._words())

    def _words(self) -> str:
        text, machine = self.line.text(), self._desk.machine_id
        if not text.strip() or machine is None or not self._desk.is_open:
            if not self._among.still_on:
                return ""
            name = self._among.still_on[self._shift].name
            usual = [caution(topic).title for topic in suggest(f"Take the {name} off")]
            return f"Caution: {', '.join(usual)}" if usual else ""
        try:
            off = acts_line.read_line(
                self._desk.store, machine, self._group, text, next_part=self.next_part, among=self._fresh()
            )
        except BadEntry as trouble:
            return f"… {trouble.what}"
        return self._in_words(off)

    def _fresh(self) -> Candidates | None:
        """What could come off as it was read when a table of it last changed; None when it is of another machine."""
        return self._among if self._read_of == self._desk.machine_id else None

    def _in_words(self, off: teardown.Off) -> str:
        into = acts_line.whose_log(
            self._desk.store, self._desk.machine_id or 0, self._group, off, self._fresh()
        )
        with self._desk.store.read() as connection:
            told = {one.part_id: one.told for one in self._among.every}
            parts = sorted(told[key] for key in off.part_ids if key in told)
            called = ", ".join([*parts, *(f"new: {one}" for one in off.new_parts)])
            places = {place.key: place.name for place in candidates.bench_places(connection)}
        of = f" of {into.called}" if into.called else ""
        words = [f"{called or off.what}{of}", *into.off_already, way_words(off.how, off.from_end)]
        words += [fastener_words(one) for one in off.fasteners]
        words += [" ".join(filter(None, ("shims", one.where, one.leaves))) for one in off.shims]
        words += [_clause(name, text) for name, text in off.typed.items()]
        if any(says_a_size(text) for text in off.typed.values()):
            words.append("a size said here is no reading: type it in the grid")
        if off.place_id is not None:
            words.append(f"→ {places[off.place_id]}")
        elif off.new_place is not None:
            words.append(f"→ new: {off.new_place.words}")
        near = acts_line.likely_meant(self._desk.store, self._desk.machine_id or 0, off)
        if near:
            words.append(f"or did you mean {near}?")
        if set(off.part_ids) - {one.part_id for one in self._among.near}:
            words.append("it is of another subassembly: choose that above, unless it comes off for this one")
        return "  ·  ".join(words)

    def store(self) -> None:
        """Store the line; on trouble it stays as typed."""
        self._store(None)

    def _store(self, again: teardown.Again | None, why: str = "") -> None:
        machine, text = self._desk.machine_id, self.line.text()
        if machine is None or not text.strip():
            return
        self.ways.clear()
        sure, self._asked = self._asked == text, ""
        try:
            made = acts_line.say_removal(
                self._desk.store,
                machine,
                self._group,
                text,
                again=again,
                why=why,
                next_part=self.next_part,
                make=sure,
            )
        except EnterOnceMore as asked:
            self._asked = text
            self.ways.ask(asked)
            return
        except Refused as trouble:
            self._asked = text if sure else ""
            self.ways.ask(trouble)
            return
        except RebuildError as trouble:
            self.ways.ask(trouble)
            self._desk.say(str(trouble), Say.TROUBLE)
            return
        self.line.clear()
        self._shift = 0
        self.read()
        self.line.setFocus()
        self.stored.emit(made)

    def _take(self, way: Way) -> None:
        if way.kind in (WayKind.THAT_PART, WayKind.NEW_PART):
            line, machine = self.line.text(), self._desk.machine_id or 0
            settled = acts_line.retold(self._desk.store, machine, self._group, line, way.kind, way.target)
            self.line.setText(settled)
            answered = way.kind is WayKind.NEW_PART or settled == line
            self._asked = settled if answered else ""  # it was confirmed by this answer
            self._read_back()
            self.store()
            return
        self._store(_AGAIN.get(way.kind), way.reason)

    def _pasted(self, event: QKeyEvent) -> bool:
        """Whether a key pastes a picture: then its photo is told of, and nothing goes into the line."""
        if not event.matches(QKeySequence.StandardKey.Paste) or not pictures_held():
            return False
        take_clipboard(self.photographed.emit)
        return True

    def eventFilter(self, watched: object, event: object) -> bool:
        """Up and Down in the line choose another part that is still on; a picture pasted is a photo, not words."""
        if watched is self.line and isinstance(event, QKeyEvent) and event.type() == QKeyEvent.Type.KeyPress:
            step = {Qt.Key.Key_Down: 1, Qt.Key.Key_Up: -1}.get(Qt.Key(event.key()), 0)
            if step and self._among.still_on:
                self._shift = (self._shift + step) % len(self._among.still_on)
                self._read_back()
                return True
            if self._pasted(event):
                return True
        return super().eventFilter(watched, event)  # type: ignore[arg-type]


def _half_typed(line: HalfSaid) -> HalfTyped:
    return HalfTyped(f"removal log of {line.log_of}", line.text)


def _clause(name: str, text: str) -> str:
    """A clause as it was understood; what broke or is lost says so itself."""
    if name == "broke":
        return text if _SAYS_IT.match(text) else f"broke: {text}"
    return f"{name.replace('_', ' ')}: {text}"
