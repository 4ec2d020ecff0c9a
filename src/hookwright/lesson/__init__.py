"""The filmed lesson of a pattern: what is to be learnt, shown and said, and when."""
