/*
 * The table of methods: what each is called, says of itself and computes.
 */
#include <glib.h>
#include <string.h>

#include "study/estimate/chain.h"
#include "study/estimate/choose.h"
#include "study/estimate/lists.h"

static struct figure
by_chain(const struct history *history)
{
	struct occasion *occasions = g_new(struct occasion,
		history->occasions);
	unsigned *caught = g_new(unsigned, history->occasions), i;
	struct figure figure;

	history_occasions(history, occasions);
	for (i = 0; i < history->occasions; i++)
		caught[i] = occasions[i].caught;
	figure = estimate_darroch(caught, history->occasions,
		history_sum(history).distinct);
	g_free(occasions);
	g_free(caught);
	return figure;
}

static struct figure
by_lists(const struct history *history, enum lists_interval interval)
{
	struct two_lists lists;

	if (!history_two(history, &lists))
		return (struct figure){.state = FIGURE_NONE};
	return estimate_chapman(lists.first, lists.second, lists.both,
		interval);
}

static struct figure
by_lists_exact(const struct history *history)
{
	return by_lists(history, LISTS_EXACT);
}

static struct figure
by_lists_log_normal(const struct history *history)
{
	return by_lists(history, LISTS_LOG_NORMAL);
}

static struct figure
by_lists_sadinle(const struct history *history)
{
	return by_lists(history, LISTS_SADINLE);
}

static struct figure
by_occasions(const struct history *history,
	struct figure (*estimate)(const struct occasion *, unsigned))
{
	struct occasion *occasions = g_new(struct occasion,
		history->occasions);
	struct figure figure;

	history_occasions(history, occasions);
	figure = estimate(occasions, history->occasions);
	g_free(occasions);
	return figure;
}

static struct figure
by_schnabel(const struct history *history)
{
	return by_occasions(history, estimate_schnabel);
}

static struct figure
by_schumacher(const struct history *history)
{
	return by_occasions(history, estimate_schumacher);
}

static struct figure
by_frequencies(const struct history *history,
	struct figure (*estimate)(const struct frequencies *))
{
	unsigned *room = g_new(unsigned, history->occasions);
	struct frequencies frequencies = history_frequencies(history, room);
	struct figure figure = estimate(&frequencies);

	g_free(room);
	return figure;
}

static struct figure
chao_corrected(const struct frequencies *frequencies)
{
	return estimate_chao1(frequencies, CHAO_CORRECTED);
}

static struct figure
chao_classic(const struct frequencies *frequencies)
{
	return estimate_chao1(frequencies, CHAO_CLASSIC);
}

static struct figure
by_chao(const struct history *history)
{
	return by_frequencies(history, chao_corrected);
}

static struct figure
by_chao_classic(const struct history *history)
{
	return by_frequencies(history, chao_classic);
}

static struct figure
by_ace(const struct history *history)
{
	return by_frequencies(history, estimate_ace);
}

static struct figure
by_poisson(const struct history *history)
{
	return by_frequencies(history, estimate_poisson);
}

static struct figure
by_zelterman(const struct history *history)
{
	return by_frequencies(history, estimate_zelterman);
}

#define EQUAL_ASSUMED "none made, lost or altered between the first " \
	"occasion and the last; the same piece is always known again; on " \
	"each occasion every piece is as likely to be seen as any other, " \
	"whether seen before or not"
#define UNEQUAL_ALLOWED "none made, lost or altered between the first " \
	"occasion and the last; the same piece is always known again; some " \
	"may be likelier to be seen than others"
#define TWO "two occasions that saw any"
#define SEVERAL "two occasions or more that saw any"

