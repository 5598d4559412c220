"""The invented deck that the peers and the library fit: 8 cores x 6 slices, contents rounded to 0.001 kg/m3.

Run: /usr/bin/python3 make_deck.py > deck.csv
"""
import numpy as np
from scipy.integrate import quad
from scipy.special import erfc

rng = np.random.default_rng(20261)
years, background, error = 25.0, 0.40, 0.15
print("core,age_yr,top_mm,bottom_mm,chloride_kg_per_m3")
for j in range(8):
    a, b = rng.standard_normal(2)
    cs = np.exp(np.log(8) + 0.3 * a)
    d = np.exp(np.log(22) + 0.4 * (-0.3 * a + np.sqrt(1 - 0.09) * b))
    for i in range(6):
        top = 6.0 + 12.0 * i
        share = quad(lambda x: erfc(x / (2 * np.sqrt(d * years))), top, top + 12)[0] / 12
        value = background + (cs - background) * share + error * rng.standard_normal()
        print("C%d,%g,%g,%g,%.3f" % (j + 1, years, top, top + 12, max(value, 0.001)))
