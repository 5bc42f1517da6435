"""Surveys of ways and plates."""
