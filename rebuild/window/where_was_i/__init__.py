"""Where was I: what to read on coming back, and where a session is ended."""
