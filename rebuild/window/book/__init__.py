"""The Book page."""
