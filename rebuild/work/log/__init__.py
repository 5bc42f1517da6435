"""The bench log and open questions."""
