using DeckLife.Numerics.Vectors;

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

    /// <summary>-ln(tail) on one side of a middle, -ln(1 - tail) on the other, in place, without cancellation.</summary>
    /// <param name="place">The side of each: below where not above the middle.</param>
    /// <param name="middle">The middle.</param>
    /// <param name="isTailBelow">Whether -ln(tail) is wanted below.</param>
    /// <param name="tails">From above 0 to 0.5.</param>
    public static void MinusLog(
        ReadOnlySpan<double> place,
        double middle,
        bool isTailBelow,
        Span<double> tails
    )
    {
        Span<double> arguments = stackalloc double[tails.Length];
        for (var i = 0; i < tails.Length; i++)
        {
            arguments[i] = place[i] <= middle == isTailBelow ? tails[i] : 1 - tails[i];
        }

        Span<double> logs = stackalloc double[tails.Length];
        VectorFunctions.Log(arguments, logs);
        for (var i = 0; i < tails.Length; i++)
        {
            // The correction of LogOnePlus(-tail) where 1 - tail was taken.
            var lost = 1 - arguments[i];
            tails[i] =
                place[i] <= middle == isTailBelow ? -logs[i]
                : lost == 0 ? tails[i]
                : -logs[i] * tails[i] / lost;
        }
    }
}
