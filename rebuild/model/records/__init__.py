"""The records acts write, each mapped on its table."""
