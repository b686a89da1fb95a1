"""Cost, price and proceeds of a refinished piece of furniture."""
