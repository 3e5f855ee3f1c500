"""Making chips: speeds and feeds, forces, bending, passes, finish and the life of an edge."""
