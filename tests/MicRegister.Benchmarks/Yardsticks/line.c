/* Limit for straight lines with a prediction interval, plain sums in one pass, vectorised by the compiler.
 * gcc -O3 -march=native -ffast-math line.c -o line -lm      use: line FILE DEVICES RESULTS
 * FILE holds little-endian doubles: all times, then all values, then all uncertainties, device after device. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>
static double now(void) { struct timespec t; clock_gettime(CLOCK_MONOTONIC, &t); return t.tv_sec + 1e-9 * t.tv_nsec; }
static int cmp(const void *a, const void *b) { double x = *(double *)a - *(double *)b; return (x > 0) - (x < 0); }
enum { RUNS = 21 };
int main(int argc, char **argv) {
    if (argc < 4) return 2;
    size_t N = atol(argv[2]), K = atol(argv[3]), n = N * K;
    double *t = malloc(8 * n), *y = malloc(8 * n), *u = malloc(8 * n), *out = malloc(8 * 5 * N), took[RUNS], check = 0;
    FILE *f = fopen(argv[1], "rb");
    if (!f || fread(t, 8, n, f) != n || fread(y, 8, n, f) != n || fread(u, 8, n, f) != n) return 1;
    for (int r = 0; r < RUNS; r++) {
        double s0 = now();
        for (size_t d = 0; d < N; d++) {
            const double *T = t + d * K, *Y = y + d * K, *U = u + d * K, y0 = Y[0];
            double sw = 0, st = 0, sy = 0, stt = 0, sty = 0, syy = 0;
            for (size_t k = 0; k < K; k++) {
                double w = 1 / (U[k] * U[k]), z = Y[k] - y0;
                sw += w; st += w * T[k]; sy += w * z; stt += w * T[k] * T[k]; sty += w * T[k] * z; syy += w * z * z;
            }
            double D = sw * stt - st * st, b = (sw * sty - st * sy) / D, a = (sy - b * st) / sw;
            double scale = fmax(1, (syy - a * sy - b * sty) / (K - 2)), x = T[K - 1] + 2, m = st / sw;
            double half = 1.959963984540054 * sqrt(scale * (1 / sw + (x - m) * (x - m) * sw / D) + .0025), at = y0 + a + b * x;
            double *o = out + 5 * d; o[0] = y0 + a; o[1] = b; o[2] = at; o[3] = at - half; o[4] = at + half;
        }
        took[r] = now() - s0;
    }
    for (size_t d = 0; d < N; d++) check += out[5 * d + 1];
    qsort(took, RUNS, 8, cmp);
    printf("%.9f %.9f\n", took[RUNS / 2], check);
    return 0;
}
