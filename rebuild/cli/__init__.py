"""The command line: start a window, or work without one; exit codes."""
