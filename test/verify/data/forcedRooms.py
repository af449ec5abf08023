# Levels in two rooms that are no box, by finite elements that share nothing with the project's: quadratic hexahedra in three dimensions,
# solved whole at each frequency. Run with Python 3, NumPy and SciPy; writes forcedRooms.json beside itself.
#
# (K - k² M + jk β C) p = jωρ Q N(source), e^{+jωt}; levels re the free field at 1 m, where |p| = ωρ|Q| / 4π.

import json
import pathlib

import numpy as np
import scipy
from scipy.sparse import coo_matrix
from scipy.sparse.linalg import splu

C_M_S, RHO = 343.2, 1.2041

ROOMS = {
    "trapezoid": {
        "plan_m": [[0, 0], [4.6, 0], [4.2, 5.4], [0.3, 5.4]],
        "heights_m": [2.7, 2.7, 2.7, 2.7],
        "elements": [5, 6, 3],
        "to_hz": 100,
    },
    "sloped": {
        "plan_m": [[0, 0], [4.2, 0], [4.2, 5.2], [0, 5.2]],
        "heights_m": [2.4, 2.4, 3.1, 3.1],
        "elements": [5, 6, 3],
        "to_hz": 100,
    },
}
BETA = 0.03
STEP_HZ = 1.5
# The finer mesh is solved at every tenth frequency only.
EVERY = 10
SOURCES = {"left": [1.2, 0.7, 1.2], "sub": [2.9, 0.4, 0.3]}
SEATS = {"mix": [2.1, 2.3, 1.2], "couch": [2.4, 4.1, 1.1], "door": [3.5, 3.3, 1.5]}

GAUSS = np.polynomial.legendre.leggauss(4)


def quadratic(t):
    """The three quadratic shapes on -1 … 1 and their slopes."""
    return (
        np.array([t * (t - 1) / 2, 1 - t * t, t * (t + 1) / 2]),
        np.array([t - 0.5, -2 * t, t + 0.5]),
    )


def shapes(r):
    v, s = zip(*(quadratic(t) for t in r))
    n = np.einsum("i,j,k->ijk", v[0], v[1], v[2]).ravel()
    g = [
        np.einsum("i,j,k->ijk", s[0], v[1], v[2]).ravel(),
        np.einsum("i,j,k->ijk", v[0], s[1], v[2]).ravel(),
        np.einsum("i,j,k->ijk", v[0], v[1], s[2]).ravel(),
    ]
    return n, np.array(g)


def place(room, u, v, w):
    """From the unit cube: bilinear plan, straight up to the plane of the heights."""
    share = np.array([(1 - u) * (1 - v), u * (1 - v), u * v, (1 - u) * v])
    x, y = share @ np.array(room["plan_m"], float)
    return np.array([x, y, w * (share @ np.array(room["heights_m"], float))])


def mesh(room):
    nx, ny, nz = room["elements"]
    mx, my, mz = 2 * nx + 1, 2 * ny + 1, 2 * nz + 1
    index = lambda i, j, k: (i * my + j) * mz + k
    nodes = np.array(
        [
            place(room, i / (mx - 1), j / (my - 1), k / (mz - 1))
            for i in range(mx)
            for j in range(my)
            for k in range(mz)
        ]
    )
    cells = [
        [index(2 * a + i, 2 * b + j, 2 * c + k) for i in range(3) for j in range(3) for k in range(3)]
        for a in range(nx)
        for b in range(ny)
        for c in range(nz)
    ]
    return nodes, np.array(cells)


def faces(cells, room):
    """Of every cell on the boundary: which direction, which end."""
    nx, ny, nz = room["elements"]
    number = 0
    for a in range(nx):
        for b in range(ny):
            for c in range(nz):
                for axis, (at, count) in enumerate(((a, nx), (b, ny), (c, nz))):
                    if at == 0:
                        yield number, axis, -1.0
                    if at == count - 1:
                        yield number, axis, 1.0
                number += 1


