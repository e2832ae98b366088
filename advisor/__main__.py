"""The command `drafthand`: hands the words of the call on, knows nothing else."""

import sys

from advisor.terminal.commandline import run


def main(words: list[str] | None = None) -> int:
    """Exit status: 0 done, 2 the call's words are off, 1 anything else."""
    return run(sys.argv[1:] if words is None else words)


if __name__ == "__main__":
    sys.exit(main())
