/* One kiln case, solved with SUNDIALS CVODE as it is usually set up: BDF,
 * dense Newton matrix, Jacobian by differences. It reads nothing. It is the
 * other side of a timing, written apart from the Go code and sharing none of
 * its tables or schemes, so that equal end moistures mean something.
 *
 *   kiln RTOL RUNS HOUSE LU
 *
 * LU library: SUNDIALS factors the Newton matrix. LU ours: the factorisation
 * below does, compiled with the optimisation of this file. Debian builds its
 * SUNDIALS without optimisation, and a timing against that alone would flatter
 * whoever is set beside it.
 *
 * It prints for each run: end moisture of the mean, bottom and top (% wet basis),
 * break (h), heat (MJ/m2), calls of the rates, milliseconds. With RUNS 0 it
 * solves once and prints instead the moisture of every cell, bottom first, at
 * every tenth of an hour.
 *
 * HOUSE plain: the heat of sorption enters as a rate only, so that the heat
 * capacity is that of grain and water, and the water of the air-on follows the
 * mixed air late by lag_s. HOUSE awn: the enthalpy of grain is a function of
 * temperature and moisture alone, which adds a term to the heat capacity, and
 * the mixed air is on at once. In both the return air is late by lag_s.
 *
 * Per unit area, z upwards, G kg dry air/(m2 s), M kg water/kg dry matter:
 *   G dW/dz = rho R                        water into the air
 *   G dh/dz = -(enthalpy rate of the bed)  and its heat
 *   dM/dt = -R
 * R is the series of what the corn gives up and what the film carries off.
 */
#include <cvode/cvode.h>
#include <math.h>
#include <nvector/nvector_serial.h>
#include <stdio.h>
#include <stdlib.h>
#include <sundials/sundials_types.h>
#include <sunlinsol/sunlinsol_dense.h>
#include <sunmatrix/sunmatrix_dense.h>
#include <string.h>
#include <time.h>
#ifdef __SSE2__
#include <immintrin.h>
#endif

#define CELLS 60
/* The state: M by cell, grain temperature by cell, then the four below. The
 * air that goes back to the kiln is late by lag_s in its heat and its water. */
#define STATES (2 * CELLS + 4)
#define BACK_H (2 * CELLS)
#define BACK_W (2 * CELLS + 1)
#define ON_W (2 * CELLS + 2)
#define HEAT (2 * CELLS + 3)

/* The bed and the house of the case. */
static const double depth_m = 1.0, dry_kg_m3 = 330, start_m = 0.8182, start_c = 18;
static const double ambient_c = 10, ambient_rh = 0.80, p_pa = 101325, lag_s = 60, hours = 19;

/* Moist air and grain, J, kg, K. */
static const double ca = 1006, cv = 1860, cw = 4186, cd = 1300, latent_0 = 2.501e6, ratio = 0.621945;
static const double sorption = 0.5904, sorption_m = 13.67;

typedef struct { double x, y; } point;
static const point on_c[] = {{0, 50}, {1, 55}, {4, 55}, {5, 60}, {8.5, 60}, {9.5, 65}, {11, 68}, {13.5, 82},
                             {14, 84}, {18, 84}, {18.25, 10}, {19, 10}};
static const point flow[] = {{0, .50}, {8.5, .50}, {9.5, .38}, {11, .33}, {14, .28}, {18, .28}, {18.25, .45}, {19, .45}};
static const point back[] = {{0, 0}, {9, 0}, {10, .20}, {11, .45}, {14, .75}, {18, .75}, {18.1, 0}, {19, 0}};
/* Where any of the three bends: the solver is not led across a corner. */
static const double corners_h[] = {1, 4, 5, 8.5, 9, 9.5, 10, 11, 13.5, 14, 18, 18.1, 18.25, 19};
#define COUNT(a) (sizeof(a) / sizeof((a)[0]))
#define AT(curve, h) at(curve, COUNT(curve), h)

static double at(const point *c, size_t n, double h) {
  for (size_t i = 1; i < n; i++)
    if (h <= c[i].x) return c[i - 1].y + (c[i].y - c[i - 1].y) * (h - c[i - 1].x) / (c[i].x - c[i - 1].x);
  return c[n - 1].y;
}

