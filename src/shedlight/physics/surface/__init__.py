"""Surface in air: layers of dirt and water, leakage current, flashover, creepage demand."""
