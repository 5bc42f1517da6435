"""What one part comes to, at a glance: its worst reading against its limits, the proposal in a sentence, one button."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QRectF, QSize, Qt, Signal
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

_WORST_FIRST = (Verdict.DOES_NOT, Verdict.UNDECIDED, Verdict.CONFORMS)


def worst(features: Sequence[FeatureFact]) -> tuple[FeatureFact, str, float] | None:
    """The feature with the worst verdict, and its station and reading [mm] farthest beyond a limit."""
    judged = [one for one in features if one.readings and one.verdict in _WORST_FIRST]
    if not judged:
        return None
    feature = min(judged, key=lambda one: _WORST_FIRST.index(one.verdict))

    def beyond(value: float) -> float:
        low = feature.low_mm - value if feature.low_mm is not None else float("-inf")
        high = value - feature.high_mm if feature.high_mm is not None else float("-inf")
        return max(low, high)

    station, value = max(feature.readings, key=lambda pair: beyond(pair[1]))
    return feature, station, value


class WorstPicture(Picture):
    """The tolerance zone of the worst feature with its reading, as the grid draws it, only larger."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__("The worst reading against its limits", QSize(420, 76), QSize(180, 70), parent)
        self._worst: tuple[FeatureFact, str, float] | None = None
        self.setMaximumHeight(7 * self.fontMetrics().lineSpacing())

    def show_features(self, features: Sequence[FeatureFact]) -> None:
        """Draw the worst of them."""
        self._worst = worst(features)
        self.setAccessibleDescription(self._words() if self._worst is not None else self.missing())
        self.update()

    def missing(self) -> str:
        return "" if self._worst is not None else "Nothing measured has limits to be drawn against."

    def _words(self) -> str:
        assert self._worst is not None
        feature, station, value = self._worst
        at = f" at {station}" if station else ""
        return f"{feature.name}{at}: {show_length(value, feature.unit)} {feature.verdict.value}"

    def draw(self, painter: QPainter) -> None:
        assert self._worst is not None
        feature, _station, value = self._worst
        ink, high = theme.ink(), self.fontMetrics().height()
        painter.setPen(QPen(ink.ink))
        field = QRectF(self.rect()).adjusted(8, 4, -8, -4)
        painter.drawText(field, Qt.AlignmentFlag.AlignTop | Qt.AlignmentFlag.AlignLeft, self._words())
        placed = place(
            Drawn(
                feature.low_mm,
                feature.high_mm,
                feature.nominal_mm,
                value,
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
        self.picture = WorstPicture(self)
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

    def show_part(self, features: Sequence[FeatureFact], proposed: Proposal | None, others: int) -> None:
        """Show a part's worst reading and the proposal that stands first."""
        self.picture.show_features(features)
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
