"""Figures of this group (see ``rebuild.trade.figure``)."""

from __future__ import annotations

from rebuild.trade.figure import Figure

FIGURES: tuple[Figure, ...] = ()
