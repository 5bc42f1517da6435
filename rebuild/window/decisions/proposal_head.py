"""What one part comes to, at a glance: its worst reading against its limits, the proposal in a sentence, one button."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QEvent, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QPainter, QPen
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QToolButton, QVBoxLayout, QWidget

from rebuild.trade.limits.judgement import Verdict
from rebuild.trade.sizes.show import show_length
from rebuild.trade.wear.facts import FeatureFact, Proposal
from rebuild.window.ink import theme
from rebuild.window.ink.picture import Picture
from rebuild.window.ink.zone_picture import draw_cell
from rebuild.window.ink.zone_scale import FROM_ZERO, Drawn, place
from rebuild.window.layout.plain import PlainLabel, plain_tip
from rebuild.words.stations import at_station

_WORST_FIRST = (Verdict.DOES_NOT, Verdict.UNDECIDED, Verdict.CONFORMS)


#: A feature, the station, its reading [mm], the verdict said of it, and the reading's expanded uncertainty [mm].
Judged = tuple[FeatureFact, str, float, str, float | None]
#: Readings drawn below the worst one; the rest stand in the grid.
MOST_BESIDE = 5
#: The height of one zone with its words above and its limits below, in lines.
ZONE_LINES = 4


def worst_first(features: Sequence[FeatureFact]) -> list[Judged]:
    """Every reading [mm] of the features with a verdict, by station: the worst verdict first, then farthest beyond.

    The verdict is that of a feature's worst reading; its other stations are drawn without one.
    """
    judged = [one for one in features if one.readings and one.verdict in _WORST_FIRST]
    worst: list[Judged] = []
    others: list[Judged] = []
    for feature in sorted(judged, key=lambda one: _WORST_FIRST.index(one.verdict)):
        doubts = feature.U_mm or (None,) * len(feature.readings)
        ranked = sorted(
            zip(feature.readings, doubts, strict=True),
            key=lambda one: (_beyond(feature, one[0][1]), *one[0]),
        )
        *rest, ((station, value), U_mm) = ranked
        worst.append((feature, station, value, feature.verdict.value, U_mm))
        others += [(feature, at, read, "", doubt) for (at, read), doubt in reversed(rest)]
    return [*worst, *others]


def _beyond(feature: FeatureFact, value: float) -> float:
    low = feature.low_mm - value if feature.low_mm is not None else float("-inf")
    high = value - feature.high_mm if feature.high_mm is not None else float("-inf")
    return max(low, high)


def _words(judged: Judged) -> str:
    feature, station, value, verdict, _U_mm = judged
    return f"{feature.name}{at_station(station)}: {show_length(value, feature.unit)} {verdict}".rstrip()


class ZonesPicture(Picture):
    """Tolerance zones of features with their readings, one under the other, as the grid draws them, only larger."""

    def __init__(self, name: str, instead: str, parent: QWidget | None = None) -> None:
        super().__init__(name, QSize(420, 76), QSize(180, 70), parent)
        self._judged: Sequence[Judged] = ()
        self._instead = instead
        self._take_room()

    def show_judged(self, judged: Sequence[Judged]) -> None:
        """Draw these."""
        self._judged = judged
        told = "; ".join(_words(one) for one in judged)
        self.setAccessibleDescription(told or self.missing())
        self._take_room()
        self.update()

    def _take_room(self) -> None:
        line, many = self.fontMetrics().lineSpacing(), max(1, len(self._judged))
        self.setMinimumHeight(many * (ZONE_LINES * line + 12))
        self.setMaximumHeight(many * 7 * line)

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.FontChange:
            self._take_room()

    def missing(self) -> str:
        return "" if self._judged else self._instead

    def draw(self, painter: QPainter) -> None:
        tall = self.height() / max(1, len(self._judged))
        for at, one in enumerate(self._judged):
            self._zone(painter, QRectF(8, at * tall + 4, self.width() - 16, tall - 8), one)

    def _zone(self, painter: QPainter, field: QRectF, judged: Judged) -> None:
        feature, _station, value, _verdict, U_mm = judged
        ink, high = theme.ink(), self.fontMetrics().height()
        painter.setPen(QPen(ink.ink))
        painter.drawText(field, Qt.AlignmentFlag.AlignTop | Qt.AlignmentFlag.AlignLeft, _words(judged))
        placed = place(
            Drawn(
                feature.low_mm,
                feature.high_mm,
                feature.nominal_mm,
                value,
                U_mm,
                from_zero=feature.kind in FROM_ZERO,
            )
        )
        if placed is None:
            return
        strip = QRectF(field.left(), field.top() + high + 2, field.width(), field.height() - 2 * high - 4)
        draw_cell(painter, strip, placed, ink)
        painter.setPen(QPen(ink.faint))
        foot = field.bottom() - high
        for share, limit in ((placed.zone[0], feature.low_mm), (placed.zone[1], feature.high_mm)):
            if limit is not None:
                words = show_length(limit, feature.unit)
                wide = self.fontMetrics().horizontalAdvance(words)
                # The low limit's words end at its line, the high limit's begin there, so they never meet.
                x = strip.left() + share * strip.width() - (wide if limit is feature.low_mm else 0)
                x = min(max(field.left(), x), field.right() - wide)
                painter.drawText(QRectF(x, foot, wide + 2, high), 0, words)


class ProposalHead(QWidget):
    """Picture, sentence, one button; ``unfolded`` tells whether the rest is asked for."""

    decide = Signal()
    unfolded = Signal(bool)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.picture = ZonesPicture(
            "The worst reading against its limits", "Nothing measured has limits to be drawn against.", self
        )
        self.beside = ZonesPicture("The other readings against their limits", "", self)
        self.sentence = PlainLabel(self)
        self.sentence.setWordWrap(True)
        self.sentence.setFont(theme.large(self.font(), 1.15))
        self.button = QPushButton("&Decide…", self)
        self.button.setAutoDefault(False)
        self.more = QToolButton(self)
        self.more.setCheckable(True)
        self.more.setText("All proposals, options and their working")
        self.more.setToolTip("Show or fold what else was found")
        row = QHBoxLayout()
        row.addWidget(self.button)
        row.addWidget(self.more)
        row.addStretch(1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 2, 0, 4)
        layout.addWidget(self.picture, 1)
        layout.addWidget(self.sentence)
        layout.addLayout(row)
        self.button.clicked.connect(self.decide)
        self.more.toggled.connect(self.unfolded)
        self.more.toggled.connect(self._show_beside)

    def show_part(self, features: Sequence[FeatureFact], proposed: Proposal | None, others: int) -> None:
        """Show a part's worst reading and the proposal that stands first."""
        judged = worst_first(features)
        self.picture.show_judged(judged[:1])
        self.beside.show_judged(judged[1 : 1 + MOST_BESIDE])
        self._show_beside(self.more.isChecked())
        if proposed is None:
            self.sentence.setText("The wear rules propose nothing here: decide by what you know of it.")
            self.button.setText("&Decide…")
        else:
            how = f": {proposed.method}" if proposed.method else ""
            self.sentence.setText(f"Proposed: {proposed.decision.value}{how}, because {proposed.why}.")
            self.button.setText(f"&Decide: {proposed.decision.value}…")
        self.sentence.setToolTip(plain_tip(self.sentence.text()))
        self.more.setText(
            f"All {others} proposals, options and their working" if others > 1 else "Options and the working"
        )

    def show_several(self, many: int) -> None:
        """Several parts are chosen: the button is for all of them, what stands above it for one."""
        self.button.setText(f"&Decide {many} parts together…")

    def _show_beside(self, unfolded: bool) -> None:
        """The other readings fill what the folded tables leave free; they give way to the tables."""
        self.beside.setVisible(not unfolded and bool(self.beside.accessibleDescription()))
