"""The first run: its steps, bearing temperatures, cut tests, what is checked before power."""
