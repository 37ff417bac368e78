/* The floor for the pull-down fit: one pass over the readings that only forms the sums of the normal
   equations at a given pull-down (the same sums as src/science/pull-down/pull-down-pass.ts), nothing fitted.
   Prints the least time of a pass in milliseconds. Usage: one-pass N REPEATS */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

static double seconds(void) {
  struct timespec now;
  clock_gettime(CLOCK_MONOTONIC, &now);
  return now.tv_sec + 1e-9 * now.tv_nsec;
}

static double pass(const double *t, const double *cabinet, const double *ambient, int n, double rate, double onset, double depth,
                   double start, double warming, double sums[10]) {
  double lift = start - ambient[0], fading = 1, time = t[0], air = ambient[0], rss = 0, ff = 0, fr = 0;
  int i = 0;
  for (; i < n && t[i] < onset; i++) {
    if (i > 0) {
      double h = t[i] - time, e = exp(-warming * h);
      lift = e * lift + expm1(-warming * h) / (warming * h) * (ambient[i] - air);
      fading *= e;
      time = t[i];
      air = ambient[i];
    }
    double r = cabinet[i] - air - lift;
    rss += r * r;
    ff += fading * fading;
    fr += fading * r;
  }
  double v = lift + depth, e1 = 1, w1 = 0, last = NAN, e = 1, g = 1, he = 0, c = 0;
  double s1 = 0, sE = 0, sEE = 0, sW = 0, sWE = 0, sWW = 0, sR = 0, sRE = 0, sRW = 0;
  for (; i < n; i++) {
    double h = t[i] - time;
    time = t[i];
    if (!(fabs(h - last) < 1e-12)) {
      last = h;
      e = exp(-rate * h);
      g = h > 0 ? -expm1(-rate * h) / (rate * h) : 1;
      he = h * e;
      c = (g - e) / rate;
    }
    double rise = ambient[i] - air;
    air = ambient[i];
    w1 = e * w1 - he * v + c * rise;
    v = e * v - g * rise;
    e1 *= e;
    double r = cabinet[i] - air - v + depth;
    rss += r * r;
    s1 += 1;
    sE += e1;
    sEE += e1 * e1;
    sW += w1;
    sWE += w1 * e1;
    sWW += w1 * w1;
    sR += r;
    sRE += r * e1;
    sRW += r * w1;
  }
  double all[10] = {s1, sE, sEE, sW, sWE, sWW, sR, sRE, sRW, ff + fr};
  for (int j = 0; j < 10; j++) sums[j] = all[j];
  return rss;
}

int main(int argc, char **argv) {
  if (argc != 3) return 2;
  int n = atoi(argv[1]), repeats = atoi(argv[2]);
  double *t = malloc(n * sizeof *t), *cabinet = malloc(n * sizeof *t), *ambient = malloc(n * sizeof *t);
  double sums[10], kept = 0, least = INFINITY;
  for (int i = 0; i < n; i++) {
    t[i] = 12.0 * i / n;
    ambient[i] = 25 + 3 * sin(t[i] / 4);
    cabinet[i] = t[i] < 0.6 ? ambient[i] : ambient[i] - 27 * (1 - exp(-0.25 * (t[i] - 0.6))) + 0.1 * sin(i * 12.9898);
  }
  for (int k = 0; k < repeats; k++) {
    double from = seconds();
    kept += pass(t, cabinet, ambient, n, 0.25 + 1e-9 * k, 0.6, 27, 25, 0.12, sums);
    least = fmin(least, 1e3 * (seconds() - from));
  }
  fprintf(stderr, "%g %g\n", kept, sums[5]); /* keeps the work from being optimised away */
  printf("%.6f\n", least);
  return 0;
}
