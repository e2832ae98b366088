"""A vent chart of one's own: steady stretches of past cooks, the curve they give, and where it is kept."""
