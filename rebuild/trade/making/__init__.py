"""What a making sheet carries, worked out: sizes by shape, limits, thread and gear data, blank, steps, tools."""
