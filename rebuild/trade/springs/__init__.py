"""Springs: what a measured coil spring does, and another wire or count of coils that does the same."""
