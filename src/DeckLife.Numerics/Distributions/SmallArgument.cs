namespace DeckLife.Numerics.Distributions;

/// <summary>exp(x) - 1 and ln(1 + x) without cancellation near 0.</summary>
/// <remarks>Source: Kahan's correction, as in Higham, Accuracy and Stability of Numerical Algorithms (2002), section 1.14.1 (memory).</remarks>
internal static class SmallArgument
{
    public static double ExpMinusOne(double x)
    {
        var u = Math.Exp(x);
        if (u == 1)
        {
            return x;
        }

        var shifted = u - 1;
        return shifted == -1 ? -1
            : double.IsInfinity(u) ? u
            : shifted * x / Math.Log(u);
    }

    public static double LogOnePlus(double x)
    {
        var u = 1 + x;
        return u == 1 ? x : Math.Log(u) * x / (u - 1);
    }
}
