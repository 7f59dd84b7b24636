"""Family sheets: what each family of parts is, how it is compared, tested and reused."""
