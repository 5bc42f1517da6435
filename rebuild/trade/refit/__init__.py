"""Putting back: the words of a refit step."""
