"""The frame, its start, header and message line."""
