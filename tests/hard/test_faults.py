"""Full disks, shut folders, kills, builds at once: the old pack or the new one is there, whole."""

import contextlib
import errno
import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from typer.testing import CliRunner, Result

import rungsheet.command_line
from layouts.files import folder as folder_writing
from layouts.files import turns
from layouts.files.folder import FolderError, write_file, write_folder
from tests.hard.kills import left_beside, recorded, seed_of_whole_pack

pytestmark = pytest.mark.slow

NIGHTLY = bool(os.environ.get("RUNGSHEET_NIGHTLY"))
KILLS = 500 if NIGHTLY else 25
ROOT = Path(__file__).parents[2]

LESSON = """\
title: Weighing beans
ladder:
  beans: {operation: add, places: 2, carries: none}
tiers:
  core: {beans: 4}
"""

on_posix = pytest.mark.skipif(sys.platform == "win32", reason="needs a POSIX system")


@pytest.fixture(autouse=True)
def in_an_empty_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    Path("lesson.yaml").write_text(LESSON, encoding="utf-8")


def build(*arguments: str) -> Result:
    return CliRunner().invoke(rungsheet.command_line.app, ["build", "lesson.yaml", *arguments])


def refused(*arguments: str) -> str:
    """The one line that a build is refused with, after what it would have replaced."""
    result = build(*arguments)
    assert result.exit_code == 2, result.output
    before = [line for line in result.stderr.splitlines() if "is to be replaced; " in line]
    assert result.stderr.count("\n") == 1 + len(before)
    return result.stderr.splitlines()[-1]


def small(seed: int) -> dict[str, bytes]:
    return recorded(seed, {"a.pdf": b"%d" % seed, "b.pdf": b"b"})


PACK = Path("parent/pack")


@pytest.fixture
def old_pack() -> Path:
    write_folder(PACK, small(1))
    return PACK


@on_posix
def test_killed_at_every_step_and_at_random_moments() -> None:
    done = subprocess.run(
        [sys.executable, "-m", "tests.hard.kills", "--kills", str(KILLS)],
        capture_output=True,
        text=True,
        cwd=ROOT,
    )
    assert done.returncode == 0, done.stdout + done.stderr
    assert f"{KILLS} kills at random" in done.stdout


@on_posix
def test_the_command_killed_while_it_builds() -> None:
    assert build("--out", "parent/pack").exit_code == 0
    command = [sys.executable, "-m", "rungsheet", "build", "lesson.yaml", "--out", "parent/pack"]
    start = time.perf_counter()
    subprocess.run(command, check=True, capture_output=True)
    usual = time.perf_counter() - start
    for part in (0.5, 0.8, 0.95, 1.05):
        process = subprocess.Popen(command, stdout=subprocess.DEVNULL)
        with contextlib.suppress(subprocess.TimeoutExpired):
            process.wait(part * usual)
        process.kill()
        process.wait()
        assert seed_of_whole_pack(PACK) == 1
    assert build("--seed", "2", "--out", "parent/pack").exit_code == 0
    assert seed_of_whole_pack(PACK) == 2
    assert left_beside(PACK) == []


@contextlib.contextmanager
def small_disk(at: Path, size: str) -> Iterator[None]:
    """A file system of its own, so small; skips where none can be mounted."""
    at.mkdir()
    mount = ["mount", "-t", "tmpfs", "-o", f"size={size}", "tmpfs", str(at)]
    try:
        subprocess.run(mount, check=True, capture_output=True)
    except (OSError, subprocess.CalledProcessError):
        pytest.skip("no file system can be mounted here")
    try:
        yield
    finally:
        subprocess.run(["umount", str(at)], check=True)


def test_a_disk_that_is_full() -> None:
    with small_disk(Path("disk"), "900k"):
        assert build("--out", "disk/pack").exit_code == 0
        Path("disk/ballast").write_bytes(b"x" * (os.statvfs("disk").f_bavail * 4096 - 40_000))
        message = refused("--seed", "2", "--out", "disk/pack")
        assert "the disk is full; make room, then build again" in message
        assert seed_of_whole_pack(Path("disk/pack")) == 1
        assert left_beside(Path("disk/pack")) == ["ballast"]
        assert "the disk is full" in refused("--seed", "2", "--out", "disk/new")
        assert not Path("disk/new").exists()
        Path("disk/ballast").unlink()
        assert build("--seed", "2", "--out", "disk/pack").exit_code == 0


