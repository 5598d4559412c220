using DeckLife.Projection;

namespace DeckLife.Tests.Projection;

/// <summary>Solves one section after the other: nodes on surface, interface, bar and bottom, two-stage L-stable steps.</summary>
/// <remarks>
/// Equation: dC/dt = d/dx(D dC/dx) in each layer, content and flux continuous; surface content held, bottom sealed.
/// Each step uses the exact growth of each layer's own clock, so that ageing costs no extra steps.
/// Source: Alexander, SIAM Journal on Numerical Analysis 14 (1977), the two-stage method with γ = 1 − 1/√2 (memory).
/// </remarks>
internal sealed class ScalarSectionSolver : ISectionSolver
{
    private const double Gamma = 0.29289321881345247560;
    private const double Rho = (1 - Gamma) / Gamma;
    private const int UniformIntervals = 14;
    private const int GradedIntervals = 12;
    private const int MostNodes = 3 * UniformIntervals + GradedIntervals + 2;

    /// <inheritdoc/>
    public void Solve(SectionBatch batch, double[] contents)
    {
        var work = new Work();
        for (var i = 0; i < batch.Count; i++)
        {
            SolveOne(batch, i, contents, work);
        }
    }

    private static void SolveOne(SectionBatch batch, int i, double[] contents, Work work)
    {
        var layer = batch.LayerThicknessMm[i];
        var bar = batch.BarDepthMm[i];
        var bottom = layer + batch.OldThicknessMm[i];
        var nodes = work.Build(layer, bar, bottom);
        work.Start(batch, i, nodes);
        var steps = batch.TimesYr.Length;
        contents[i] = work.BarContent;
        for (var k = 1; k < steps; k++)
        {
            work.Step(
                batch.LayerDiffusion[i] * (batch.LayerYears[k] - batch.LayerYears[k - 1]),
                batch.OldDiffusion[i] * (batch.OldYears[k] - batch.OldYears[k - 1]),
                batch.SurfaceChloride[i],
                nodes
            );
            contents[k * batch.Count + i] = work.BarContent;
        }
    }

    private sealed class Work
    {
        private readonly double[] x = new double[MostNodes];
        private readonly double[] content = new double[MostNodes];
        private readonly double[] mass = new double[MostNodes];
        private readonly double[] conductance = new double[MostNodes];
        private readonly double[] stage = new double[MostNodes];
        private readonly double[] ratio = new double[MostNodes];
        private int barNode;
        private int interfaceNode;

        public double BarContent => content[barNode];

        public int Build(double layer, double bar, double bottom)
        {
            var n = 0;
            x[n++] = 0;
            barNode = bar <= 0 ? 0 : -1;
            interfaceNode = layer <= 0 ? 0 : -1;
            var first = Math.Min(layer, bar);
            var second = Math.Max(layer, bar);
            if (first > 0)
            {
                n = Uniform(n, first);
                Mark(first, n - 1, layer, bar);
            }

            if (second > first + 1e-9)
            {
                n = Uniform(n, second);
            }

            Mark(second, n - 1, layer, bar);
            if (bottom > second + 1e-9)
            {
                n = Graded(n, bottom);
            }

            return n;
        }

        public void Start(SectionBatch batch, int i, int n)
        {
            for (var k = 0; k < n; k++)
            {
                mass[k] = 0;
                if (k > 0)
                {
                    mass[k] += 0.5 * (x[k] - x[k - 1]);
                }

                if (k < n - 1)
                {
                    mass[k] += 0.5 * (x[k + 1] - x[k]);
                }

                var below = x[k] - x[interfaceNode];
                var old =
                    batch.Background
                    + (batch.OldSurfaceChloride[i] - batch.Background)
                        * Profile(below + batch.RemovedMm[i], batch.ProfileSpreadMm[i]);
                content[k] =
                    k < interfaceNode ? batch.LayerInitial
                    : k > interfaceNode || interfaceNode == 0 ? old
                    : InterfaceMean(batch.LayerInitial, old, k);
            }

            // The surface takes its content at once; with no layer it had it already.
            content[0] = batch.SurfaceChloride[i];
        }

        public void Step(double layerGrowth, double oldGrowth, double surface, int n)
        {
            for (var k = 0; k < n - 1; k++)
            {
                conductance[k] = (k < interfaceNode ? layerGrowth : oldGrowth) / (x[k + 1] - x[k]);
            }

            Implicit(content, stage, surface, n);
            for (var k = 1; k < n; k++)
            {
                stage[k] = (1 - Rho) * content[k] + Rho * stage[k];
            }

            stage[0] = surface;
            Implicit(stage, content, surface, n);
        }

        private static double Profile(double depth, double spread) =>
            spread > 0 ? MathNet.Numerics.SpecialFunctions.Erfc(depth / spread)
            : depth <= 0 ? 1
            : 0;

        private double InterfaceMean(double above, double below, int k)
        {
            var up = x[k] - x[k - 1];
            var down = k + 1 < x.Length && x[k + 1] > x[k] ? x[k + 1] - x[k] : 0;
            return (above * up + below * down) / (up + down);
        }

        // (M + γK) out = M in, the surface held: Thomas algorithm from the bottom up.
        private void Implicit(double[] given, double[] result, double surface, int n)
        {
            var last = n - 1;
            var diagonal = mass[last] + Gamma * conductance[last - 1];
            ratio[last] = Gamma * conductance[last - 1] / diagonal;
            result[last] = mass[last] * given[last] / diagonal;
            for (var k = last - 1; k >= 1; k--)
            {
                var up = Gamma * conductance[k - 1];
                var down = Gamma * conductance[k];
                diagonal = mass[k] + up + down * (1 - ratio[k + 1]);
                ratio[k] = up / diagonal;
                result[k] = (mass[k] * given[k] + down * result[k + 1]) / diagonal;
            }

            result[0] = surface;
            for (var k = 1; k < n; k++)
            {
                result[k] += ratio[k] * result[k - 1];
            }
        }

        private int Uniform(int n, double end)
        {
            var start = x[n - 1];
            for (var k = 1; k <= UniformIntervals; k++)
            {
                x[n++] = start + (end - start) * k / UniformIntervals;
            }

            return n;
        }

        private int Graded(int n, double end)
        {
            var start = x[n - 1];
            var size = end - start;
            const double Growth = 1.25;
            var scale = (Math.Pow(Growth, GradedIntervals) - 1) / (Growth - 1);
            var at = 0.0;
            for (var k = 0; k < GradedIntervals; k++)
            {
                at += Math.Pow(Growth, k) / scale;
                x[n++] = k == GradedIntervals - 1 ? end : start + size * at;
            }

            return n;
        }

        private void Mark(double depth, int node, double layer, double bar)
        {
            if (barNode < 0 && Math.Abs(depth - bar) < 1e-9)
            {
                barNode = node;
            }

            if (interfaceNode < 0 && Math.Abs(depth - layer) < 1e-9)
            {
                interfaceNode = node;
            }
        }
    }
}
