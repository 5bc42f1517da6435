"""The Making page."""
