/*
 * Several occasions in order of time, on each of which pieces were seen, some
 * of them again.
 */
#ifndef STUDY_ESTIMATE_OCCASIONS_H
#define STUDY_ESTIMATE_OCCASIONS_H

#include "study/estimate/figure.h"

struct occasion {
	unsigned caught;	/* distinct pieces on this occasion */
	unsigned again;		/* of these, seen on an earlier one */
	unsigned lost;		/* of these, gone since: never seen later */
};

/* With C caught, R again and M distinct ones known before: sums over all. */
struct occasion_sums {
	double cm;
	double r;
	double cmm;
	double rm;
	double rrc;		/* R²/C; an empty occasion adds nothing */
	double seen;		/* distinct pieces */
};

/* False if more are seen again than there were to be seen. */
bool
occasions_sum(const struct occasion *occasions, unsigned count,
	struct occasion_sums *sums);

/*
 * Schnabel 1938: ΣCM/ΣR. The limits put Garwood's exact Poisson limits of ΣR
 * under ΣCM (Krebs 1999, after eq. 2.11), with computed ones and not those of a
 * printed table. FIGURE_LEAST if nothing was seen again: ΣCM over the upper
 * Poisson limit of none. FIGURE_NONE for fewer than two occasions.
 */
struct figure
estimate_schnabel(const struct occasion *occasions, unsigned count);

/*
 * Schumacher and Eschmeyer 1943: ΣCM²/ΣRM, with limits from the residual
 * variance over s − 2 degrees of freedom and Student's t. Open upwards where
 * the reciprocal reaches 0; no limits at all for two occasions or a fit
 * without residuals.
 */
struct figure
estimate_schumacher(const struct occasion *occasions, unsigned count);

#endif
