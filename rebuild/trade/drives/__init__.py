"""Drives: belts between pulleys, and the spindle speeds of a whole drive with its back gear."""
