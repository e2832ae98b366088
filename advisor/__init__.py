"""drafthand: a recovery advisor for charcoal cooks, on a forward-chaining rule base."""

__version__ = "0.1.0"
