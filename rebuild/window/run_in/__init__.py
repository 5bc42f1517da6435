"""The Run-in page."""
