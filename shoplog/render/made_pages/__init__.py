"""Pages that a site has beside those that its author wrote, made from records and the shop profile."""
