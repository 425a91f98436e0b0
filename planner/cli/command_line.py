"""The entry point: from a command line to its exit code.

Errors go to standard error as one line and end with exit code 2.  What takes long to import is
imported by the commands where they use it.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Sequence

from planner.cli.errors import OutputError
from planner.cli.output import close_output, print_error
from planner.cli.parser import make_parser, with_command
from planner.errors import BedwrightError
from planner.words import say, use_language, wished_language


def main(argv: Sequence[str] | None = None) -> int:
    """Carry out a command line.

    Parameters
    ----------
    argv : sequence of str, optional
        Arguments without the program's name; those of the process by default.

    Returns
    -------
    int
        Exit code: that of the command; 2 after an error, which has been printed as one line; 130 when
        stopped by the keyboard, 141 when the reader of the output is gone.
    """
    if argv is None:  # a process of its own
        use_language(wished_language(os.environ))
    try:
        args = make_parser().parse_args(with_command(list(sys.argv[1:] if argv is None else argv)))
        code: int = args.run(args)
    except SystemExit as end:  # of --help and --version
        return end.code if isinstance(end.code, int) else 0
    except BedwrightError as error:
        if isinstance(error, OutputError):
            close_output()
        text = str(error)
        print_error(text[:-1] if text.endswith("?.") else text)
        return 2
    except BrokenPipeError:  # whoever read has seen enough
        close_output()
        return 141
    except KeyboardInterrupt:
        print_error("stopped.")
        return 130
    except Exception as error:
        if os.environ.get("BEDWRIGHT_TRACEBACK"):
            raise
        what = " ".join(f"{type(error).__name__}: {error}".split())
        print_error(
            say("a fault in the program itself: {what}. Files are as they were; please report it.", what=what)
        )
        return 2
    return code
