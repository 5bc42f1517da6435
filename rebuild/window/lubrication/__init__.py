"""The Lubrication page."""
