"""The shop profile: what stands in the workshop, as `shop.yml` tells it."""
