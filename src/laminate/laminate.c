#include "plyloft/laminate.h"

#include <math.h>
#include <string.h>

void pl_ply_stiffness(const struct pl_fabric *fabric, double q[3][3])
{
    double e1 = fabric->e1_pa, e2 = fabric->e2_pa, nu12 = fabric->nu12, rest = 1 - nu12 * nu12 * e2 / e1;
    memset(q, 0, 9 * sizeof(double));
    q[0][0] = e1 / rest;
    q[1][1] = e2 / rest;
    q[0][1] = q[1][0] = nu12 * e2 / rest;
    q[2][2] = fabric->g12_pa;
}

/* Jones 1999, eq. 2.80 to 2.85, written with c = cos, s = sin of the angle. */
void pl_ply_turned(const struct pl_fabric *fabric, double angle_rad, double qbar[3][3])
{
    double q[3][3], c = cos(angle_rad), s = sin(angle_rad), c2 = c * c, s2 = s * s, cs = c * s;
    pl_ply_stiffness(fabric, q);
    double both = q[0][1] + 2 * q[2][2], first = q[0][0] - both, second = both - q[1][1];
    qbar[0][0] = q[0][0] * c2 * c2 + 2 * both * s2 * c2 + q[1][1] * s2 * s2;
    qbar[1][1] = q[0][0] * s2 * s2 + 2 * both * s2 * c2 + q[1][1] * c2 * c2;
    qbar[0][1] = qbar[1][0] = (q[0][0] + q[1][1] - 4 * q[2][2]) * s2 * c2 + q[0][1] * (s2 * s2 + c2 * c2);
    qbar[2][2] = (q[0][0] + q[1][1] - 2 * q[0][1]) * s2 * c2 + q[2][2] * (c2 - s2) * (c2 - s2);
    qbar[0][2] = qbar[2][0] = cs * (first * c2 + second * s2);
    qbar[1][2] = qbar[2][1] = cs * (first * s2 + second * c2);
}

void pl_laminate_abd(const struct pl_ply *plies, size_t n, struct pl_abd *out)
{
    memset(out, 0, sizeof *out);
    for (size_t k = 0; k < n; k++)
        out->thickness_m += plies[k].thickness_m;
    double z = -0.5 * out->thickness_m, qbar[3][3];
    for (size_t k = 0; k < n; k++) {
        double t = plies[k].thickness_m, middle = z + 0.5 * t;
        if (!k || plies[k].fabric != plies[k - 1].fabric || plies[k].angle_rad != plies[k - 1].angle_rad)
            pl_ply_turned(plies[k].fabric, plies[k].angle_rad, qbar);
        for (int i = 0; i < 3; i++)
            for (int j = 0; j < 3; j++) {
                out->a[i][j] += qbar[i][j] * t;
                out->b[i][j] += qbar[i][j] * t * middle;
                out->d[i][j] += qbar[i][j] * t * (middle * middle + t * t / 12);
            }
        z += t;
    }
}

void pl_invert3(const double m[3][3], double out[3][3])
{
    double c00 = m[1][1] * m[2][2] - m[1][2] * m[2][1], c01 = m[1][2] * m[2][0] - m[1][0] * m[2][2];
    double c02 = m[1][0] * m[2][1] - m[1][1] * m[2][0], det = m[0][0] * c00 + m[0][1] * c01 + m[0][2] * c02;
    double inverse[3][3] = {
        {c00, m[0][2] * m[2][1] - m[0][1] * m[2][2], m[0][1] * m[1][2] - m[0][2] * m[1][1]},
        {c01, m[0][0] * m[2][2] - m[0][2] * m[2][0], m[0][2] * m[1][0] - m[0][0] * m[1][2]},
        {c02, m[0][1] * m[2][0] - m[0][0] * m[2][1], m[0][0] * m[1][1] - m[0][1] * m[1][0]},
    };
    for (int i = 0; i < 3; i++)
        for (int j = 0; j < 3; j++)
            out[i][j] = inverse[i][j] / det;
}

struct pl_moduli pl_laminate_moduli(const struct pl_abd *abd)
{
    double inverse[3][3], h = abd->thickness_m;
    pl_invert3(abd->a, inverse);
    return (struct pl_moduli){1 / (h * inverse[0][0]), 1 / (h * inverse[1][1]), 1 / (h * inverse[2][2]),
                              -inverse[0][1] / inverse[0][0]};
}

void pl_ply_stress(const struct pl_ply *ply, const double strain[3], double stress_pa[3])
{
    double q[3][3], c = cos(ply->angle_rad), s = sin(ply->angle_rad);
    double own[3] = {c * c * strain[0] + s * s * strain[1] + c * s * strain[2],
                     s * s * strain[0] + c * c * strain[1] - c * s * strain[2],
                     2 * c * s * (strain[1] - strain[0]) + (c * c - s * s) * strain[2]};
    pl_ply_stiffness(ply->fabric, q);
    for (int i = 0; i < 3; i++)
        stress_pa[i] = q[i][0] * own[0] + q[i][1] * own[1] + q[i][2] * own[2];
}
