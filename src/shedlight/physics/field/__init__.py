"""The electric field of a body of revolution: potential, field, capacitance, loss, inception.

Electro-quasi-static, in the half plane (r, z). NGSolve is opened only when a field is solved.
"""
