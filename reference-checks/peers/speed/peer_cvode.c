/* Layered histories by SUNDIALS CVODE (BDF, banded, analytic Jacobian): processor time a history, largest error over the cases.
   Space as in peer_histories.py, and once as fine as brings the error, which the mesh rules, to that of DeckLife. Usage: peer_cvode FOLDER */
#include <cvode/cvode.h>
#include <math.h>
#include <nvector/nvector_serial.h>
#include <stdio.h>
#include <sundials/sundials_version.h>
#include <sunlinsol/sunlinsol_band.h>
#include <sunmatrix/sunmatrix_band.h>
#include <time.h>

enum { CASES = 64, MOST_CELLS = 256, REPEATS = 10 };

/* Cells above the interface, from there to the bar, and below; the last grow by 1.1 a cell of the coarse mesh. */
static int top, gap, deep, cells;

typedef struct {
    double h[MOST_CELLS], mass[MOST_CELLS], p[11];
} section;

static void coefficients(const section *s, double t, double *upper, double *lower)
{
    *upper = s->p[2] * pow(28 / 365.25 / (t + 7 / 365.25), s->p[3]);
    *lower = s->p[4] * pow(28 / 365.25 / (t + 30), s->p[5]);
}

static int change(realtype t, N_Vector state, N_Vector rate, void *user)
{
    const section *s = user;
    const double *c = NV_DATA_S(state);
    double *out = NV_DATA_S(rate), upper, lower;
    coefficients(s, t, &upper, &lower);
    double in = upper / s->h[0] * (s->p[6] - c[0]);
    for (int i = 0; i < cells; i++) {
        double next = i < cells - 1 ? (i + 1 < top ? upper : lower) / s->h[i + 1] * (c[i] - c[i + 1]) : 0;
        out[i] = (in - next) / s->mass[i];
        in = next;
    }
    return 0;
}

static int jacobian(realtype t, N_Vector y, N_Vector fy, SUNMatrix j, void *user, N_Vector a, N_Vector b, N_Vector c)
{
    const section *s = user;
    double upper, lower;
    coefficients(s, t, &upper, &lower);
    for (int i = 0; i < cells; i++) {
        double left = (i < top ? upper : lower) / s->h[i];
        double right = i < cells - 1 ? (i + 1 < top ? upper : lower) / s->h[i + 1] : 0;
        SM_ELEMENT_B(j, i, i) = -(left + right) / s->mass[i];
        if (i > 0) SM_ELEMENT_B(j, i, i - 1) = left / s->mass[i];
        if (i < cells - 1) SM_ELEMENT_B(j, i, i + 1) = right / s->mass[i];
    }
    return 0;
}

static void set_up(section *s, double *c)
{
    double *p = s->p, ratio = pow(1.1, 20.0 / deep), sum = (pow(ratio, deep) - 1) / (ratio - 1), w = 1, x = 0;
    for (int i = 0; i < cells; i++) {
        if (i < top) s->h[i] = p[0] / top;
        else if (i < top + gap) s->h[i] = (p[1] - p[0]) / gap;
        else { s->h[i] = (p[10] - p[1]) * w / sum; w *= ratio; }
    }
    for (int i = 0; i < cells; i++) {
        s->mass[i] = (s->h[i] + (i < cells - 1 ? s->h[i + 1] : 0)) / 2;
        x += s->h[i];
        c[i] = i < top - 1 ? 0 : p[7] * erfc((x - p[0] + p[9]) / (2 * sqrt(p[8])));
    }
    c[top - 1] *= s->h[top] / (s->h[top - 1] + s->h[top]);
}

static FILE *open_in(const char *folder, const char *name)
{
    char path[4096];
    snprintf(path, sizeof path, "%s/%s", folder, name);
    return fopen(path, "r");
}

int main(int argc, char **argv)
{
    static double p[CASES][11], reference[CASES][60];
    FILE *sections = open_in(argv[1], "sections.csv"), *values = open_in(argv[1], "reference.csv");
    for (int i = 0; i < CASES; i++) {
        for (int j = 0; j < 11; j++) if (fscanf(sections, "%lf,", &p[i][j]) != 1) return 1;
        for (int j = 0; j < 60; j++) if (fscanf(values, "%lf,", &reference[i][j]) != 1) return 1;
    }
    SUNContext context;
    SUNContext_Create(NULL, &context);
    struct { double tolerance; int top, gap, deep; const char *mesh; } runs[] = {
        {1e-3, 24, 18, 20, ""}, {3e-4, 24, 18, 20, ""}, {1e-4, 24, 18, 20, ""}, {3e-4, 36, 27, 30, ", mesh 1.5 times as fine"}};
    for (int q = 0; q < 4; q++) {
        double tolerance = runs[q].tolerance;
        top = runs[q].top, gap = runs[q].gap, deep = runs[q].deep, cells = top + gap + deep;
        double worst = 0;
        clock_t start = clock();
        for (int k = 0; k < REPEATS; k++)
            for (int i = 0; i < CASES; i++) {
                section s;
                for (int j = 0; j < 11; j++) s.p[j] = p[i][j];
                N_Vector y = N_VNew_Serial(cells, context);
                double *c = NV_DATA_S(y), t;
                set_up(&s, c);
                void *memory = CVodeCreate(CV_BDF, context);
                CVodeInit(memory, change, 0, y);
                CVodeSStolerances(memory, tolerance, tolerance * 0.1);
                CVodeSetUserData(memory, &s);
                SUNMatrix a = SUNBandMatrix(cells, 1, 1, context);
                SUNLinearSolver solver = SUNLinSol_Band(y, a, context);
                CVodeSetLinearSolver(memory, solver, a);
                CVodeSetJacFn(memory, jacobian);
                CVodeSetMaxNumSteps(memory, 5000);
                for (int year = 1; year <= 60; year++) {
                    CVode(memory, year, y, &t, CV_NORMAL);
                    double e = fabs(c[top + gap - 1] - reference[i][year - 1]) / fmax(s.p[6], s.p[7]);
                    if (e > worst) worst = e;
                }
                CVodeFree(&memory);
                SUNLinSolFree(solver);
                SUNMatDestroy(a);
                N_VDestroy(y);
            }
        double seconds = (double)(clock() - start) / CLOCKS_PER_SEC / (REPEATS * CASES);
        printf("peer|SUNDIALS CVODE (C), rtol %g%s, one history|%.6g|%.3g|us\n", tolerance, runs[q].mesh, seconds * 1e6, worst);
    }
    printf("peer|versions CVODE|SUNDIALS %s||\n", SUNDIALS_VERSION);
    return 0;
}