static const struct {
	struct method_words words;
	struct figure (*estimate)(const struct history *);
} methods[METHODS] = {
	[METHOD_EXACT] = {{"exact", "several occasions, exact limits",
		"Darroch 1958",
		"the number N for which 1 − D/N = (1 − C1/N)(1 − C2/N)...; "
		"C pieces on each occasion, D distinct ones on all",
		"every N for which neither so many distinct pieces or fewer, "
		"nor so many or more, have a chance below 2.5 %, the C given",
		SEVERAL, EQUAL_ASSUMED}, by_chain},
	[METHOD_CHAPMAN] = {{"chapman", "two lists, exact limits",
		"Chapman 1951",
		"N = (n1 + 1)(n2 + 1)/(m + 1) − 1; n1 and n2 pieces on the "
		"lists, m on both",
		"every N for which neither tail of the hypergeometric "
		"distribution of m is below 2.5 %",
		TWO, EQUAL_ASSUMED}, by_lists_exact},
	[METHOD_CHAPMAN_LOG_NORMAL] = {{"chapman-log-normal",
		"two lists, log-normal limits", "Chapman 1951; Chao 1987",
		"N = (n1 + 1)(n2 + 1)/(m + 1) − 1; n1 and n2 pieces on the "
		"lists, m on both",
		"log-normal on the unseen, with the variance "
		"(n1 + 1)(n2 + 1)(n1 − m)(n2 − m)/((m + 1)²(m + 2))",
		TWO, EQUAL_ASSUMED}, by_lists_log_normal},
	[METHOD_SADINLE] = {{"sadinle", "two lists, transformed logit limits",
		"Chapman 1951; Sadinle 2009",
		"N = (n1 + 1)(n2 + 1)/(m + 1) − 1; n1 and n2 pieces on the "
		"lists, m on both",
		"D − ½ + bc/a · exp(± z√(1/a + 1/b + 1/c + a/(bc))), with "
		"a = m + ½, b = n1 − m + ½, c = n2 − m + ½",
		TWO, EQUAL_ASSUMED}, by_lists_sadinle},
	[METHOD_SCHNABEL] = {{"schnabel", "several occasions, Schnabel",
		"Schnabel 1938; Garwood 1936",
		"N = ΣCM/ΣR; C pieces on an occasion, R of them seen before, M "
		"known before",
		"ΣCM over the exact Poisson limits of ΣR",
		SEVERAL, EQUAL_ASSUMED}, by_schnabel},
	[METHOD_SCHUMACHER] = {{"schumacher",
		"several occasions, Schumacher and Eschmeyer",
		"Schumacher and Eschmeyer 1943",
		"N = ΣCM²/ΣRM; C pieces on an occasion, R of them seen before, "
		"M known before",
		"from the residual variance of 1/N by Student's t",
		SEVERAL ", three for limits", EQUAL_ASSUMED}, by_schumacher},
	[METHOD_CHAO] = {{"chao", "Chao's lower bound, corrected",
		"Chao 1987",
		"N = D + (T − 1)/T · f1(f1 − 1)/(2(f2 + 1)); f1 pieces seen "
		"once, f2 twice, T occasions",
		"log-normal on the unseen",
		"any occasion that saw any", UNEQUAL_ALLOWED}, by_chao},
	[METHOD_CHAO_CLASSIC] = {{"chao-classic",
		"Chao's lower bound, classic", "Chao 1987",
		"N = D + (T − 1)/T · f1²/(2 f2); f1 pieces seen once, f2 "
		"twice, T occasions; the corrected form if f2 is 0",
		"log-normal on the unseen",
		"any occasion that saw any", UNEQUAL_ALLOWED},
		by_chao_classic},
	[METHOD_ACE] = {{"ace", "coverage of the rarely seen",
		"Chao and Lee 1992",
		"N = D(often) + D(rare)/C + f1/C · γ²; rare: seen at most 10 "
		"times; C = 1 − f1/sightings of the rare; γ² how uneven",
		"log-normal on the unseen",
		"any occasion that saw any", UNEQUAL_ALLOWED}, by_ace},
	[METHOD_POISSON] = {{"poisson", "zero-truncated Poisson",
		"van der Heijden and others 2003",
		"N = D/(1 − exp(−λ)), with λ/(1 − exp(−λ)) = sightings/D",
		"log-normal on the unseen",
		"any occasion that saw any", EQUAL_ASSUMED}, by_poisson},
	[METHOD_ZELTERMAN] = {{"zelterman", "Zelterman's Poisson",
		"Zelterman 1988; Böhning 2008",
		"N = D/(1 − exp(−2 f2/f1)); f1 pieces seen once, f2 twice",
		"log-normal on the unseen, with the variance of Böhning 2008",
		"pieces seen once, and pieces seen twice", UNEQUAL_ALLOWED},
		by_zelterman},
};

const struct method_words *
method_words(enum method method)
{
	return &methods[method].words;
}

bool
method_named(const char *name, enum method *method)
{
	unsigned i;

	for (i = 0; i < METHODS; i++)
		if (strcmp(methods[i].words.name, name) == 0) {
			*method = i;
			return true;
		}
	return false;
}

bool
estimate_by(enum method method, const struct history *history,
	struct figure *figure)
{
	*figure = methods[method].estimate(history);
	return figure->state != FIGURE_NONE;
}
