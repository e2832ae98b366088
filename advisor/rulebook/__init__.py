"""The rule base as data: YAML files to validated objects. Knows the vocabulary, not the engine."""
