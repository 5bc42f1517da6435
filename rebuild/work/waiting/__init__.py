"""Orders, work sent out, loans, stock, clocks, hours and cost."""
