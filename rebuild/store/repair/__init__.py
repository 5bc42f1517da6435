"""From a damaged file, its ``-wal`` and its backups: a new, sound file, and a list of what could not be saved."""
