"""The build hook takes no other library than the pinned one."""

import base64
import hashlib
import importlib.util
import io
import tarfile
from pathlib import Path
from types import ModuleType

import pytest

ROOT = Path(__file__).parents[2]


@pytest.fixture
def hook() -> ModuleType:
    spec = importlib.util.spec_from_file_location("hatch_build", ROOT / "hatch_build.py")
    assert spec is not None and spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def archive(path: Path, members: dict[str, bytes]) -> Path:
    with tarfile.open(path, "w:gz") as packed:
        for name, data in members.items():
            info = tarfile.TarInfo(name)
            info.size = len(data)
            packed.addfile(info, io.BytesIO(data))
    return path


GOOD = {"package/lib/elk.bundled.js": b"function ELK() {}", "package/LICENSE.md": b"licence"}


def test_another_archive_is_refused(hook: ModuleType, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(hook, "pack", lambda scratch: archive(scratch / "elkjs.tgz", GOOD))
    with pytest.raises(RuntimeError, match="is not what it was"):
        hook.fetch(tmp_path / "vendor")
    assert not hook.is_there(tmp_path / "vendor")


def test_the_pinned_archive_is_unpacked_once(hook: ModuleType, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    packed = archive(tmp_path / "elkjs.tgz", GOOD)
    digest = base64.b64encode(hashlib.sha512(packed.read_bytes()).digest()).decode()
    monkeypatch.setattr(hook, "INTEGRITY", f"sha512-{digest}")
    monkeypatch.setattr(hook, "pack", lambda scratch: packed)
    hook.fetch(tmp_path / "vendor")
    assert hook.is_there(tmp_path / "vendor")
    assert (tmp_path / "vendor" / "elk.bundled.js").read_bytes() == b"function ELK() {}"
    monkeypatch.setattr(hook, "pack", lambda scratch: pytest.fail("fetched again"))
    hook.fetch(tmp_path / "vendor")


def test_a_library_of_another_version_is_fetched_anew(hook: ModuleType, tmp_path: Path) -> None:
    for name in ("elk.bundled.js", "elk.LICENSE.md"):
        (tmp_path / name).write_text("old")
    (tmp_path / "elk.integrity.txt").write_text("sha512-old\n")
    assert not hook.is_there(tmp_path)
