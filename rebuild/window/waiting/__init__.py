"""The Waiting page."""
