"""What does the work look like: symbol charts, outlines with measures, stripes, fabric?"""
