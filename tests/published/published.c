#include "published.h"

#include <math.h>
#include <stdbool.h>
#include <stdio.h>

static bool print_row(const struct published_row *row)
{
    double there = row->exact ? row->exact() : row->there, here = row->here();
    double off = there != 0 ? (here - there) / fabs(there) : here;
    bool within = fabs(off) <= row->band;  /* never so for NAN */
    printf("  %-27s %-47s %-6s %12.6g %12.6g %+9.4f %9.3f  %s%s%s\n", row->source, row->what, row->unit, there, here,
           100 * off, 100 * row->band, within ? "ok" : "OUT", row->because ? "  " : "",
           row->because ? row->because : "");
    return within;
}

int main(void)
{
    const struct published_table *const tables[] = {&published_shapes, &published_laminates, &published_sections,
                                                    &published_beams, &published_loads, &published_flows,
                                                    &published_wings};
    size_t within = 0, all = 0;
    printf("  %-27s %-47s %-6s %12s %12s %9s %9s\n", "source", "figure", "unit", "there", "here", "off %", "band %");
    for (size_t t = 0; t < sizeof tables / sizeof *tables; t++) {
        printf("%s\n", tables[t]->subject);
        for (size_t i = 0; i < tables[t]->count; i++) {
            within += print_row(&tables[t]->rows[i]);
            all++;
        }
    }
    printf("%zu of %zu within band\n", within, all);
    return within == all ? 0 : 1;
}
