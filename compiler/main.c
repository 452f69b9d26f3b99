/*
 * hangtab, a reference-guide compiler. The command line is read in
 * command/options.c, the stages run in command/run.c, and each command is a
 * file of its own in command/.
 */
#include <locale.h>

#include "command/options.h"

int
main(int argc, char **argv)
{
	/* Only how the terminal encodes text: order and numbers never follow. */
	setlocale(LC_CTYPE, "C.UTF-8");
	return options_run(argc, argv);
}
