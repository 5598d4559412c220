using DeckLife.Numerics.Vectors;

namespace DeckLife.Numerics.Kernels;

/// <summary>Contents C0 + (Cs - C0) erfc(x / (2 sqrt(s))) of many points, each with parameters of its own, by the widest vectors of the machine.</summary>
/// <remarks>
/// Equation: s = D Years exp(m LogRatio + e), divided by 1 - m for an instantaneous ageing law; m and e are 0 where their columns are absent.
/// Source: Crank, The Mathematics of Diffusion. Accuracy: 1e-14 of the larger of C0 and Cs. Checked by: ClosedFormContentTests.
/// </remarks>
public static unsafe class ClosedFormContent
{
    /// <summary>Computes the contents.</summary>
    /// <param name="depth">Depth x of each point, at least 0.</param>
    /// <param name="coefficient">Diffusion coefficient D of each point, above 0.</param>
    /// <param name="ageing">Ageing exponent m of each point, below 1; empty where none is drawn.</param>
    /// <param name="exponent">Further exponent e of each point; empty for none.</param>
    /// <param name="initial">Initial content C0 of each point.</param>
    /// <param name="surface">Surface content Cs of each point.</param>
    /// <param name="threshold">Threshold of each point; empty for none.</param>
    /// <param name="numbers">What all points have in common.</param>
    /// <param name="result">Receives one content a point, or with a threshold 1 where it is reached and 0 elsewhere; may be one of the columns.</param>
    public static void Fill(
        ReadOnlySpan<double> depth,
        ReadOnlySpan<double> coefficient,
        ReadOnlySpan<double> ageing,
        ReadOnlySpan<double> exponent,
        ReadOnlySpan<double> initial,
        ReadOnlySpan<double> surface,
        ReadOnlySpan<double> threshold,
        in ClosedFormNumbers numbers,
        Span<double> result
    ) =>
        Fill(
            depth,
            coefficient,
            ageing,
            exponent,
            initial,
            surface,
            threshold,
            numbers,
            result,
            VectorWidth.InUse
        );

    internal static void Fill(
        ReadOnlySpan<double> depth,
        ReadOnlySpan<double> coefficient,
        ReadOnlySpan<double> ageing,
        ReadOnlySpan<double> exponent,
        ReadOnlySpan<double> initial,
        ReadOnlySpan<double> surface,
        ReadOnlySpan<double> threshold,
        in ClosedFormNumbers numbers,
        Span<double> result,
        LaneWidth width
    )
    {
        var n = result.Length;
        var whole = n & ~7;
        fixed (
            double* x = depth,
                d = coefficient,
                m = ageing,
                e = exponent,
                a = initial,
                b = surface,
                c = threshold,
                r = result
        )
        {
            Whole(x, d, m, e, a, b, c, r, numbers, whole, width);
            if (whole == n)
            {
                return;
            }

            // The rest in a padded vector, so that each point is computed alike wherever it stands.
            var room = stackalloc double[64];
            new Span<double>(room, 64).Fill(0.5);
            for (var i = whole; i < n; i++)
            {
                var at = i - whole;
                room[at] = x[i];
                room[8 + at] = d[i];
                room[16 + at] = m == null ? 0 : m[i];
                room[24 + at] = e == null ? 0 : e[i];
                room[32 + at] = a[i];
                room[40 + at] = b[i];
                room[56 + at] = c == null ? 0 : c[i];
            }

            Whole(
                room,
                room + 8,
                m == null ? null : room + 16,
                e == null ? null : room + 24,
                room + 32,
                room + 40,
                c == null ? null : room + 56,
                room + 48,
                numbers,
                8,
                width
            );
            for (var i = whole; i < n; i++)
            {
                r[i] = room[48 + i - whole];
            }
        }
    }

    private static void Whole(
        double* depth,
        double* coefficient,
        double* ageing,
        double* exponent,
        double* initial,
        double* surface,
        double* threshold,
        double* result,
        in ClosedFormNumbers numbers,
        int count,
        LaneWidth width
    )
    {
        switch (width)
        {
            case LaneWidth.Eight:
                ClosedFormLanes512.Fill(
                    depth,
                    coefficient,
                    ageing,
                    exponent,
                    initial,
                    surface,
                    threshold,
                    result,
                    numbers,
                    count
                );
                break;
            case LaneWidth.Four:
                ClosedFormLanes256.Fill(
                    depth,
                    coefficient,
                    ageing,
                    exponent,
                    initial,
                    surface,
                    threshold,
                    result,
                    numbers,
                    count
                );
                break;
            default:
                for (var i = 0; i < count; i++)
                {
                    var m = ageing == null ? 0 : ageing[i];
                    var power = (m * numbers.LogRatio) + (exponent == null ? 0 : exponent[i]);
                    var clock = coefficient[i] * numbers.Years * (power == 0 ? 1 : Math.Exp(power));
                    var u =
                        depth[i] * Math.Sqrt(0.25 * (numbers.IsInstantaneous ? 1 - m : 1) / clock);
                    var content = initial[i] + ((surface[i] - initial[i]) * LaneMathScalar.Erfc(u));
                    result[i] =
                        threshold == null ? content
                        : content >= threshold[i] ? 1
                        : 0;
                }

                break;
        }
    }
}
