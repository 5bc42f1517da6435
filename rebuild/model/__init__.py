"""What one project file holds: its tables, and the records mapped on them."""
