"""Any record: its fields, what must hold of it, how it was changed, what stands against an act."""
