"""The leaves of the details pane: a part's fields, features, concessions and history."""
