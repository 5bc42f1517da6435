"""Values on their way to a row: stored where the landing says, moved, taken back, or kept until there is a row."""
