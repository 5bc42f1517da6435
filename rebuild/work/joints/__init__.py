"""Every joint's state, from apart to pinned."""
