/*
 * hangtab tidy --upgrade: a corpus of an older format brought up to the one
 * that this compiler reads.
 */
#ifndef COMMAND_UPGRADE_H
#define COMMAND_UPGRADE_H

#include "command/command.h"

/*
 * Upgrades the corpus that the options name, step by step, or with `dry` only
 * says what there is to do. Prints what it does; returns an exit status.
 */
int
upgrade_corpus(const struct options *options, bool dry);

#endif
