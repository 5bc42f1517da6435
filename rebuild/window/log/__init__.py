"""The Bench log, Questions and History pages, and kept entries."""
