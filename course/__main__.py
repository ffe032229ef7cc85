"""`python3 course [command]`: the course's own commands, in its own environment, which is made first if need be."""

import os
import sys

sys.path.insert(0, os.path.dirname(os.path.dirname(os.path.abspath(__file__))))

import environment

if __name__ == "__main__":
    sys.exit(environment.run("course", ["-m", "coldwright", *sys.argv[1:]]))
