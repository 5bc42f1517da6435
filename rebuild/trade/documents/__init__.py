"""Manuals: how people write down a page, a figure and its item."""
