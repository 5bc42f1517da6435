"""The question pack: what is asked of others about a part, with what they need to answer it."""
