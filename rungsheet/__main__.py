"""``python -m rungsheet``: the command line."""

from rungsheet.command_line import main

if __name__ == "__main__":
    main()
