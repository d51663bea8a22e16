#include "plyloft/profile.h"

#include <math.h>
#include <string.h>

/* Mean lines of NACA report 537, table I, for a design lift coefficient of 0.3; the
 * second digit picks the place of greatest camber (0.05 to 0.25 chord). */
static const struct {
    double m, k1;
} simple_lines[] = {{0.0580, 361.400}, {0.1260, 51.640}, {0.2025, 15.957}, {0.2900, 6.643}, {0.3910, 3.230}};

static const struct {
    double m, k1, k2_over_k1;
} reflexed_lines[] = {{0.1300, 51.990, 0.000764}, {0.2170, 15.793, 0.00677}, {0.3180, 6.520, 0.0303}, {0.4410, 3.191, 0.1355}};

static bool parse_four(const int *digit, struct pl_naca *naca, const char **why)
{
    naca->camber = digit[0] / 100.0;
    naca->camber_at = digit[1] / 10.0;
    if (digit[0] && !digit[1]) {
        *why = "has camber but no place for it (second digit 0)";
        return false;
    }
    return true;
}

static bool parse_five(const int *digit, struct pl_naca *naca, const char **why)
{
    if (!digit[0]) {
        *why = "has a first digit of 0, which the five-digit shapes do not define";
        return false;
    }
    if (digit[2] == 0 && digit[1] >= 1 && digit[1] <= 5) {
        naca->m = simple_lines[digit[1] - 1].m;
        naca->k1 = simple_lines[digit[1] - 1].k1;
    } else if (digit[2] == 1 && digit[1] >= 2 && digit[1] <= 5) {
        naca->m = reflexed_lines[digit[1] - 2].m;
        naca->k1 = reflexed_lines[digit[1] - 2].k1;
        naca->k2_over_k1 = reflexed_lines[digit[1] - 2].k2_over_k1;
    } else {
        *why = "has a mean line that NACA report 537 does not define (second digit 1 to 5 with third 0, or 2 to 5 with third 1)";
        return false;
    }
    naca->k1 *= digit[0] / 2.0;
    return true;
}

bool pl_naca_parse(const char *designation, struct pl_naca *naca, const char **why)
{
    size_t length = strlen(designation);
    int digit[5] = {0};
    *naca = (struct pl_naca){0};
    *why = "must be a four- or five-digit NACA designation";
    if ((length != 4 && length != 5) || strspn(designation, "0123456789") != length)
        return false;
    for (size_t i = 0; i < length; i++)
        digit[i] = designation[i] - '0';
    int percent = 10 * digit[length - 2] + digit[length - 1];
    naca->thickness = percent / 100.0;
    if (percent < 1) {
        *why = "must have a thickness of at least 1 % (the last two digits)";
        return false;
    }
    return length == 4 ? parse_four(digit, naca, why) : parse_five(digit, naca, why);
}

double pl_naca_half_thickness(const struct pl_naca *naca, double s)
{
    return 5 * naca->thickness * (0.2969 * sqrt(s) + s * (-0.1260 + s * (-0.3516 + s * (0.2843 - 0.1015 * s))));
}

static double mean_four(const struct pl_naca *naca, double s, double *slope)
{
    double p = naca->camber_at, scale = naca->camber / (s < p ? p * p : (1 - p) * (1 - p));
    *slope = scale * 2 * (p - s);
    return scale * (s < p ? s * (2 * p - s) : 1 - 2 * p + s * (2 * p - s));
}

static double mean_five(const struct pl_naca *naca, double s, double *slope)
{
    double m = naca->m, r = naca->k2_over_k1, k = naca->k1 / 6, m3 = m * m * m, d = s - m;
    if (r == 0) {
        *slope = s < m ? k * (3 * s * s - 6 * m * s + m * m * (3 - m)) : -k * m3;
        return s < m ? k * s * (s * s - 3 * m * s + m * m * (3 - m)) : k * m3 * (1 - s);
    }
    double cube = s < m ? 1 : r, end = (1 - m) * (1 - m) * (1 - m);
    *slope = k * (3 * cube * d * d - r * end - m3);
    return k * (cube * d * d * d - r * end * s - m3 * s + m3);
}

double pl_naca_mean(const struct pl_naca *naca, double s, double *slope)
{
    *slope = 0;
    if (naca->k1 > 0)
        return mean_five(naca, s, slope);
    return naca->camber > 0 ? mean_four(naca, s, slope) : 0;
}

void pl_naca_point(const struct pl_naca *naca, double s, struct pl_point *upper, struct pl_point *lower)
{
    s = fmin(1, fmax(0, s));
    double slope, mean = pl_naca_mean(naca, s, &slope), half = pl_naca_half_thickness(naca, s);
    double c = 1 / sqrt(1 + slope * slope), across = half * slope * c, up = half * c;
    *upper = (struct pl_point){s - across, mean + up};
    *lower = (struct pl_point){s + across, mean - up};
}
