"""What a pattern costs its designer, and how many copies bring that back."""
