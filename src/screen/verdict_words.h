/* verdict_words.h - the verdict in words, the same on a page and in line mode.
 *
 * Sentences for what the session holds; where they stand and in which colour is the view's business, and no figure is
 * worked out here.  Names in them come from the file as they are: frame.h and facts.h make them safe.
 */
#ifndef PLYLOFT_VERDICT_WORDS_H
#define PLYLOFT_VERDICT_WORDS_H

#include "session.h"

/* "WING HOLDS 1.08", "WING FALLS SHORT", "NOTHING JUDGED". */
/* Ends in "old flow" while a computed load is that of an earlier shape. */
void pl_headline_words(const struct pl_verdict *verdict, char *out, size_t size);

/* Behind a place that is the weakest with the mounts pinned: ", pinned". */
extern const char pl_pinned_end[];

/* "pit jack: wrinkling, top, 170 right, pinned"; where a limit is the reason, "reserve 1.2 but ...".  Narrow: figures
 * before names, so that a cut loses the name; in a line of facts each length has its own unit. */
enum pl_words_for { PL_WORDS_WIDE, PL_WORDS_NARROW, PL_WORDS_LINE };
void pl_where_words(const struct pl_session *session, const struct pl_verdict *verdict, enum pl_words_for to, char *out,
                    size_t size);

/* "170 mm right", "centre". */
void pl_place_with_unit(double y_m, char *out, size_t size);
/* "wrinkling, top, 170 mm right". */
void pl_lowest_with_unit(const struct pl_lowest *lowest, char *out, size_t size);

/* "7.2 of 10": rounded so that what keeps its limit does not look as if it passed it, nor the other way round. */
void pl_against_limit_words(double value, double limit, int decimals, char *out, size_t size);

/* "scrutineer 7.2 of 10 mm", or figures first "7.2 of 10 mm scrutineer": the tip nearest to its limit; "" when none
 * has one. */
void pl_limit_words(const struct pl_verdict *verdict, bool figures_first, char *out, size_t size);

/* "1.259 of 1.3 kg". */
void pl_mass_words(const struct pl_session *session, const struct pl_verdict *verdict, char *out, size_t size);

/* "1.07", or "1.07, 1.250 kg" with a mass that was another: before the last edit; "" when there was nothing. */
void pl_before_words(const struct pl_session *session, bool mass, char *out, size_t size);

/* Why the part cannot be judged, and what figures there are. */
void pl_unjudged_words(const struct pl_session *session, char *out, size_t size);
void pl_old_words(const struct pl_session *session, char *out, size_t size);

/* "brackets, bonds, end plates". */
void pl_not_checked_words(const struct pl_session *session, char *out, size_t size);

/* The lay-up item whose forgotten ply hurts most and the reserve then, as soon as it is worked out; NULL before. */
const char *pl_forgotten_words(const struct pl_session *session, char *reserve, size_t size);

size_t pl_count_problems(const struct pl_session *session, enum pl_severity severity);

#endif