/* ASHRAE 2017, ch. 1, eq. 6. */
static double saturation_pa(double t) {
  double k = t + 273.15;
  return exp(-5.8002206e3 / k + 1.3914993 + k * (-4.8640239e-2 + k * (4.1764768e-5 + k * -1.4452093e-8)) +
             6.5459673 * log(k));
}
/* The vapour pressure never passes 0.98 of the total, so that hot air keeps a finite ratio. */
static double ratio_at(double e) { e = fmin(e, 0.98 * p_pa); return ratio * e / (p_pa - e); }
static double vapour_pa(double w) { return p_pa * w / (ratio + w); }
static double enthalpy(double t, double w) { return ca * t + w * (latent_0 + cv * t); }
static double latent(double t) { return latent_0 - 2326 * t; }

/* Malt in equilibrium with air: GAB, López et al. 1997. */
typedef struct { double ab, b, c; } gab;
static gab gab_at(double t) {
  double k = t + 273.15;
  gab g = {0, exp(943.854 / k), exp(-28.639 / k)};
  g.ab = 0.01183 * exp(469.017 / k) * g.b;
  return g;
}
static double moisture_over(gab g, double rh) {
  double x = g.c * rh;
  return g.ab * x / ((1 - x) * (1 + (g.b - 1) * x));
}
static double humidity_over(gab g, double m) {
  double q = g.ab / m - g.b + 2, d = g.b - 1;
  double x = (sqrt(q * q + 4 * d) - q) / (2 * d);
  return fmin(x / g.c, 1);
}

/* Rate constant of a thin layer, 1/s: fast while wet, slow while dry, blended between. */
static double thin_layer(double t, double m) {
  double k = t + 273.15, x = fmin(fmax((m - 0.10) / 0.30, 0), 1), s = x * x * (3 - 2 * x);
  double fast = log(139.3) - 4426 / k, slow = log(311.6) - 5108.445 / k;
  return fmin(1, m / 0.12) * exp(s * fast + (1 - s) * slow);
}

typedef struct { double t, w; } air;

/* One cell: what the air does to the grain and the grain to the air. */
static air cell(air in, double g, double h_a, double m, double tg, int state_only, double *dm, double *dt) {
  const double dz = depth_m / CELLS, dry = dry_kg_m3 * dz;
  double ps = saturation_pa(tg), sat = ratio_at(ps);
  double ef = -expm1(-h_a * dz / (g * (ca + cv * in.w)));
  gab e = gab_at(tg);

  double rh = fmin(vapour_pa(in.w) / ps, 0.999);
  double inner = thin_layer(tg, m) * (m - moisture_over(e, rh));
  double film = g * (ratio_at(humidity_over(e, m) * ps) - fmin(in.w, sat)) * ef / dry;
  double r = inner * film > 0 ? inner * film / (inner + film) : 0;
  if (in.w > sat) r += g * (sat - in.w) * ef / dry; /* dew on cold grain */

  air out = {tg + (in.t - tg) * (1 - ef), in.w + dry * r / g};
  out.t = ((ca + cv * in.w) * out.t + cv * (out.w - in.w) * tg) / (ca + cv * out.w);

  double ps_out = saturation_pa(out.t), limit = ratio_at(ps_out);
  if (out.w > limit) { /* fog, which falls on the grain */
    double k = out.t + 273.15, c = ca + cv * out.w;
    double dps = ps_out * (5.8002206e3 / (k * k) - 4.8640239e-2 + k * (8.3529536e-5 - k * 4.3356279e-8) + 6.5459673 / k);
    double slope = ratio * p_pa * dps / ((p_pa - ps_out) * (p_pa - ps_out));
    double drop = (out.w - limit) / (1 + latent(out.t) / c * slope);
    out.t += drop * latent(out.t) / c;
    out.w -= drop;
    r -= g * drop / dry;
  }

  double bound = sorption * exp(-sorption_m * m); /* extra heat of evaporation, as a share of latent heat */
  double capacity = cd + cw * m;
  if (state_only) capacity += 2326 * (sorption - bound) / sorption_m;
  *dm = -r;
  *dt = (g * (enthalpy(in.t, in.w) - enthalpy(out.t, out.w)) / dry + r * (cw * tg - latent(tg) * bound)) / capacity;
  return out;
}

typedef struct { int awn; long calls; air off; } run;

