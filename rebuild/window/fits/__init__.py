"""The Fits page."""
