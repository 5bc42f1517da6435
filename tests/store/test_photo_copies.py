"""A backup carries its photos along, each read back; nothing half done is left behind."""

from __future__ import annotations

import hashlib
from collections.abc import Callable
from pathlib import Path

import pytest
from PIL import Image

from rebuild.cli.exit_codes import DONE, FOUND
from rebuild.cli.main import main
from rebuild.errors import FileTrouble
from rebuild.store import photo_copies
from rebuild.store.photo_copies import backup_with_photos, move_photos, wanted_photos
from rebuild.store.photos import damaged_photos, photo_folder, photo_path
from rebuild.store.store import Store
from rebuild.work.checks.check import check
from rebuild.work.photos.acts_take import take_in
from tests.conftest import Shop


@pytest.fixture
def photographed(shop: Shop, tmp_path: Path) -> Shop:
    """The small shop with two photos."""
    pictures = []
    for name, shade in (("bed.png", 40), ("spindle.png", 200)):
        picture = tmp_path / name
        Image.new("L", (60, 40), shade).save(picture)
        pictures.append(picture)
    assert len(take_in(shop.store, shop.machine, pictures).added) == 2
    return shop


def test_the_copy_opens_with_its_own_photos(photographed: Shop, tmp_path: Path) -> None:
    target = tmp_path / "copy.rebuild"
    made = backup_with_photos(photographed.path, to=target)
    assert (made.path, made.photos, made.troubles) == (target, 2, ())
    wanted = list(wanted_photos(photographed.path))
    assert len(wanted) == 2
    assert damaged_photos(target, wanted) == []
    for sha256, ending in wanted:
        assert hashlib.sha256(photo_path(target, sha256, ending).read_bytes()).hexdigest() == sha256
    Store.open(target).close()
    assert check(target) == []


def test_two_backups_stand_beside_the_file_each_with_its_folder(photographed: Shop) -> None:
    first, second = backup_with_photos(photographed.path), backup_with_photos(photographed.path)
    assert first.path != second.path
    assert photo_folder(first.path) != photo_folder(second.path)
    assert all(photo_folder(one.path).parent == photographed.path.parent for one in (first, second))
    assert {one.photos for one in (first, second)} == {2}


def test_a_damaged_photo_is_said_and_the_rest_is_kept(
    photographed: Shop, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    sha256, ending = wanted_photos(photographed.path)[0]
    photo_path(photographed.path, sha256, ending).write_bytes(b"not what the name says")
    made = backup_with_photos(photographed.path, to=tmp_path / "copy.rebuild")
    assert made.photos == 1
    assert len(made.troubles) == 1
    assert "has changed" in made.troubles[0]
    assert not photo_path(made.path, sha256, ending).exists()
    assert main(["backup", str(photographed.path), "--to", str(tmp_path / "again.rebuild")]) == FOUND
    said = capsys.readouterr().out
    assert "with 1 photo beside it" in said
    assert "has changed" in said


def test_a_copy_that_does_not_read_back_leaves_nothing(
    photographed: Shop, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def shortened(source: Path, target: Path) -> None:
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(source.read_bytes()[:-1])

    monkeypatch.setattr(photo_copies, "_copy_one", shortened)
    target = tmp_path / "copy.rebuild"
    with pytest.raises(FileTrouble, match="does not read back"):
        backup_with_photos(photographed.path, to=target)
    assert not target.exists()
    assert not photo_folder(target).exists()


def test_a_full_disk_leaves_nothing(
    photographed: Shop, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(_source: Path, _target: Path) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(photo_copies, "_copy_one", full)
    target = tmp_path / "copy.rebuild"
    with pytest.raises(FileTrouble, match="No space left"):
        backup_with_photos(photographed.path, to=target)
    assert not target.exists()


def test_a_file_without_photos_is_copied_as_before(shop: Shop, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["backup", str(shop.path)]) == DONE
    assert "beside it" not in capsys.readouterr().out
    made = backup_with_photos(shop.path)
    assert (made.photos, made.troubles) == (0, ())
    assert not photo_folder(made.path).exists()


def test_photos_follow_a_renamed_file(photographed: Shop, tmp_path: Path) -> None:
    wanted = list(wanted_photos(photographed.path))
    other = tmp_path / "renamed.rebuild"
    move_photos(photographed.path, other)
    assert damaged_photos(other, wanted) == []
    assert not photo_folder(photographed.path).exists()
    move_photos(photographed.path, other)
    assert damaged_photos(other, wanted) == []


@pytest.mark.parametrize(
    ("spoil", "said"),
    [
        (lambda path: path.unlink(), "is missing"),
        (lambda path: path.write_bytes(b"something else"), "has changed"),
    ],
)
def test_check_names_the_photo_and_the_way_out(
    photographed: Shop, spoil: Callable[[Path], object], said: str
) -> None:
    photographed.store.close()
    assert check(photographed.path) == []
    spoil(photo_path(photographed.path, *wanted_photos(photographed.path)[1]))
    findings = check(photographed.path)
    assert len(findings) == 1
    assert said in findings[0]
    assert "spindle.png" in findings[0] or "bed.png" in findings[0]
    assert "from a backup" in findings[0]