def assemble(room):
    nodes, cells = mesh(room)
    rows, cols, k_values, m_values = [], [], [], []
    points, weights = GAUSS
    for cell in cells:
        corner = nodes[cell]
        k_local, m_local = np.zeros((27, 27)), np.zeros((27, 27))
        for i, wi in zip(points, weights):
            for j, wj in zip(points, weights):
                for k, wk in zip(points, weights):
                    n, g = shapes((i, j, k))
                    jacobian = g @ corner
                    slopes = np.linalg.solve(jacobian, g)
                    w = wi * wj * wk * abs(np.linalg.det(jacobian))
                    k_local += w * slopes.T @ slopes
                    m_local += w * np.outer(n, n)
        r, c = np.meshgrid(cell, cell, indexing="ij")
        rows.append(r.ravel()), cols.append(c.ravel())
        k_values.append(k_local.ravel()), m_values.append(m_local.ravel())
    c_rows, c_cols, c_values = [], [], []
    for number, axis, end in faces(cells, room):
        cell = cells[number]
        corner = nodes[cell]
        local = np.zeros((27, 27))
        others = [a for a in range(3) if a != axis]
        for i, wi in zip(points, weights):
            for j, wj in zip(points, weights):
                r = [0.0, 0.0, 0.0]
                r[axis], r[others[0]], r[others[1]] = end, i, j
                n, g = shapes(r)
                t = g @ corner
                local += wi * wj * np.linalg.norm(np.cross(t[others[0]], t[others[1]])) * np.outer(n, n)
        r, c = np.meshgrid(cell, cell, indexing="ij")
        c_rows.append(r.ravel()), c_cols.append(c.ravel()), c_values.append(local.ravel())
    size = len(nodes)
    make = lambda r, c, v: coo_matrix(
        (np.concatenate(v), (np.concatenate(r), np.concatenate(c))), shape=(size, size)
    ).tocsc()
    return nodes, cells, make(rows, cols, k_values), make(rows, cols, m_values), make(c_rows, c_cols, c_values)


def reader(room, cells, at):
    """Shapes at a place: the unit cube's coordinates by Newton, then the cell they fall in."""
    u = np.array([0.5, 0.5, 0.5])
    for _ in range(50):
        off = place(room, *u) - at
        slopes = np.array([(place(room, *(u + d)) - place(room, *u)) / 1e-6 for d in 1e-6 * np.eye(3)]).T
        u = u - np.linalg.solve(slopes, off)
    nx, ny, nz = room["elements"]
    where = u * np.array([nx, ny, nz])
    cell = np.minimum(where.astype(int), [nx - 1, ny - 1, nz - 1])
    n, _ = shapes(2 * (where - cell) - 1)
    return cells[(cell[0] * ny + cell[1]) * nz + cell[2]], n


def levels(room, step_hz):
    nodes, cells, stiffness, mass, boundary = assemble(room)
    frequencies = np.arange(18, room["to_hz"] + 13, step_hz)
    ears = {seat: reader(room, cells, np.array(at)) for seat, at in SEATS.items()}
    found = {source: {seat: [] for seat in SEATS} for source in SOURCES}
    for f in frequencies:
        k = 2 * np.pi * f / C_M_S
        solve = splu(
            (stiffness - k * k * mass + 1j * k * BETA * boundary).tocsc(),
            permc_spec="MMD_AT_PLUS_A",
            options={"SymmetricMode": True},
        )
        for source, at in SOURCES.items():
            index, n = reader(room, cells, np.array(at))
            load = np.zeros(len(nodes), complex)
            load[index] = n
            p = solve.solve(load)
            for seat, (ear, shape) in ears.items():
                found[source][seat].append(round(float(20 * np.log10(4 * np.pi * abs(shape @ p[ear]))), 3))
    return frequencies.tolist(), found


def main():
    rooms = {}
    for name, room in ROOMS.items():
        frequency_hz, level_db = levels(room, STEP_HZ)
        finer = {**room, "elements": [n + 1 for n in room["elements"]]}
        _, check = levels(finer, EVERY * STEP_HZ)
        pairs = [
            (10 ** (a / 20), 10 ** (b / 20))
            for source in SOURCES
            for seat in SEATS
            for a, b in zip(level_db[source][seat][::EVERY], check[source][seat])
        ]
        rms = np.sqrt(np.mean([a * a for a, _ in pairs]))
        worst = max(abs(a - b) for a, b in pairs) / rms
        print(name, "two meshes differ by", worst, "of the rms at most")
        rooms[name] = {
            "plan_m": room["plan_m"],
            "heights_m": room["heights_m"],
            "frequency_hz": frequency_hz,
            "level_db": level_db,
            "meshes_differ_ratio": round(worst, 4),
        }
    data = {
        "description": "Levels re the free field at 1 m of a point source in a trapezoid under a level ceiling and a rectangle under a sloped one; uniform real specific admittance.",
        "source": f"forcedRooms.py: NumPy {np.__version__}, SciPy {scipy.__version__}; quadratic hexahedra, direct solution at each frequency",
        "inputs": {"c_m_s": C_M_S, "rho_kg_m3": RHO, "beta": BETA, "sources_m": SOURCES, "seats_m": SEATS},
        "expected": rooms,
    }
    path = pathlib.Path(__file__).with_suffix(".json")
    path.write_text(json.dumps(data, separators=(",", ":")) + "\n")


main()
