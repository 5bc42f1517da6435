"""Photos by their time: which camera's clock is off, what was in hand, and which tag they follow."""
