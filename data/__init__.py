"""Tables of the trade, as data: see each file's head for its source."""
