/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <gsl/gsl_errno.h>

/* GSL's default handler aborts; the program switches it off in main, the tests here. */
__attribute__((constructor)) static void switch_gsl_handler_off(void)
{
    gsl_set_error_handler_off();
}
