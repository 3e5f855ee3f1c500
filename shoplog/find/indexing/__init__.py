"""The index of a log's records: an SQLite file that can be deleted at any time."""
