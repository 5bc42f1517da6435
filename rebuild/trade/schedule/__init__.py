"""When it can be finished: critical path, three-point estimates, the owner's week, simulation."""
