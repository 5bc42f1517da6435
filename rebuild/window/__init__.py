"""The Qt window: panes observe the desk, and call acts on ``work``."""
