"""The bench: tree, grid, entry line and steps on one page."""
