"""The middle of the thermal model's cookers: the top opening that holds a temperature, for the table in ownchart/prior.py.

    python tests/ownchart/model_middle.py
"""

import numpy as np
import physical_cooks as physical

TEMPERATURES = (225.0, 275.0, 325.0, 400.0)


def middle(kind: str, dome_f: float, cookers: int, seed: int) -> float:
    """Median opening of those cookers that can hold dome_f at all."""
    z = physical.draw_z(kind, cookers, np.random.default_rng(seed))
    there = physical.soaked(z, np.full(cookers, dome_f), seed + 1, kind)
    return float(np.median(there.right[there.held]))


if __name__ == "__main__":
    for kind in ("small", "medium", "large"):
        print(kind, {int(dome): round(middle(kind, dome, 200, 3), 3) for dome in TEMPERATURES}, flush=True)
