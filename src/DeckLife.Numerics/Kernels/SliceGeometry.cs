using DeckLife.Numerics.Vectors;

namespace DeckLife.Numerics.Kernels;

/// <summary>The slices that a batch of profiles shares: their edges, weights, and the shares of a unit profile on the search grid.</summary>
internal sealed class SliceGeometry
{
    /// <summary>Points of the search grid over ln L.</summary>
    public const int GridPoints = 40;

    /// <summary>
    /// A step of the search in ln L that is by a secant, within the bracket and no longer than this ends it: what is left is of the order of
    /// this step times the one before, below 1e-13.
    /// </summary>
    public const double LastStep = 1e-9;

    /// <summary>The step that ends a search otherwise.</summary>
    public const double LeastStep = 2e-13;

    /// <summary>A Newton step towards a limit that is within the bracket and no longer than this ends it: its square is left.</summary>
    public const double LastNewtonStep = 1e-7;

    /// <summary>Beyond this an extreme lies at the end of the interval searched.</summary>
    public const double AtTheEnd = 0.99;

    /// <summary>By what share of itself the sum of squares may pass the cut for a place to count as on the region's edge: the limits of ln L are rounded.</summary>
    public const double Slack = 1e-7;

    /// <summary>Half-widths of the parabolas by which an extreme over ln L is searched, one after another.</summary>
    public static readonly double[] ExtremeSteps = [0.2, 0.06, 0.012, 0.003];

    /// <summary>1/sqrt(π).</summary>
    public const double InverseRootPi = 0.56418958354775628695;

    public SliceGeometry(
        ReadOnlySpan<double> topsMm,
        ReadOnlySpan<double> bottomsMm,
        ReadOnlySpan<double> weights
    )
    {
        var count = topsMm.Length;
        var edges = new List<double>();
        Top = new int[count];
        Bottom = new int[count];
        InverseWidth = new double[count];
        Weight = weights.Length == 0 ? [.. Enumerable.Repeat(1.0, count)] : weights.ToArray();
        var shallow = double.PositiveInfinity;
        var deep = 0.0;
        for (var j = 0; j < count; j++)
        {
            Top[j] = IndexOf(edges, topsMm[j]);
            Bottom[j] = IndexOf(edges, bottomsMm[j]);
            InverseWidth[j] = bottomsMm[j] > topsMm[j] ? 1 / (bottomsMm[j] - topsMm[j]) : 0;
            var centre = 0.5 * (topsMm[j] + bottomsMm[j]);
            if (centre > 0)
            {
                shallow = Math.Min(shallow, centre);
                deep = Math.Max(deep, centre);
            }

            WeightSum += Weight[j];
        }

        Edges = [.. edges];
        LowestLog = Math.Log(0.2 * shallow);
        GridStep = (Math.Log(20 * deep) - LowestLog) / (GridPoints - 1);
        Grid = new double[GridPoints * count];
        GridSums = new double[GridPoints * 2];
        GridInverses = new double[GridPoints];
        for (var g = 0; g < GridPoints; g++)
        {
            var length = Math.Exp(LowestLog + (g * GridStep));
            for (var j = 0; j < count; j++)
            {
                var share = Share(j, length, out _);
                Grid[(g * count) + j] = Weight[j] * share;
                GridSums[2 * g] += Weight[j] * share;
                GridSums[(2 * g) + 1] += Weight[j] * share * share;
            }

            GridInverses[g] = 1 / GridSums[(2 * g) + 1];
        }
    }

    public int Count => Top.Length;

    public double[] Edges { get; }

    public int[] Top { get; }

    public int[] Bottom { get; }

    /// <summary>1/(bottom - top); 0 for a point.</summary>
    public double[] InverseWidth { get; }

    public double[] Weight { get; }

    public double WeightSum { get; }

    /// <summary>ln L at the grid's first point.</summary>
    public double LowestLog { get; }

    public double GridStep { get; }

    /// <summary>ln L at the grid's last point.</summary>
    public double HighestLog => LowestLog + ((GridPoints - 1) * GridStep);

    /// <summary>Weight times share, shape [grid × slices].</summary>
    public double[] Grid { get; }

    /// <summary>Sums of weight times share and of weight times its square, shape [grid × 2].</summary>
    public double[] GridSums { get; }

    /// <summary>One over the sum of weight times squared share [grid].</summary>
    public double[] GridInverses { get; }

    /// <summary>Share of a slice, and its slope in ln L.</summary>
    public double Share(int slice, double length, out double slope)
    {
        var a = Edges[Top[slice]] / length;
        var b = Edges[Bottom[slice]] / length;
        var atA = Math.Exp(-a * a);
        var scaledA = LaneMathScalar.ScaledErfc(a);
        if (InverseWidth[slice] == 0)
        {
            slope = 2 * InverseRootPi * a * atA;
            return atA * scaledA;
        }

        var atB = Math.Exp(-b * b);
        var scaledB = LaneMathScalar.ScaledErfc(b);
        var factor = length * InverseWidth[slice];
        slope = factor * InverseRootPi * (atA - atB);
        return factor
            * ((atA * (InverseRootPi - (a * scaledA))) - (atB * (InverseRootPi - (b * scaledB))));
    }

    private static int IndexOf(List<double> edges, double value)
    {
        var index = edges.IndexOf(value);
        if (index < 0)
        {
            index = edges.Count;
            edges.Add(value);
        }

        return index;
    }
}
