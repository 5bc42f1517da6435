"""The Chart page: geometry tests before and after, and the level over days."""

from rebuild.window.chart.page import ChartPage

__all__ = ["ChartPage"]
