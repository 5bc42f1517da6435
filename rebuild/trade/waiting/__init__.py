"""What runs or is waited for beside the work: clocks, and what one already has."""
