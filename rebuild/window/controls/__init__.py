"""The Controls page: what the hand takes hold of, as found and proved after refit."""
