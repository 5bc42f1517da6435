"""``python -m rebuild``."""

from __future__ import annotations

import sys

from rebuild.cli.main import main

if __name__ == "__main__":
    sys.exit(main())
