"""The removal log, attempts, fasteners and shims; a second teardown."""
