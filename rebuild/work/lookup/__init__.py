"""Frozen rows for the panes to show: plain values read with Core, nothing mapped leaves here."""
