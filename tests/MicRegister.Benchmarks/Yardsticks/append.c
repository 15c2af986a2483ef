/* Limit for a durable write: append SIZE bytes and fdatasync, one after the other.   use: append FILE SIZE COUNT */
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>
static double now(void) { struct timespec t; clock_gettime(CLOCK_MONOTONIC, &t); return t.tv_sec + 1e-9 * t.tv_nsec; }
static int cmp(const void *a, const void *b) { double x = *(double *)a - *(double *)b; return (x > 0) - (x < 0); }
int main(int argc, char **argv) {
    if (argc < 4) return 2;
    int size = atoi(argv[2]), n = atoi(argv[3]), f = open(argv[1], O_CREAT | O_TRUNC | O_WRONLY | O_APPEND, 0644);
    char *b = malloc(size); double *took = malloc(8 * n); memset(b, 'x', size);
    for (int i = 0; i < n; i++) { double s = now(); if (write(f, b, size) != size || fdatasync(f)) return 1; took[i] = now() - s; }
    qsort(took, n, 8, cmp);
    printf("%.9f\n", took[n / 2]);
    return 0;
}
