using DeckLife.Numerics.Vectors;

namespace DeckLife.Numerics.Kernels;

/// <summary>Whether the content of a <see cref="LimitStateModel"/> has reached the threshold by a time, for many points at once.</summary>
/// <remarks>
/// Equation: erfc z ≥ Ct/Cs, compared as exp(z²) erfc z ≥ exp(z² + ln Ct - ln Cs), so that no lognormal variable is ever written out.
/// Accuracy: functions to 1e-10, which a count cannot tell from exact ones. Checked by: ConditionalEstimatorTests, SectionScoresTests.
/// </remarks>
public sealed unsafe class LimitStateIndicator
{
    private readonly LimitStateNumbers _numbers;
    private readonly LaneWidth _width;

    /// <summary>An indicator of one model at one time.</summary>
    /// <param name="model">The random variables; a standard deviation of 0 fixes one.</param>
    /// <param name="timeYr">The time [yr], above 0.</param>
    /// <param name="width">The vectors to use; by default the widest that the machine has.</param>
    /// <exception cref="ArgumentException">The model's numbers are outside their ranges.</exception>
    public LimitStateIndicator(LimitStateModel model, double timeYr, LaneWidth? width = null)
    {
        ArgumentNullException.ThrowIfNull(model);
        if (!(timeYr > 0 && double.IsFinite(timeYr)))
        {
            throw new ArgumentOutOfRangeException(
                nameof(timeYr),
                timeYr,
                "Times above 0 yr are needed."
            );
        }

        model.Check();
        _numbers = new(model, timeYr);
        _width = width ?? VectorWidth.InUse;
    }

    /// <summary>Tells for each point, given its variables as standard normal scores.</summary>
    /// <param name="depth">Scores of the depth.</param>
    /// <param name="diffusion">Scores of ln Dref.</param>
    /// <param name="ageing">Scores of m.</param>
    /// <param name="surface">Scores of ln Cs.</param>
    /// <param name="threshold">Scores of the threshold's logarithm.</param>
    /// <param name="result">Receives 1 where the threshold is reached, 0 elsewhere; none of the columns.</param>
    public void Fill(
        ReadOnlySpan<double> depth,
        ReadOnlySpan<double> diffusion,
        ReadOnlySpan<double> ageing,
        ReadOnlySpan<double> surface,
        ReadOnlySpan<double> threshold,
        Span<double> result
    )
    {
        var n = result.Length;
        var whole = n & ~7;
        fixed (
            double* x = depth[..n],
                d = diffusion[..n],
                m = ageing[..n],
                s = surface[..n],
                t = threshold[..n],
                r = result
        )
        {
            Whole(x, d, m, s, t, r, whole);
            if (whole == n)
            {
                return;
            }

            // The rest in a padded vector, so that each point is computed alike wherever it stands.
            var room = stackalloc double[48];
            new Span<double>(room, 48).Clear();
            for (var i = whole; i < n; i++)
            {
                var at = i - whole;
                room[at] = x[i];
                room[8 + at] = d[i];
                room[16 + at] = m[i];
                room[24 + at] = s[i];
                room[32 + at] = t[i];
            }

            Whole(room, room + 8, room + 16, room + 24, room + 32, room + 40, 8);
            for (var i = whole; i < n; i++)
            {
                r[i] = room[40 + i - whole];
            }
        }
    }

    private void Whole(
        double* depth,
        double* diffusion,
        double* ageing,
        double* surface,
        double* threshold,
        double* result,
        int count
    )
    {
        switch (_width)
        {
            case LaneWidth.Eight:
                LimitStateLanes512.Indicator(
                    _numbers,
                    depth,
                    diffusion,
                    ageing,
                    surface,
                    threshold,
                    result,
                    count
                );
                break;
            case LaneWidth.Four:
                LimitStateLanes256.Indicator(
                    _numbers,
                    depth,
                    diffusion,
                    ageing,
                    surface,
                    threshold,
                    result,
                    count
                );
                break;
            default:
                LimitStateScalar.Indicator(
                    _numbers,
                    depth,
                    diffusion,
                    ageing,
                    surface,
                    threshold,
                    result,
                    count
                );
                break;
        }
    }
}
