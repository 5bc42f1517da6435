"""The test chart and the level over days."""