static int rates(realtype t, N_Vector y, N_Vector ydot, void *user) {
  run *u = user;
  const double *s = N_VGetArrayPointer(y);
  double *d = N_VGetArrayPointer(ydot);
  double h = t / 3600, g = AT(flow, h), f = AT(back, h);
  double w_amb = ratio_at(ambient_rh * saturation_pa(ambient_c));
  double h_mix = (1 - f) * enthalpy(ambient_c, w_amb) + f * s[BACK_H], w_mix = (1 - f) * w_amb + f * s[BACK_W];
  air a = {AT(on_c, h), u->awn ? w_mix : s[ON_W]};
  d[ON_W] = (w_mix - s[ON_W]) / lag_s;
  d[HEAT] = 1e-6 * g * fmax(enthalpy(a.t, a.w) - h_mix, 0);
  double h_a = 49.32e3 * pow(g, 0.6906);
  for (int i = 0; i < CELLS; i++) a = cell(a, g, h_a, s[i], s[CELLS + i], u->awn, &d[i], &d[CELLS + i]);
  d[BACK_H] = (enthalpy(a.t, a.w) - s[BACK_H]) / lag_s;
  d[BACK_W] = (a.w - s[BACK_W]) / lag_s;
  u->off = a;
  u->calls++;
  return 0;
}

/* Dense factors with partial pivoting, column by column in place. */
typedef struct { double *a; long pivot[STATES]; } factors;

static SUNLinearSolver_Type lu_type(SUNLinearSolver s) { (void)s; return SUNLINEARSOLVER_DIRECT; }

static int lu_setup(SUNLinearSolver s, SUNMatrix J) {
  factors *f = s->content;
  double *restrict a = f->a = SUNDenseMatrix_Data(J);
  for (int k = 0; k < STATES; k++) {
    double *restrict col = a + (size_t)k * STATES;
    int p = k;
    for (int i = k + 1; i < STATES; i++) if (fabs(col[i]) > fabs(col[p])) p = i;
    f->pivot[k] = p;
    if (col[p] == 0) return 1;
    for (int j = 0; j < STATES && p != k; j++) {
      double swap = a[(size_t)j * STATES + p];
      a[(size_t)j * STATES + p] = a[(size_t)j * STATES + k];
      a[(size_t)j * STATES + k] = swap;
    }
    for (int i = k + 1; i < STATES; i++) col[i] /= col[k];
    for (int j = k + 1; j < STATES; j++) {
      double *restrict right = a + (size_t)j * STATES, x = right[k];
      if (x != 0) for (int i = k + 1; i < STATES; i++) right[i] -= x * col[i];
    }
  }
  return 0;
}

static int lu_solve(SUNLinearSolver s, SUNMatrix J, N_Vector xv, N_Vector bv, realtype tol) {
  (void)J; (void)tol;
  factors *f = s->content;
  double *restrict x = N_VGetArrayPointer(xv);
  memcpy(x, N_VGetArrayPointer(bv), STATES * sizeof *x);
  for (int k = 0; k < STATES; k++) { double swap = x[k]; x[k] = x[f->pivot[k]]; x[f->pivot[k]] = swap; }
  for (int k = 0; k < STATES; k++)
    for (int i = k + 1; i < STATES; i++) x[i] -= x[k] * f->a[(size_t)k * STATES + i];
  for (int k = STATES - 1; k >= 0; k--) {
    x[k] /= f->a[(size_t)k * STATES + k];
    for (int i = 0; i < k; i++) x[i] -= x[k] * f->a[(size_t)k * STATES + i];
  }
  return 0;
}

static SUNLinearSolver lu_ours(factors *f, SUNContext ctx) {
  SUNLinearSolver s = SUNLinSolNewEmpty(ctx);
  s->content = f;
  s->ops->gettype = lu_type;
  s->ops->setup = lu_setup;
  s->ops->solve = lu_solve;
  return s;
}

typedef struct { double mean, bottom, top, break_h, heat_mj, ms; long calls; } answer;

static double percent_wb(double m) { return 100 * m / (1 + m); }

static void must(int flag, const char *what) {
  if (flag < 0) { fprintf(stderr, "%s: CVODE says %d\n", what, flag); exit(1); }
}

static double now_ms(void) {
  struct timespec ts;
  clock_gettime(CLOCK_MONOTONIC, &ts);
  return ts.tv_sec * 1e3 + ts.tv_nsec * 1e-6;
}

