"""Mapped records and their enumerations: what one project file holds."""
