"""What does the fabric look like, as if it lay on a table in daylight?"""
