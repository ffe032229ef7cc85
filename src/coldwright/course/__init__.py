"""The course itself: its topics, its notebooks, handing out, and the learner's own copy."""
