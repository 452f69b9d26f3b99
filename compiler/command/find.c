/*
 * hangtab find: records by words, from the finished guide. The best are shown
 * first, by kind. Misspelt words are forgiven, and it says what it searched
 * for instead; where nothing has all the words, what the single ones give.
 */
#include <stdio.h>
#include <string.h>

#include "base/csv.h"
#include "base/json.h"
#include "command/finding.h"
#include "command/guide.h"

enum { SHOWN_OF_A_KIND = 5 };

static char *only_kind;
static gboolean show_all;

const GOptionEntry find_entries[] = {
	{"kind", 0, 0, G_OPTION_ARG_STRING, &only_kind,
		"records of this kind alone", "KIND"},
	{"all", 0, 0, G_OPTION_ARG_NONE, &show_all,
		"every match, not the best of each kind", NULL},
	{0},
};

/* The hits of one kind. */
struct group {
	const char *kind;
	char *titles;
	bool page;
	GPtrArray *hits;	/* struct hit, best first */
};

struct looking {
	struct store *store;
	struct arena *arena;
	struct found found;
	GPtrArray *groups;	/* in the order of their best */
};

static void
free_group(gpointer data)
{
	struct group *group = data;

	g_ptr_array_free(group->hits, TRUE);
	g_free(group->titles);
	g_free(group);
}

static struct group *
find_group(struct looking *looking, const char *kind)
{
	struct query *query;
	struct group *group;
	guint i;

	for (i = 0; i < looking->groups->len; i++) {
		group = g_ptr_array_index(looking->groups, i);
		if (strcmp(group->kind, kind) == 0)
			return group;
	}
	group = g_new0(struct group, 1);
	group->kind = kind;
	group->hits = g_ptr_array_new();
	query = store_prepare(looking->store, "SELECT titles, page "
		"FROM guide_kind WHERE kind = ?", NULL);
	if (query != NULL) {
		query_bind_text(query, 1, kind);
		if (query_step(query, NULL) == 1) {
			group->titles = g_strdup(query_text(query, 0));
			group->page = query_whole(query, 1) != 0;
		}
	}
	query_free(query);
	g_ptr_array_add(looking->groups, group);
	return group;
}

/* Kinds without pages of their own, such as sightings, come last. */
static int
compare_groups(gconstpointer a, gconstpointer b)
{
	const struct group *left = *(const struct group *const *)a;
	const struct group *right = *(const struct group *const *)b;
	const struct hit *first = g_ptr_array_index(left->hits, 0);
	const struct hit *second = g_ptr_array_index(right->hits, 0);

	if (left->page != right->page)
		return left->page ? -1 : 1;
	return first < second ? -1 : first > second;
}

static void
group_hits(struct looking *looking)
{
	GArray *hits = looking->found.hits;
	guint i;

	for (i = 0; i < hits->len; i++) {
		struct hit *hit = &g_array_index(hits, struct hit, i);

		g_ptr_array_add(find_group(looking, hit->kind)->hits, hit);
	}
	g_ptr_array_sort(looking->groups, compare_groups);
}

static const char *
why(struct looking *looking, const struct hit *hit)
{
	return finding_why(looking->store, &looking->found, hit,
		looking->arena);
}

/* Name and address in one line where they fit, the reason below. */
static void
print_hit(struct looking *looking, const struct hit *hit)
{
	char *address = g_strdup_printf("%s/%s", hit->kind, hit->id);
	const char *reason = why(looking, hit);
	int width = guide_width(hit->called);

	printf("  ");
	if (width + guide_width(address) + 4 <= LINE_WIDTH)
		printf("%s%*s%s\n", hit->called, width < 42 ? 44 - width : 2,
			"", address);
	else {
		guide_wrap(hit->called, 2, 2);
		printf("%46s%s\n", "", address);
	}
	if (reason != NULL)
		printf("      %s\n", reason);
	g_free(address);
}

/* The words searched for, owned by the caller. */
static char *
searched(const struct looking *looking)
{
	const GPtrArray *tokens = looking->found.tokens;
	GString *out = g_string_new(NULL);
	guint i;

	for (i = 0; i < tokens->len; i++)
		g_string_append_printf(out, "%s%s", i == 0 ? "" : " ",
			(const char *)g_ptr_array_index(tokens, i));
	return g_string_free(out, FALSE);
}

/* CSV has no place for it: it goes where messages go. */
static void
say_instead(const struct looking *looking, enum format format)
{
	char *words = searched(looking);

	if (format == FORMAT_CSV)
		fprintf(stderr, "hangtab: nothing has just these words; "
			"searched for \"%s\"\n", words);
	else if (format != FORMAT_JSON)
		printf("Nothing has just these words; searched for "
			"\"%s\" instead.\n\n", words);
	g_free(words);
}

