"""What can be done now, what next, by when: read for the plan."""
