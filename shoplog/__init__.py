"""A compiler for workshop logs: Markdown pages calculate, prove their mates and become a site."""
