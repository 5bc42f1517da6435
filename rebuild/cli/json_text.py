"""JSON as a command prints it."""

from __future__ import annotations

import json


def in_json(data: dict[str, object]) -> str:
    """Data as indented JSON, with the letters of the shop as they are."""
    return json.dumps(data, indent=2, ensure_ascii=False)
