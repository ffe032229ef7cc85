"""`python3 tests [--full] [what pytest takes]`: every check, in the course's own environment, made first if need be.

Plain: small fixed samples. `--full`: the large counts; what passed already for the same sources is not run again.
Paths are taken from the folder of the course.
"""

import os
import sys

sys.path.insert(0, os.path.dirname(os.path.dirname(os.path.abspath(__file__))))

import environment

WORKERS = ["-n", "2", "--dist", "loadfile"]

if __name__ == "__main__":
    sys.exit(environment.run("tests", ["-m", "pytest", *WORKERS, *sys.argv[1:]], cwd=environment.ROOT))
