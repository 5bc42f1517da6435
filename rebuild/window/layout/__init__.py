"""How widgets share room: rows, views, elided lines."""
