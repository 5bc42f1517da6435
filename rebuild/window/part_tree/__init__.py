"""The part tree: subassemblies, their parts, and the box of loose parts."""

from rebuild.window.part_tree.pane import PartTree

__all__ = ["PartTree"]
