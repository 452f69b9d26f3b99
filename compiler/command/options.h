/*
 * The command line: which command, which options, which words are left.
 */
#ifndef COMMAND_OPTIONS_H
#define COMMAND_OPTIONS_H

#include "command/command.h"

/*
 * Reads the command line and runs the command it names. Returns the exit
 * status. `argv` is used up.
 */
int
options_run(int argc, char **argv);

#endif
