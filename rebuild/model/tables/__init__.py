"""Every table of the file, written once as a class of its cells."""
