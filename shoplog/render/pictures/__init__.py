"""Pictures of what a page draws, from the numbers of the result: one module a kind of record."""
