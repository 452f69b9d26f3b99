/*
 * All pages of the site as one list of tasks, worked off by threads. What a
 * page says never depends on which thread made it or when.
 */
#include "write/site/site.h"

#include <string.h>

#include "study/reckon.h"
#include "write/site/keys.h"
#include "write/site/parts.h"
#include "write/site/points.h"
#include "write/site/record.h"

struct working {
	struct site *site;
	GMutex mutex;
	GError *error;		/* the first */
	gint failed;
};

static void
work(gpointer data, gpointer user_data)
{
	const struct record *record = data;
	struct working *working = user_data;
	GError *error = NULL;

	if (g_atomic_int_get(&working->failed) ||
		record_write(working->site, record, &error))
		return;
	g_atomic_int_set(&working->failed, 1);
	g_mutex_lock(&working->mutex);
	if (working->error == NULL)
		working->error = g_steal_pointer(&error);
	g_mutex_unlock(&working->mutex);
	g_clear_error(&error);
}

static bool
write_records(struct site *site, GError **error)
{
	const struct schema *schema = model_schema(site->model);
	struct working working = {.site = site};
	GThreadPool *pool;
	struct record_list list;
	unsigned i, j;

	g_mutex_init(&working.mutex);
	pool = g_thread_pool_new(work, &working, site->job->jobs, TRUE, NULL);
	for (i = 0; i < schema->count; i++) {
		list = model_records(site->model, &schema->kinds[i]);
		for (j = 0; schema->kinds[i].page && j < list.count; j++)
			g_thread_pool_push(pool,
				(gpointer)(uintptr_t)list.items[j], NULL);
	}
	g_thread_pool_free(pool, FALSE, TRUE);
	g_mutex_clear(&working.mutex);
	if (working.error != NULL)
		g_propagate_error(error, working.error);
	return !working.failed;
}

/*
 * The search without the blanks that lines begin with and without comments
 * that have lines of their own: what is loaded before the first result counts.
 * Its source has no text over several lines.
 */
static void
strip_search(char *bytes, size_t *size)
{
	char **lines = g_strsplit(bytes, "\n", 0);
	GString *out = g_string_new(NULL);
	bool comment = false;
	size_t i;

	for (i = 0; lines[i] != NULL; i++) {
		const char *line = lines[i] + strspn(lines[i], "\t");

		comment |= g_str_has_prefix(line, "/*");
		if (!comment && *line != '\0')
			g_string_append_printf(out, "%s\n", line);
		comment &= !g_str_has_suffix(line, "*/");
	}
	memcpy(bytes, out->str, out->len + 1);
	*size = out->len;
	g_string_free(out, TRUE);
	g_strfreev(lines);
}

/* The style sheet, scripts and pictures, as they are. */
static bool
copy_assets(const struct write_job *job, GError **error)
{
	static const char *const names[] = {"hangtab.css", "narrow.css",
		"narrow-core.js", "narrow.js", "search.js", "tab.svg"};
	bool done = true;
	size_t i, size;

	for (i = 0; done && i < G_N_ELEMENTS(names); i++) {
		char *from = g_build_filename(job->assets, names[i], NULL);
		char *to = g_strconcat("look/", names[i], NULL);
		char *bytes = NULL;

		done = g_file_get_contents(from, &bytes, &size, error);
		if (done && strcmp(names[i], "search.js") == 0)
			strip_search(bytes, &size);
		done = done && output_add(job->out, to, bytes, size, error);
		g_free(bytes);
		g_free(to);
		g_free(from);
	}
	return done;
}

static bool
write_parts(const struct site *site, GError **error)
{
	static part_function *const parts[] = {
		home_write, lists_write, keys_write, narrow_write,
		everything_write, names_write, finder_write,
		glossary_write, words_write, fields_write, messages_write,
		cautions_write, about_write, queries_write, redirects_write,
	};
	size_t i;

	for (i = 0; i < G_N_ELEMENTS(parts); i++)
		if (!parts[i](site, error))
			return false;
	return true;
}

void
site_begin(struct site *site, const struct write_job *job)
{
	*site = (struct site){
		.job = job,
		.model = job->model,
		.seen = job->seen,
		.codes = code_names_new(),
		.arena = arena_new(),
	};
	site->buying = buying_gather(job->model, job->seen, site->arena);
	site->ranks = rank_gather(job->model, job->seen, site->arena);
	site->keys = site_keys_new(job->model, job->seen, site->arena);
	site->unseen = unseen_study(job->model, job->seen,
		reckonings_evidences(job->reckonings), site->arena);
	site_study(site);
	mentions_gather(site);
}

void
site_end(struct site *site)
{
	site_keys_free(site->keys);
	arena_free(site->arena);
	code_names_free((struct code_names *)(uintptr_t)site->codes);
}

bool
site_write(const struct write_job *job, GError **error)
{
	struct site site;
	bool done;

	site_begin(&site, job);
	done = copy_assets(job, error) && write_records(&site, error) &&
		write_parts(&site, error);
	site_end(&site);
	return done;
}