static answer solve(double rtol, int awn, int ours, int trace) {
  double begun = now_ms();
  run u = {awn, 0, {0, 0}};
  SUNContext ctx;
  must(SUNContext_Create(NULL, &ctx), "context");
  N_Vector y = N_VNew_Serial(STATES, ctx), tol = N_VNew_Serial(STATES, ctx), dy = N_VNew_Serial(STATES, ctx);
  double *s = N_VGetArrayPointer(y), *a = N_VGetArrayPointer(tol);
  double w_amb = ratio_at(ambient_rh * saturation_pa(ambient_c));
  for (int i = 0; i < CELLS; i++) {
    s[i] = start_m; a[i] = rtol / 100;
    s[CELLS + i] = start_c; a[CELLS + i] = rtol;
  }
  s[BACK_H] = enthalpy(ambient_c, w_amb); a[BACK_H] = 1e3 * rtol;
  s[BACK_W] = s[ON_W] = w_amb; a[BACK_W] = a[ON_W] = rtol / 1000;
  s[HEAT] = 0; a[HEAT] = 10 * rtol;

  void *mem = CVodeCreate(CV_BDF, ctx);
  must(CVodeInit(mem, rates, 0, y), "init");
  must(CVodeSVtolerances(mem, rtol, tol), "tolerances");
  must(CVodeSetUserData(mem, &u), "data");
  must(CVodeSetMaxNumSteps(mem, 1000000), "steps");
  SUNMatrix J = SUNDenseMatrix(STATES, STATES, ctx);
  factors lu;
  SUNLinearSolver ls = ours ? lu_ours(&lu, ctx) : SUNLinSol_Dense(y, J, ctx);
  must(CVodeSetLinearSolver(mem, ls, J), "linear solver");

  answer r = {0};
  double t = 0, last_rh = 1;
  size_t corner = 0;
  must(CVodeSetStopTime(mem, corners_h[corner] * 3600), "stop time");
  for (int i = 1; i <= (int)lround(hours * 10); i++) {
    double to = i * 360.0;
    while (t < to - 1e-6) {
      int flag = CVode(mem, to, y, &t, CV_NORMAL);
      must(flag, "step");
      if (flag == CV_TSTOP_RETURN && corner + 1 < COUNT(corners_h))
        must(CVodeSetStopTime(mem, corners_h[++corner] * 3600), "stop time");
    }
    rates(t, y, dy, &u); /* the air off the bed at this hour */
    double rh = vapour_pa(u.off.w) / saturation_pa(u.off.t);
    if (r.break_h == 0 && rh < 0.85 && last_rh >= 0.85) r.break_h = (i - 1 + (last_rh - 0.85) / (last_rh - rh)) / 10;
    last_rh = rh;
    for (int j = 0; trace && j < CELLS; j++) printf(j + 1 < CELLS ? "%.6f " : "%.6f\n", percent_wb(s[j]));
  }
  double sum = 0;
  for (int i = 0; i < CELLS; i++) sum += s[i];
  r.mean = percent_wb(sum / CELLS);
  r.bottom = percent_wb(s[0]);
  r.top = percent_wb(s[CELLS - 1]);
  r.heat_mj = s[HEAT];
  r.calls = u.calls;

  CVodeFree(&mem);
  if (ours) SUNLinSolFreeEmpty(ls); else SUNLinSolFree(ls);
  SUNMatDestroy(J);
  N_VDestroy(y);
  N_VDestroy(tol);
  N_VDestroy(dy);
  SUNContext_Free(&ctx);
  r.ms = now_ms() - begun;
  return r;
}

int main(int argc, char **argv) {
  if (argc != 5) { fprintf(stderr, "usage: kiln RTOL RUNS HOUSE LU\n"); return 2; }
#ifdef __SSE2__
  _mm_setcsr(_mm_getcsr() | 0x8040); /* numbers too small to matter count as 0; they make the factorisation slow */
#endif
  double rtol = atof(argv[1]);
  int runs = atoi(argv[2]), awn = strcmp(argv[3], "awn") == 0, ours = strcmp(argv[4], "ours") == 0;
  if (runs == 0) solve(rtol, awn, ours, 1);
  for (int i = 0; i < runs; i++) {
    answer r = solve(rtol, awn, ours, 0);
    printf("%.6f %.6f %.6f %.6f %.6f %ld %.4f\n", r.mean, r.bottom, r.top, r.break_h, r.heat_mj, r.calls, r.ms);
  }
  return 0;
}
