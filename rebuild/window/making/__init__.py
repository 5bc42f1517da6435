"""The Making page: sheets of parts to be made, their drawing, their steps, and what became of them."""

from rebuild.window.making.page import MakingPage

__all__ = ["MakingPage"]
