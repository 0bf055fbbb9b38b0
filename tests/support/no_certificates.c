/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Criterion starts a process for each test, and in each one a library that it needs only to show
 * differences of texts reads every certificate of the system, a third of what the process costs.
 * This function takes the place of the one that reads them: no test opens a connection. */
int mbedtls_x509_crt_parse_file(void *chain, const char *path);

int mbedtls_x509_crt_parse_file(void *chain, const char *path)
{
    (void)chain;
    (void)path;
    return 0;
}
