"""Starts the program in a bundle."""

import multiprocessing
import sys

from planner.cli import main

if __name__ == "__main__":
    multiprocessing.freeze_support()
    sys.exit(main())
