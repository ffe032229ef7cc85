"""`python3 course [command]`: the course's own commands, in its own environment, which is made first if need be.

`build` also measures how hard the text is to read; what it takes for that comes with the tests.
"""

import os
import sys

sys.path.insert(0, os.path.dirname(os.path.dirname(os.path.abspath(__file__))))

import environment

if __name__ == "__main__":
    kind = "tests" if sys.argv[1:2] == ["build"] else "course"
    sys.exit(environment.run(kind, ["-m", "coldwright", *sys.argv[1:]]))
