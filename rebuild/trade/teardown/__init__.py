"""Taking down: removals, fasteners and shims as said at the bench; a second teardown against the first."""
