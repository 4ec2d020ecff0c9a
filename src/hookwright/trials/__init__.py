"""What test makers report, put together: yarn, gauge, size, hours, rows that confuse."""
