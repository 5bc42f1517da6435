"""Steps of work: in order, linked, ticked off, and what stands against them."""
