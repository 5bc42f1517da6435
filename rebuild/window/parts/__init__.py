"""The part tree and all that is known of one part."""
