"""The bench sheet: a page of the log as paper for the machine, and back from the paper."""