static void
print_text(struct looking *looking)
{
	guint i, j, most = show_all ? G_MAXUINT : SHOWN_OF_A_KIND;
	bool more = false;

	for (i = 0; i < looking->groups->len; i++) {
		struct group *group = g_ptr_array_index(looking->groups, i);

		printf("%s\n", group->titles);
		for (j = 0; j < group->hits->len && j < most; j++)
			print_hit(looking, g_ptr_array_index(group->hits, j));
		if (group->hits->len > most) {
			printf("  and %u more\n", group->hits->len - most);
			more = true;
		}
	}
	if (more)
		puts("\n--all shows every match, --kind KIND those of one "
			"kind");
}

/* Programs get every match, one after the other. */
static void
print_csv(struct looking *looking)
{
	static const char *const heads[] = {"kind", "id", "name", "matched",
		"text", NULL};
	guint i;

	csv_print_row(heads, stdout);
	for (i = 0; i < looking->found.hits->len; i++) {
		const struct hit *hit = &g_array_index(looking->found.hits,
			struct hit, i);
		const char *reason = why(looking, hit);

		csv_print_row((const char *const[]){hit->kind, hit->id,
			hit->called, finding_place(hit->matched),
			reason == NULL ? hit->called : reason, NULL}, stdout);
	}
}

/* "searched" is there where it is not what was asked for. */
static void
print_json(struct looking *looking)
{
	char *words = searched(looking);
	guint i;

	putchar('[');
	for (i = 0; i < looking->found.hits->len; i++) {
		const struct hit *hit = &g_array_index(looking->found.hits,
			struct hit, i);
		const char *reason = why(looking, hit);

		fputs(i == 0 ? "\n{\"kind\":" : ",\n{\"kind\":", stdout);
		json_print(hit->kind, stdout);
		fputs(",\"id\":", stdout);
		json_print(hit->id, stdout);
		fputs(",\"name\":", stdout);
		json_print(hit->called, stdout);
		fputs(",\"matched\":", stdout);
		json_print(finding_place(hit->matched), stdout);
		fputs(",\"text\":", stdout);
		json_print(reason == NULL ? hit->called : reason, stdout);
		if (looking->found.instead) {
			fputs(",\"searched\":", stdout);
			json_print(words, stdout);
		}
		putchar('}');
	}
	puts("\n]");
	g_free(words);
}

/* Nothing has all the words: what the single ones would give. */
static void
suggest(struct looking *looking)
{
	const GPtrArray *tokens = looking->found.tokens;
	guint i;

	fputs("hangtab: nothing was found\n", stderr);
	for (i = 0; i < tokens->len; i++) {
		const char *token = g_ptr_array_index(tokens, i);
		int64_t count = finding_count(looking->store, token);
		const char *near = count > 0 ? NULL : finding_nearest(
			looking->store, token, looking->arena);

		if (count > 0 && tokens->len > 1)
			fprintf(stderr, "  \"%s\" alone is in %" G_GINT64_FORMAT
				" records\n", token, (gint64)count);
		else if (near != NULL)
			fprintf(stderr, "  nothing has \"%s\"; did you mean "
				"\"%s\"?\n", token, near);
		else if (count == 0)
			fprintf(stderr, "  nothing has \"%s\"\n", token);
	}
}

static void
print_found(struct looking *looking, enum format format)
{
	switch (format) {
	case FORMAT_SARIF:
	case FORMAT_ANNOTATIONS:
	case FORMAT_TEXT:
		group_hits(looking);
		print_text(looking);
		break;
	case FORMAT_CSV:
		print_csv(looking);
		break;
	case FORMAT_JSON:
		print_json(looking);
		break;
	}
}

static int
find(struct looking *looking, char *const *words, enum format format)
{
	GError *error = NULL;
	int status = EXIT_DONE;

	if (finding_run(looking->store, words, only_kind, looking->arena,
		&looking->found, &error)) {
		bool any = looking->found.hits->len > 0;

		if (looking->found.instead)
			say_instead(looking, format);
		if (any || format != FORMAT_TEXT)
			print_found(looking, format);
		if (!any) {
			suggest(looking);
			status = EXIT_FINDINGS;
		}
	}
	finding_release(&looking->found);
	return error == NULL ? status : guide_failed(error);
}

int
command_find(const struct options *options, char **words)
{
	struct looking looking = {0};
	int status = EXIT_DONE;

	if (words[0] == NULL)
		return command_usage("find takes the words to look for, such "
			"as a name or a label");
	looking.store = guide_open(options, &status);
	if (looking.store == NULL)
		return status;
	looking.arena = arena_new();
	looking.groups = g_ptr_array_new_with_free_func(free_group);
	status = find(&looking, words, options->format);
	g_ptr_array_free(looking.groups, TRUE);
	arena_free(looking.arena);
	store_close(looking.store);
	return status;
}
