"""Tags and bag labels: which stock they go on, and the pages printed for the shop."""
