"""The hook's rules: instructions worked over edges give rows, counts and evidence."""
