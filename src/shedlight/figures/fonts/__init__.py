"""The shipped typeface: Inter in regular, bold and italic, under the SIL Open Font License.

``OFL.txt`` is its licence. Shipping it makes a drawing look the same on every machine.
"""
