"""Water of the garden: reference evapotranspiration, crop coefficients, soil, the daily balance and the need.

After Allen RG, Pereira LS, Raes D, Smith M 1998, Crop evapotranspiration, FAO Irrigation and Drainage Paper 56 ("FAO
56" below); equation and table numbers are that paper's.
"""
