"""How much yarn does a design take, by colour and size, and what does it cost?

The entry is `planning.yarn_plan`. Lengths are exact fractions of millimetres, so that the
colours always add up to the whole, and prices are decimals; nothing is rounded but the
number of balls, once and up, for a maker buys whole ones.
"""
