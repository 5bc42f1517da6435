"""Builds the invented machines of the demo through the acts, as a user would."""
