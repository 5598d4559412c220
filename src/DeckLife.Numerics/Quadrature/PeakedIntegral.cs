namespace DeckLife.Numerics.Quadrature;

/// <summary>Integrals over [0, end] whose integrand has a peak of known place and width.</summary>
internal static class PeakedIntegral
{
    /// <summary>∫ f over [0, end], split at the peak and at 1, 3, 6 and 10 widths beside it.</summary>
    /// <param name="integrand">f.</param>
    /// <param name="peak">Where the peak stands.</param>
    /// <param name="width">Its width.</param>
    /// <param name="end">Upper end.</param>
    /// <param name="breaks">Where f jumps or has a kink; none if absent.</param>
    internal static double Integrate(
        Func<double, double> integrand,
        double peak,
        double width,
        double end,
        IReadOnlyList<double>? breaks = null
    )
    {
        double[] steps = [-10, -6, -3, -1, 0, 1, 3, 6, 10];
        double sum = 0;
        double from = 0;
        foreach (
            var point in steps
                .Select(step => peak + (step * width))
                .Concat(breaks ?? [])
                .Append(double.PositiveInfinity)
                .Order()
        )
        {
            var to = Math.Min(end, point);
            if (to > from)
            {
                sum += GaussLegendre.Sixteen.IntegrateAdaptively(integrand, from, to, 1e-14);
                from = to;
            }
        }

        return sum;
    }
}
