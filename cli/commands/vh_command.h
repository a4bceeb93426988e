/* vh_command.h - the commands; each prints its answer and says how the program ends. */
#ifndef VH_COMMAND_H
#define VH_COMMAND_H

#include "vh_arguments.h"

enum vh_exit vh_command_check(const struct vh_arguments *a);
enum vh_exit vh_command_compare(const struct vh_arguments *a);
enum vh_exit vh_command_explain(const struct vh_arguments *a);
enum vh_exit vh_command_forecast(const struct vh_arguments *a);
enum vh_exit vh_command_help(void);
enum vh_exit vh_command_houses(const struct vh_arguments *a);
enum vh_exit vh_command_learn(const struct vh_arguments *a);
enum vh_exit vh_command_note(const struct vh_arguments *a);
enum vh_exit vh_command_start(const struct vh_arguments *a);
enum vh_exit vh_command_week(const struct vh_arguments *a);
enum vh_exit vh_command_version(void);

#endif
