"""Everything a file claims, worked out again."""
