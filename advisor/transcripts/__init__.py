"""Demo conversations that are tests: pages in a small notation, played again and compared. Prints nothing."""
