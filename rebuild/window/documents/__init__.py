"""The Manuals page."""
