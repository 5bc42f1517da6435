"""Plain files in and out: CSV, JSON and workbooks that any other program can read."""
