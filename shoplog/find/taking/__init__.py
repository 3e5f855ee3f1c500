"""A spreadsheet of past setups, brought in as pages of the log."""
