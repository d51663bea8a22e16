/* vector.h - points and directions in the car's axes: x aft, y right, z up. */
#ifndef PLYLOFT_VECTOR_H
#define PLYLOFT_VECTOR_H

struct pl_vector { double x, y, z; };

static inline struct pl_vector pl_minus(struct pl_vector a, struct pl_vector b)
{
    return (struct pl_vector){a.x - b.x, a.y - b.y, a.z - b.z};
}

static inline struct pl_vector pl_cross(struct pl_vector a, struct pl_vector b)
{
    return (struct pl_vector){a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x};
}

static inline double pl_dot(struct pl_vector a, struct pl_vector b)
{
    return a.x * b.x + a.y * b.y + a.z * b.z;
}

/* Of the line from a to b, at a share of it. */
static inline struct pl_vector pl_between(struct pl_vector a, struct pl_vector b, double share)
{
    return (struct pl_vector){a.x + share * (b.x - a.x), a.y + share * (b.y - a.y), a.z + share * (b.z - a.z)};
}

#endif
