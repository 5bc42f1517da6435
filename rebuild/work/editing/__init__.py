"""Edit or remove any record, and take a way out: the acts that reach across all nouns."""
