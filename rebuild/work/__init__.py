"""The trade's acts, one module each: the only writers. ``lookup`` reads frozen rows."""
