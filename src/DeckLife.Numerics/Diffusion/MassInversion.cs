namespace DeckLife.Numerics.Diffusion;

/// <summary>Finds the free concentration at which a node's mass, shared by at most two layers, takes a value.</summary>
internal static class MassInversion
{
    /// <summary>u with v1 T1(u) + v2 T2(u) = target.</summary>
    /// <param name="target">The mass.</param>
    /// <param name="firstVolume">v1.</param>
    /// <param name="first">T1.</param>
    /// <param name="secondVolume">v2.</param>
    /// <param name="second">T2.</param>
    /// <param name="start">A first guess.</param>
    internal static double Solve(
        double target,
        double firstVolume,
        Sorption first,
        double secondVolume,
        Sorption second,
        double start
    )
    {
        if (target == 0)
        {
            return 0;
        }

        // From the left of the root Newton climbs to it without passing it: the mass is concave there.
        var size = Math.Abs(target);
        var u = Math.Abs(start);
        if (!(u > 0 && double.IsFinite(u)))
        {
            u = size / ((firstVolume * first.Mobility) + (secondVolume * second.Mobility));
        }

        for (var i = 0; i < 200; i++)
        {
            var mass = (firstVolume * first.Total(u)) + (secondVolume * second.Total(u));
            var slope = (firstVolume * first.Slope(u)) + (secondVolume * second.Slope(u));
            var next = u - ((mass - size) / slope);
            if (!(next > 0))
            {
                next = 0.05 * u;
            }

            var change = Math.Abs(next - u);
            u = next;
            if (change <= 4e-15 * u || u < 1e-280)
            {
                break;
            }
        }

        return Math.CopySign(u, target);
    }
}
