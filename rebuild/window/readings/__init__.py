"""The measurement grid: spec, readings by stage, verdicts."""
