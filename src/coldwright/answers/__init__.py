"""Answers: the form one must have, reading what was typed, tolerance, and telling slips apart. Holds no key."""
