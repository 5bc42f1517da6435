"""The measurement grid: spec, readings by stage, and the verdict of every feature and station."""

from rebuild.window.grid.pane import MeasurementGrid

__all__ = ["MeasurementGrid"]
