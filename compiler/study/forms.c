/*
 * The sides are words of the vocabulary `feature_side`.
 */
#include "study/forms.h"

#include <stddef.h>
#include <string.h>

const struct form forms[FORM_COUNT] = {
	{"card", "on a card", NULL, {"front", "back", "blister", "figure"}},
	{"bag", "in a bag", "variant", {"bag", "figure", "accessory"}},
	{"loose", "loose", "variant", {"figure", "accessory"}},
	{"case", "in a case", NULL, {"case", "front", "back", "blister",
		"figure"}},
};

const struct form *
form_named(const char *name)
{
	size_t i;

	for (i = 0; i < FORM_COUNT; i++)
		if (strcmp(forms[i].name, name) == 0)
			return &forms[i];
	return NULL;
}
