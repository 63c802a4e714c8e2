"""``python -m rungsheet.page [FILE]`` makes the page: out/rungsheet.html unless told otherwise."""

import argparse
import sys
from pathlib import Path

from rungsheet.page.bind import page
from rungsheet.page.gather import CannotBeMadeError


def main() -> int:
    """Make the page and say how large it is."""
    parser = argparse.ArgumentParser(prog="python -m rungsheet.page", description=__doc__)
    parser.add_argument("file", nargs="?", type=Path, default=Path("out/rungsheet.html"))
    file: Path = parser.parse_args().file
    try:
        data = page()
        file.parent.mkdir(parents=True, exist_ok=True)
        scratch = file.with_name(f".{file.name}.part")
        scratch.write_bytes(data)
        scratch.replace(file)
    except CannotBeMadeError as error:
        print(error, file=sys.stderr)
        return 2
    except OSError as error:
        print(f"{file}: it cannot be written ({error.strerror or error})", file=sys.stderr)
        return 2
    print(f"{file}: {len(data) / 1_000_000:.1f} MB")
    return 0


if __name__ == "__main__":
    sys.exit(main())
