"""Words in: free text to facts, by rules and the words kept in rules/vocabulary.yaml. Knows nothing of rules or plans."""
