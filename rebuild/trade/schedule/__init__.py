"""When it can be finished: precedence, critical path, three-point estimates, the owner's week, simulation."""
