/* The seven-degree car of this package in C, as a yardstick for its speed.
 *
 * Reads from standard input: how often to run, the step, the time to the end,
 * the time and height of the a_y ramp, and the car as the numbers of struct car
 * in order. Prints the nanoseconds a run takes and the tyre deflections at the
 * end. Build: cc -O2 manoeuvre.c -lm */
#include <math.h>
#include <stdio.h>
#include <string.h>
#include <time.h>

enum { HEAVE, PITCH, ROLL, WHEEL, SPEED = 7, STATES = 14, PIECES = 2, PARTS = 16 };

struct curve { double from[PIECES], force[PIECES], slope[PIECES]; };

struct axle {
	double x, y, mass, spring, tyre, bar, link;
	struct curve bump, rebound;
};

struct car {
	double mass, roll_inertia, pitch_inertia, roll_arm;
	struct axle axle[2];
};

struct ramp { double until, height; };

static int piece(const struct curve *c, double v)
{
	int i = PIECES - 1;
	while (i > 0 && v < c->from[i])
		i--;
	return i;
}

static double at(const struct curve *c, double v)
{
	int i = piece(c, v);
	return c->force[i] + c->slope[i] * (v - c->from[i]);
}

static double damper(const struct axle *a, double v)
{
	return v < 0 ? -at(&a->rebound, -v) : at(&a->bump, v);
}

static int regime(const struct axle *a, double v)
{
	return v < 0 ? -1 - piece(&a->rebound, -v) : piece(&a->bump, v);
}

static void travel(const struct axle *a, const double *x, int left, double *l, double *r)
{
	double body = x[HEAVE] - a->x * x[PITCH], lean = a->y * x[ROLL];
	*l = x[WHEEL + left] - body - lean;
	*r = x[WHEEL + left + 1] - body + lean;
}

static void rate(const struct car *c, double *out, const double *x, double ay)
{
	double up = 0, nose_down = 0, left_up = c->roll_arm * ay;
	memcpy(out, x + SPEED, SPEED * sizeof *out);
	for (int i = 0; i < 2; i++) {
		const struct axle *a = &c->axle[i];
		double l, r, vl, vr;
		travel(a, x, 2 * i, &l, &r);
		travel(a, x + SPEED, 2 * i, &vl, &vr);
		double twist = a->bar * (l - r);
		double left = a->spring * l + damper(a, vl) + twist;
		double right = a->spring * r + damper(a, vr) - twist;
		int w = WHEEL + 2 * i;
		up += left + right;
		nose_down -= a->x * (left + right);
		left_up += a->y * (left - right);
		out[SPEED + w] = (a->link * ay - a->tyre * x[w] - left) / a->mass;
		out[SPEED + w + 1] = (-a->link * ay - a->tyre * x[w + 1] - right) / a->mass;
	}
	out[SPEED + HEAVE] = up / c->mass;
	out[SPEED + PITCH] = nose_down / c->pitch_inertia;
	out[SPEED + ROLL] = left_up / c->roll_inertia;
}

static double lateral(const struct ramp *r, double t)
{
	return t < r->until ? r->height * t / r->until : r->height;
}

static void move(double *out, const double *x, const double *rate, double h)
{
	for (int i = 0; i < STATES; i++)
		out[i] = x[i] + h * rate[i];
}

static void step(const struct car *c, double *x, const struct ramp *r, double t, double h)
{
	double k1[STATES], k2[STATES], k3[STATES], k4[STATES], y[STATES];
	rate(c, k1, x, lateral(r, t));
	move(y, x, k1, h / 2);
	rate(c, k2, y, lateral(r, t + h / 2));
	move(y, x, k2, h / 2);
	rate(c, k3, y, lateral(r, t + h / 2));
	move(y, x, k3, h);
	rate(c, k4, y, lateral(r, t + h));
	for (int i = 0; i < STATES; i++)
		x[i] += h / 6 * (k1[i] + 2 * (k2[i] + k3[i]) + k4[i]);
}

static void regimes(const struct car *c, const double *x, int *found)
{
	for (int i = 0; i < 2; i++) {
		double l, r;
		travel(&c->axle[i], x + SPEED, 2 * i, &l, &r);
		found[2 * i] = regime(&c->axle[i], l);
		found[2 * i + 1] = regime(&c->axle[i], r);
	}
}

static void follow(const struct car *c, double *x, const struct ramp *r, double end, double h)
{
	int steps = (int)(end / h + 0.5);
	for (int i = 0; i < steps; i++) {
		double t = i * h, before[STATES];
		int was[4], is[4];
		memcpy(before, x, sizeof before);
		regimes(c, x, was);
		step(c, x, r, t, h);
		regimes(c, x, is);
		if (!memcmp(was, is, sizeof was))
			continue;
		memcpy(x, before, sizeof before);
		for (int p = 0; p < PARTS; p++)
			step(c, x, r, t + h * p / PARTS, h / PARTS);
	}
}

int main(void)
{
	double runs, h, end;
	struct ramp r;
	struct car c;
	if (scanf("%lf%lf%lf%lf%lf", &runs, &h, &end, &r.until, &r.height) != 5)
		return 1;
	for (double *p = (double *)&c; p < (double *)(&c + 1); p++)
		if (scanf("%lf", p) != 1)
			return 1;

	double x[STATES];
	struct timespec from, to;
	clock_gettime(CLOCK_MONOTONIC, &from);
	for (int i = 0; i < (int)runs; i++) {
		memset(x, 0, sizeof x);
		follow(&c, x, &r, end, h);
	}
	clock_gettime(CLOCK_MONOTONIC, &to);
	printf("%.1f", ((to.tv_sec - from.tv_sec) * 1e9 + (to.tv_nsec - from.tv_nsec)) / runs);
	for (int i = 0; i < 4; i++)
		printf(" %.17g", x[WHEEL + i]);
	printf("\n");
	return 0;
}
