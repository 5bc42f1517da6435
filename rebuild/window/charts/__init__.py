"""The Chart page."""
