/*
 * The floor of `hangtab check`: read each file named on standard input, one a
 * line, and take libyaml's events over it, doing nothing with them. Prints how
 * many events there were, so that a run that read nothing is seen.
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <yaml.h>

static unsigned long
pass(const unsigned char *bytes, size_t size)
{
	yaml_parser_t parser;
	yaml_event_t event;
	unsigned long count = 0;
	int last = 0;

	if (!yaml_parser_initialize(&parser))
		abort();
	yaml_parser_set_input_string(&parser, bytes, size);
	while (!last && yaml_parser_parse(&parser, &event)) {
		last = event.type == YAML_STREAM_END_EVENT;
		yaml_event_delete(&event);
		count++;
	}
	yaml_parser_delete(&parser);
	return count;
}

static unsigned char *
read_file(const char *path, size_t *size)
{
	FILE *file = fopen(path, "rb");
	unsigned char *bytes;
	long length;

	if (file == NULL || fseek(file, 0, SEEK_END) != 0)
		abort();
	length = ftell(file);
	rewind(file);
	bytes = malloc((size_t)length + 1);
	if (bytes == NULL)
		abort();
	*size = fread(bytes, 1, (size_t)length, file);
	fclose(file);
	return bytes;
}

int
main(void)
{
	char path[4096];
	unsigned long count = 0;

	while (fgets(path, sizeof(path), stdin) != NULL) {
		unsigned char *bytes;
		size_t size;

		path[strcspn(path, "\n")] = '\0';
		bytes = read_file(path, &size);
		count += pass(bytes, size);
		free(bytes);
	}
	printf("%lu events\n", count);
	return 0;
}
