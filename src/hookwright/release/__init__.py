"""Every copy that a designer puts out, from one text."""
