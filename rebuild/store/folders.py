"""A folder other computers write to: recognised by generic words in its path and by how it is mounted.

No list of products: only plain words, and on Linux the kind of file system the kernel itself names.
"""

from __future__ import annotations

import re
from pathlib import Path, PurePath

_WORDS = {
    "sync": "synced",
    "synced": "synced",
    "synchronised": "synced",
    "synchronized": "synced",
    "cloud": "synced",
    "drive": "synced",
    "network": "network",
    "nas": "network",
}
_NETWORK = re.compile(r"^(nfs\d?|cifs|smb\d?|smbfs|9p|afs|ncpfs|davfs|fuse\..+)$")
MOUNTS = Path("/proc/self/mounts")


def risk(path: Path, mounts: Path = MOUNTS) -> str:
    """What is to be known about the folder a project lies in, in a sentence; empty for an ordinary one."""
    whole = path.absolute()
    kind = "network" if _is_mounted_from_elsewhere(whole, mounts) else _by_name(whole.parent)
    if not kind:
        return ""
    return (
        f"{path.name} lies in what looks like a {kind} folder ({whole.parent}). Have it open on one computer at a "
        "time, close it before you go to another, and keep backups elsewhere: a file overwritten from outside "
        "while it is open loses what was typed since."
    )


def _by_name(folder: PurePath) -> str:
    if str(folder).startswith(("\\\\", "//")):
        return "network"
    for part in reversed(folder.parts):
        for word in re.split(r"[^a-z]+", part.lower()):
            if word in _WORDS:
                return _WORDS[word]
    return ""


def _is_mounted_from_elsewhere(path: Path, mounts: Path) -> bool:
    """Whether the mount that holds ``path`` is of another computer or a program (``fuse``)."""
    try:
        lines = mounts.read_text(encoding="utf-8", errors="replace").splitlines()
    except OSError:
        return False
    best, kind = "", ""
    for line in lines:
        fields = line.split()
        if len(fields) < 3:
            continue
        point = re.sub(r"\\([0-7]{3})", lambda found: chr(int(found.group(1), 8)), fields[1])
        if path.is_relative_to(point) and len(point) >= len(best):
            best, kind = point, fields[2]
    return bool(_NETWORK.match(kind))
