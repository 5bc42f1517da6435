"""All that is known of one part, as one glance."""
