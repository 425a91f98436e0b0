"""Starts the program in a bundle.

Where the program starts itself once more it asks for Python (``-m planner``, ``-c CODE``): in a bundle that is this file.
"""

import multiprocessing
import sys

if __name__ == "__main__":
    multiprocessing.freeze_support()
    if sys.argv[1:3] == ["-m", "planner"]:
        del sys.argv[1:3]
    if sys.argv[1:2] == ["-c"]:
        code = sys.argv[2]
        sys.argv[:] = ["-c", *sys.argv[3:]]
        exec(code, {"__name__": "__main__"})
    else:
        from planner.cli import main

        sys.exit(main())
