namespace DeckLife.Numerics.Tests.Diffusion;

/// <summary>
/// Oracle: equal cell-centred volumes, harmonic resistances between them, backward Euler for the first steps after a
/// change and Crank-Nicolson from then on, in steps that grow slowly, with the coefficient of each step's middle.
/// Another discretisation in space and time than the solver under test, and no clocks.
/// </summary>
internal sealed class FineVolumes(
    double width,
    int count,
    double stepShare,
    Func<double, double> coefficient
)
{
    private Func<double, double>[] _laws = [coefficient];
    private int[] _owner = new int[count];

    public double[] Contents { get; private set; } = new double[count];

    /// <summary>Takes volumes off the top and puts empty ones of another law on.</summary>
    public void Replace(int removed, int placed, Func<double, double> law)
    {
        Contents = [.. new double[placed], .. Contents.Skip(removed)];
        _owner = [.. Enumerable.Repeat(_laws.Length, placed), .. _owner.Skip(removed)];
        _laws = [.. _laws, law];
    }

    /// <summary>Advances under a constant surface content, bottom sealed.</summary>
    public void Advance(double from, double to, double surface)
    {
        var time = from;
        var n = 0;
        while (time < to)
        {
            // A share of the time since the change; of six hours at first.
            var step = Math.Min(to - time, Math.Max(7e-4 * stepShare, stepShare * (time - from)));
            Step(time, step, surface, n++ < 12 ? 1 : 0.5);
            time += step;
            if (to - time < 1e-12)
            {
                break;
            }
        }
    }

    private void Step(double time, double step, double surface, double implicitness)
    {
        var n = Contents.Length;
        var d = _laws.Select(law => law(time + (0.5 * step))).ToArray();
        var exchange = new double[n + 1];
        exchange[0] = 2 * d[_owner[0]] / width;
        for (var k = 1; k < n; k++)
        {
            var (a, b) = (d[_owner[k - 1]], d[_owner[k]]);
            exchange[k] = 2 * a * b / (a + b) / width;
        }

        var scale = step / width;
        var right = new double[n];
        var upper = new double[n];
        double previous = 0;
        for (var k = 0; k < n; k++)
        {
            var above = k == 0 ? surface : Contents[k - 1];
            var below = k == n - 1 ? Contents[k] : Contents[k + 1];
            var (up, down) = (scale * exchange[k], k == n - 1 ? 0 : scale * exchange[k + 1]);
            var explicitPart = (up * (above - Contents[k])) + (down * (below - Contents[k]));
            var source =
                Contents[k]
                + ((1 - implicitness) * explicitPart)
                + (k == 0 ? implicitness * up * surface : 0);
            var lower = k == 0 ? 0 : implicitness * up;
            var pivot = 1 + (implicitness * (up + down)) - (k == 0 ? 0 : lower * upper[k - 1]);
            previous = (source + (lower * previous)) / pivot;
            right[k] = previous;
            upper[k] = implicitness * down / pivot;
        }

        for (var k = n - 2; k >= 0; k--)
        {
            right[k] += upper[k] * right[k + 1];
        }

        Contents = right;
    }
}
