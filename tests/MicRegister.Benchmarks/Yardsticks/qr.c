/* Codes by libqrencode, each text of a file once a round.  use: qr FILE ROUNDS
   Prints seconds a round (median of the rounds) and the number of dark modules of one round. */
#include <qrencode.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

static int by_size(const void *a, const void *b) { double x = *(double *)a, y = *(double *)b; return (x > y) - (x < y); }

int main(int count, char **args) {
    static char text[5000][64];
    int texts = 0, rounds = count > 2 ? atoi(args[2]) : 1;
    FILE *file = fopen(args[1], "r");
    while (file && texts < 5000 && fgets(text[texts], 64, file)) { text[texts][strcspn(text[texts], "\n")] = 0; texts++; }
    double *took = malloc(rounds * sizeof *took);
    long dark = 0;
    for (int r = 0; r < rounds; r++) {
        struct timespec a, b;
        clock_gettime(CLOCK_MONOTONIC, &a);
        dark = 0;
        for (int i = 0; i < texts; i++) {
            QRcode *q = QRcode_encodeString(text[i], 0, QR_ECLEVEL_M, QR_MODE_8, 1);
            for (int m = 0; m < q->width * q->width; m++) dark += q->data[m] & 1;
            QRcode_free(q);
        }
        clock_gettime(CLOCK_MONOTONIC, &b);
        took[r] = (b.tv_sec - a.tv_sec) + 1e-9 * (b.tv_nsec - a.tv_nsec);
    }
    qsort(took, rounds, sizeof *took, by_size);
    printf("%.9f %ld %d\n", took[rounds / 2], dark, texts);
    return 0;
}
