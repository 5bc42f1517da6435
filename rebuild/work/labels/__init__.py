"""Tags and bag labels: what each tells, and what a code read back means."""
