"""Lists brought in and written out."""
