"""The first run: what is checked before power, warming up in steps, cut tests."""