@pytest.mark.parametrize(
    ("number", "says"),
    [
        (errno.ENOSPC, "the disk is full; make room"),
        (errno.EDQUOT, "the disk is full; make room"),
        (errno.EIO, "it cannot be written"),
        (errno.EROFS, "writing there is not allowed; name another folder"),
        (errno.EFBIG, "larger than is allowed there; name another folder"),
    ],
)
@pytest.mark.parametrize("call", ["fsync", "rename"])
def test_whatever_the_system_refuses(
    number: int, says: str, call: str, old_pack: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fails(*_: Any, **__: Any) -> None:
        raise OSError(number, os.strerror(number))

    with monkeypatch.context() as patched:
        patched.setattr(folder_writing, "_exchange", lambda *_: False)
        where, name = (os, "fsync") if call == "fsync" else (Path, call)
        patched.setattr(where, name, fails)
        with pytest.raises(FolderError, match=says):
            write_folder(old_pack, small(2))
    assert seed_of_whole_pack(old_pack) == 1
    assert left_beside(old_pack) == []


def test_the_old_pack_comes_back_when_the_new_one_cannot_take_its_name(
    old_pack: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    renames: list[Path] = []
    rename = Path.rename

    def second_fails(path: Path, target: Path) -> Path:
        renames.append(path)
        if len(renames) == 2:
            raise PermissionError(errno.EACCES, "Permission denied")
        return rename(path, target)

    with monkeypatch.context() as patched:
        patched.setattr(folder_writing, "_exchange", lambda *_: False)
        patched.setattr(Path, "rename", second_fails)
        with pytest.raises(FolderError, match="writing there is not allowed"):
            write_folder(old_pack, small(2))
    assert seed_of_whole_pack(old_pack) == 1
    assert left_beside(old_pack) == []


@on_posix
def test_a_folder_that_may_not_be_written_to() -> None:
    """In a process that is nobody: the one that runs the tests may be allowed everything."""
    program = (
        "import os\n"
        "from pathlib import Path\n"
        "from layouts.files.folder import FolderError, write_folder\n"
        "if os.getuid() == 0: os.setgid(65534); os.setuid(65534)\n"
        "try: write_folder(Path('pack'), {'pack.json': b'{}'})\n"
        "except FolderError as error: print(error)\n"
    )
    with tempfile.TemporaryDirectory() as shut:
        Path(shut).chmod(0o555)
        done = subprocess.run(
            [sys.executable, "-c", program],
            capture_output=True,
            text=True,
            cwd=shut,
            env={**os.environ, "PYTHONPATH": str(ROOT)},
        )
        says = "pack: writing there is not allowed; name another folder with --out\n"
        assert done.stdout == says, done.stderr
        assert list(Path(shut).iterdir()) == []
        Path(shut).chmod(0o755)


@pytest.mark.parametrize(
    ("out", "says"),
    [
        ("lesson.yaml", "a file of that name is in the way"),
        ("lesson.yaml/pack", "a file is in the way"),
        ("link", "a file of that name is in the way"),
        ("linked", "it is a link to another folder"),
        (".", "it has no name of its own"),
        ("..", "it has no name of its own"),
        ("x" * 300, "the name is too long"),
    ],
)
def test_places_where_no_pack_can_be(out: str, says: str) -> None:
    Path("link").symlink_to("nowhere")
    Path("real").mkdir()
    Path("linked").symlink_to("real")
    before = sorted(Path().iterdir())
    assert says in refused("--out", out)
    assert sorted(Path().iterdir()) == before
    assert Path("lesson.yaml").read_text(encoding="utf-8") == LESSON


def test_what_the_system_leaves_in_a_folder_is_no_hindrance(old_pack: Path) -> None:
    Path(old_pack, ".DS_Store").write_bytes(b"")
    write_folder(old_pack, small(2))
    assert seed_of_whole_pack(old_pack) == 2


def test_what_is_put_into_the_old_pack_at_the_last_moment_is_not_lost(
    old_pack: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    exchange = folder_writing._exchange

    def late(first: Path, second: Path) -> bool:
        notes = old_pack / "notes.txt"
        if second == old_pack and not notes.exists() and not (first / "notes.txt").exists():
            notes.write_text("mine", encoding="utf-8")
        return exchange(first, second)

    monkeypatch.setattr(folder_writing, "_exchange", late)
    if not exchange(old_pack, old_pack):
        pytest.skip("names cannot be exchanged here")
    with pytest.raises(FolderError, match=r"notes\.txt is not part of it"):
        write_folder(old_pack, small(2))
    assert (old_pack / "notes.txt").read_text(encoding="utf-8") == "mine"
    assert left_beside(old_pack) == []


@on_posix
def test_two_builds_to_one_folder_at_once() -> None:
    command = [sys.executable, "-m", "rungsheet", "build", "lesson.yaml", "--out", "parent/pack"]
    both = [subprocess.Popen([*command, "--seed", s], stdout=subprocess.DEVNULL) for s in "12"]
    assert [process.wait() for process in both] == [0, 0]
    assert seed_of_whole_pack(PACK) in (1, 2)
    assert left_beside(PACK) == []


def test_a_build_that_never_gets_its_turn_says_so(
    old_pack: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(turns, "_MOST_WAITS", 2)
    with (
        turns.turn(old_pack),
        pytest.raises(FolderError, match="another build has been writing there"),
    ):
        write_folder(old_pack, small(2))
    assert seed_of_whole_pack(old_pack) == 1
    write_folder(old_pack, small(2))
    assert left_beside(old_pack) == []


def test_without_locks_nothing_of_others_is_cleared_away(
    old_pack: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def no_locks(_: int) -> None:
        raise OSError(errno.ENOLCK, "No locks available")

    monkeypatch.setattr(turns, "_lock", no_locks)
    others = old_pack.with_name(".pack-abcdefgh.part")
    others.mkdir()
    write_folder(old_pack, small(2))
    assert seed_of_whole_pack(old_pack) == 2
    assert left_beside(old_pack) == [others.name]


def test_only_scratch_of_the_same_folder_is_cleared_away(old_pack: Path) -> None:
    for name in (".pack-core-abcdefgh.part", ".pack-abc.part", "pack-abcdefgh.part"):
        old_pack.with_name(name).mkdir()
    old_pack.with_name(".pack-abcdefgh.part").mkdir()
    old_pack.with_name(".pack-12345678.old").mkdir()
    write_folder(old_pack, small(2))
    assert left_beside(old_pack) == [
        ".pack-abc.part",
        ".pack-core-abcdefgh.part",
        "pack-abcdefgh.part",
    ]


def test_a_single_file_is_written_whole_or_not_at_all(monkeypatch: pytest.MonkeyPatch) -> None:
    target = Path("answers/key.pdf")
    target.parent.mkdir()
    target.with_name(".key.pdf-abcdefgh.part").write_bytes(b"of a dead build")

    def fails(_: int) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    with monkeypatch.context() as patched:
        patched.setattr(os, "fsync", fails)
        with pytest.raises(FolderError, match="the disk is full"):
            write_file(target, b"key")
    assert list(target.parent.iterdir()) == []
    write_file(target, b"key")
    assert [path.name for path in target.parent.iterdir()] == ["key.pdf"]


def test_a_clock_set_back_is_no_matter(monkeypatch: pytest.MonkeyPatch) -> None:
    """What a pack is, and whether it may be replaced, hangs on no time of day or of a file."""
    assert build("--out", "now").exit_code == 0
    for name in ("time", "localtime", "gmtime"):
        real = getattr(time, name)
        set_back = (lambda *_: 60.0) if name == "time" else (lambda *_, real=real: real(60.0))
        monkeypatch.setattr(time, name, set_back)
    for path in (Path("now"), *Path("now").iterdir()):
        os.utime(path, (4e9, 4e9))
    assert build("--out", "then").exit_code == 0
    assert build("--out", "now").exit_code == 0
    for path in Path("now").iterdir():
        assert path.read_bytes() == Path("then", path.name).read_bytes()
