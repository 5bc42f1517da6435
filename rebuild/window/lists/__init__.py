"""Tables and lists every page uses."""
