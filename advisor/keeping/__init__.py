"""From turns of a conversation to entries of the logbook: which talk they belong to, and what they mean for each cook."""
