"""nbgrader's settings for this class; more of them may be added at the end."""

from pathlib import Path

from coldwright.marking.nbgrader_config import configure

configure(get_config(), Path(__file__).parent)  # noqa: F821 - nbgrader gives get_config
