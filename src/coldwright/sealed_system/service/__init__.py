"""What is done to a sealed system that is opened: leak test, recovery, evacuation, filling."""
