"""The removal log read backwards: draft steps with their links."""
