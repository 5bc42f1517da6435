"""The test chart: geometry tests with signed limits, readings as typed, and whether the bed has settled."""
