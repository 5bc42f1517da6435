"""Fits: said, worked out from the newest readings, gone stale, followed."""
