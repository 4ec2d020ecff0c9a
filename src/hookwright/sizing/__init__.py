"""Multiples, sizes, size lists and edgings, and the numbers of a text written anew."""
