"""`python -m coldwright`."""

import sys

from coldwright.cli import main

if __name__ == "__main__":
    sys.exit(main())
