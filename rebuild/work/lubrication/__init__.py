"""The oil card: points, lines, and oil seen to arrive."""
