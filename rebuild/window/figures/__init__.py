"""The Figures page."""
