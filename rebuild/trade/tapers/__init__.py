"""Tapers and setting angles: which taper is it, how it is gauged, how the machine is set to it."""
