"""Kills builds, at every step and at random moments, and looks at what they leave.

``python -m tests.hard.kills --kills 500`` prints what was found. In this process builds are
forked, so it has no threads.
"""

import argparse
import errno
import hashlib
import json
import os
import random
import signal
import sys
import tempfile
import time
import traceback
from collections.abc import Callable, Mapping
from pathlib import Path

from generator.packs.building import build_pack
from generator.packs.working_out import work
from generator.vocabulary import VOCABULARY
from layouts.files import folder as folder_writing
from layouts.files.documents import render
from layouts.files.folder import FolderError, write_folder
from specs import read_spec

Files = Mapping[str, bytes]

LESSON = b"""\
title: Weighing beans
ladder:
  beans: {operation: add, places: 2, carries: none}
tiers:
  core: {beans: 6}
"""


def built(seed: int) -> dict[str, bytes]:
    """The files of a small pack; the record says which seed it is of."""
    pack = build_pack(read_spec(LESSON, "beans.yaml", VOCABULARY), seed)
    return recorded(seed, {document.name: document.data for document in render(work(pack))})


def recorded(seed: int, files: Files) -> dict[str, bytes]:
    """Files with the record that lists them."""
    listed = [
        {"name": name, "sha256": hashlib.sha256(data).hexdigest()} for name, data in files.items()
    ]
    record = {"title": "", "seed": seed, "code": "", "sections": [], "files": listed}
    return {**files, "pack.json": json.dumps(record).encode()}


def seed_of_whole_pack(folder: Path) -> int:
    """The seed of the pack there. Raises AssertionError when it is not whole, or a mixture."""
    record = json.loads((folder / "pack.json").read_bytes())
    digests = {file["name"]: file["sha256"] for file in record["files"]}
    found = {path.name for path in folder.iterdir()}
    assert found == {*digests, "pack.json"}, f"{found} beside {set(digests)}"
    for name, digest in digests.items():
        assert hashlib.sha256((folder / name).read_bytes()).hexdigest() == digest, name
    return int(record["seed"])


def left_beside(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.parent.iterdir() if path != folder)


def forked(work: Callable[[], object]) -> int:
    """Do something in a process of its own; its number."""
    child = os.fork()
    if child:
        return child
    code = 1
    try:
        work()
        code = 0
    except Exception:
        traceback.print_exc()
    finally:
        os._exit(code)


def ended(child: int) -> int:
    """Wait for a process: its exit code, or less than nought when it was killed."""
    return os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])


STEPS = ("open", "os.mkdir", "os.rename", "os.remove", "os.rmdir", "ctypes.dlsym")
"""What Python tells of a program's dealings with files, each just before it happens."""


def dies_at(step: int, work: Callable[[], object]) -> bool:
    """Do something that is killed just before so many steps; whether it came so far."""

    def to_the_death() -> None:
        done = 0

        def count(event: str, _: object) -> None:
            nonlocal done
            if event in STEPS:
                done += 1
                if done == step:
                    os.kill(os.getpid(), signal.SIGKILL)

        sys.addaudithook(count)
        work()

    return ended(forked(to_the_death)) == -signal.SIGKILL


def at_every_step(old: Files | None, new: Files, exchanging: bool) -> int:
    """Kill a build before each of its steps in turn; how many steps there were."""
    step = 0
    exchange = folder_writing._exchange
    if not exchanging:
        folder_writing._exchange = lambda *_: False
    try:
        with tempfile.TemporaryDirectory() as parent:
            while True:
                step += 1
                folder = Path(parent, f"step-{step}", "pack")
                folder.parent.mkdir()
                if old is not None:
                    write_folder(folder, old)
                if not dies_at(step, lambda folder=folder: write_folder(folder, new)):
                    assert seed_of_whole_pack(folder) == 2
                    return step - 1
                kept = folder.exists()
                if kept:
                    assert seed_of_whole_pack(folder) in ((1, 2) if old else (2,)), step
                elif old is not None:
                    assert not exchanging, f"step {step}: the pack was gone for a while"
                    a_build_that_fails(folder)  # clears up first, so the old pack is back
                    assert seed_of_whole_pack(folder) == 1, step
                write_folder(folder, new)
                assert seed_of_whole_pack(folder) == 2
                assert left_beside(folder) == [], f"step {step}: {left_beside(folder)}"
    finally:
        folder_writing._exchange = exchange


class FullDisk(dict[str, bytes]):
    """Files of which the first cannot be written."""

    def items(self):  # type: ignore[no-untyped-def]
        raise OSError(errno.ENOSPC, "No space left on device")


def a_build_that_fails(folder: Path) -> None:
    try:
        write_folder(folder, FullDisk())
    except FolderError:
        return
    raise AssertionError("the build did not fail")


def at_random_moments(old: Files, new: Files, kills: int, seed: int) -> dict[str, int]:
    """Kill builds that replace one pack by another, at random moments."""
    source = random.Random(seed)
    seen = {"old": 0, "new": 0}
    with tempfile.TemporaryDirectory() as parent:
        folder = Path(parent, "pack")
        write_folder(folder, old)
        start = time.perf_counter()
        write_folder(folder, new)
        usual = time.perf_counter() - start
        for _ in range(kills):
            write_folder(folder, old)
            child = forked(lambda: write_folder(folder, new))
            time.sleep(source.uniform(0, 1.3 * usual))
            os.kill(child, signal.SIGKILL)
            ended(child)
            seen["old" if seed_of_whole_pack(folder) == 1 else "new"] += 1
        write_folder(folder, new)
        assert left_beside(folder) == [], left_beside(folder)
    return seen


def at_once(packs: list[Files], rounds: int) -> None:
    """Several builds to one folder at once, again and again: the last one's pack is there."""
    with tempfile.TemporaryDirectory() as parent:
        folder = Path(parent, "pack")
        for _ in range(rounds):
            children = [forked(lambda files=files: write_folder(folder, files)) for files in packs]
            codes = [ended(child) for child in children]
            assert codes == [0] * len(packs), codes
            assert seed_of_whole_pack(folder) in range(1, len(packs) + 1)
            assert left_beside(folder) == [], left_beside(folder)


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--kills", type=int, default=25)
    parser.add_argument("--seed", type=int, default=1)
    chosen = parser.parse_args()
    small = [recorded(seed, {"a.pdf": b"%d" % seed, "b.pdf": b"b"}) for seed in (1, 2)]
    for old, exchanging in ((None, True), (small[0], True), (small[0], False)):
        steps = at_every_step(old, small[1], exchanging)
        what = "a new pack" if old is None else "a pack replaced"
        how = "" if old is None else (" in one step" if exchanging else " in two renames")
        print(f"{what}{how}: killed at each of {steps} steps, whole every time")
    packs = [built(seed) for seed in (1, 2, 3, 4)]
    seen = at_random_moments(packs[0], packs[1], chosen.kills, chosen.seed)
    print(
        f"{chosen.kills} kills at random: the old pack {seen['old']} times, the new {seen['new']}"
    )
    at_once(packs, rounds=max(3, chosen.kills // 10))
    print("four builds at once: one of them there, whole, every time")


if __name__ == "__main__":
    main()
