"""A file is written whole or not at all."""

from __future__ import annotations

from pathlib import Path

import pytest

from catalogue.whole_files import whole_file, write_whole
from schema.errors import InputError, StoreError


def test_what_stood_there_stays_when_the_disk_is_full(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The old measurements are there, and nothing lies beside them."""
    kept = tmp_path / "today.yaml"
    kept.write_text("old", encoding="utf-8")

    def full(path: Path, text: str, encoding: str) -> int:
        with path.open("w", encoding=encoding) as file:
            file.write(text[:2])
        raise OSError(28, "No space left on device")

    with monkeypatch.context() as patch:
        patch.setattr(Path, "write_text", full)
        with pytest.raises(StoreError, match=r"--keep: .*today\.yaml cannot be written: No space left"):
            write_whole(str(kept), "new text", option="--keep")
    assert kept.read_text(encoding="utf-8") == "old"
    assert [one.name for one in tmp_path.iterdir()] == ["today.yaml"]


def test_a_file_keeps_its_permissions_and_a_link_its_target(tmp_path: Path) -> None:
    """Written over through a link, the file behind it changes and the link stays."""
    real, link = tmp_path / "real.yaml", tmp_path / "link.yaml"
    real.write_text("old", encoding="utf-8")
    real.chmod(0o640)
    link.symlink_to(real)
    write_whole(str(link), "new", option="--keep")
    assert link.is_symlink()
    assert real.read_text(encoding="utf-8") == "new"
    assert real.stat().st_mode & 0o777 == 0o640


def test_what_is_no_regular_file_is_written_straight() -> None:
    """A device is not replaced by a file."""
    write_whole("/dev/null", "text", option="--sheet")
    assert not Path("/dev/null").is_file()


def test_a_file_that_is_not_finished_is_not_there(tmp_path: Path) -> None:
    """Neither the new one nor a rest of it; the old one stays."""
    kept = tmp_path / "parts.xlsx"
    kept.write_bytes(b"old")
    with pytest.raises(KeyError), whole_file(str(kept), option="--to", replace=True) as file:
        file.write(b"ne")
        raise KeyError("something else")
    assert kept.read_bytes() == b"old"
    assert [one.name for one in tmp_path.iterdir()] == ["parts.xlsx"]


def test_a_file_is_written_over_only_where_that_is_told(tmp_path: Path) -> None:
    """Bytes, and the whole of them."""
    kept = tmp_path / "parts.xlsx"
    kept.write_bytes(b"old")
    with pytest.raises(InputError, match="--replace"), whole_file(str(kept), option="--to", replace=False):
        pass
    assert kept.read_bytes() == b"old"
    with whole_file(str(kept), option="--to", replace=True) as file:
        file.write(b"new")
    assert kept.read_bytes() == b"new"


def test_a_folder_that_is_not_there_is_told(tmp_path: Path) -> None:
    """With the option that named it."""
    with (
        pytest.raises(StoreError, match=r"--to: .*parts\.csv cannot be written: No such file"),
        whole_file(str(tmp_path / "none" / "parts.csv"), option="--to", replace=False),
    ):
        pass
