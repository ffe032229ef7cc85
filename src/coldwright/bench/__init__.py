"""One learner, one unit, one job: acts, readings, hazards, and the job sheet that records them."""

MODEL_VERSION = "2"
"""Version of all that decides what a reading shows. It changes whenever an old job sheet would no longer replay."""
