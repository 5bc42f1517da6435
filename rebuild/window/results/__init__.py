"""The working pane: how a number was reached."""
