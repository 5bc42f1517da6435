"""The Lubrication page: the oil card, its map and its lines."""

from rebuild.window.lubrication.page import LubricationPage

__all__ = ["LubricationPage"]
