"""A physical model of an insulated ceramic charcoal cooker: simulate, forecast, choose, learn.

Knows nothing of rules, words or conversation. SI inside; Fahrenheit, minutes and openings 0..1 at the edges.
"""
