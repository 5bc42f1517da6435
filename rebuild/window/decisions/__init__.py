"""The Decide page."""
