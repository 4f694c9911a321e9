"""What was really cut, scored or printed, and what that does to a design."""
