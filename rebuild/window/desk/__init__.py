"""What every page shares: the open file, the selection, the news, jobs beside the window."""
