"""Floor 5: sizing. From duty and site to dimensions, and why each dimension is what it is."""
