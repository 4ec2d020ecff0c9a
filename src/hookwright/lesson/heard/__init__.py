"""A lesson that was filmed, as a recogniser heard it, held against the pattern."""
