"""The project file: sessions, journal and undo, schema upgrade, backup, check."""
