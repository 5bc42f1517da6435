"""Unknown things that came in boxes: what is known of each, which part it may be, and what became of it."""
