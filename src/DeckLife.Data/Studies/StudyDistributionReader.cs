using DeckLife.Data.Ingress;
using DeckLife.Numerics.Distributions;

namespace DeckLife.Data.Studies;

/// <summary>Reads a distribution with named parameters and turns it into the canonical unit.</summary>
internal static class StudyDistributionReader
{
    private const double Any = 1e300;
    private const double Tiny = 1e-300;

    private static readonly string[] Families =
    [
        "normal",
        "lognormal",
        "beta",
        "gamma",
        "weibull",
        "gumbel",
        "triangular",
        "uniform",
        "empirical",
    ];

    /// <summary>Reads the distribution of an input; absent where there is a problem, which is then reported.</summary>
    /// <param name="reader">The input's object.</param>
    /// <param name="factor">Canonical units in one unit of the file.</param>
    public static Distribution? Read(JsonObjectReader reader, double factor)
    {
        var family = reader.Text("distribution");
        if (family is null)
        {
            return null;
        }

        if (!Families.Contains(family))
        {
            reader.Reject(
                reader.Path("distribution"),
                $"\"{family}\" is not one of {string.Join(", ", Families)}."
            );
            return null;
        }

        try
        {
            return Make(reader, family, factor);
        }
        catch (ArgumentException exception)
        {
            reader.Reject(
                reader.Path("distribution"),
                exception.Message.Split(" (Parameter")[0].ReplaceLineEndings(" ")
            );
            return null;
        }
    }

    private static Distribution? Make(JsonObjectReader reader, string family, double factor)
    {
        switch (family)
        {
            case "beta":
                return Beta(reader, factor);
            case "triangular":
                var (least, most) = (
                    Scaled(reader, "lower", factor),
                    Scaled(reader, "upper", factor)
                );
                var mode = Scaled(reader, "mode", factor);
                return least is { } a && mode is { } c && most is { } b
                    ? new TriangularDistribution(a, c, b)
                    : null;
            case "uniform":
                if (reader.Has("mean"))
                {
                    return MeanAndDeviation(reader, factor) is { } moments
                        ? UniformDistribution.FromMeanAndStandardDeviation(
                            moments.Mean,
                            moments.Deviation
                        )
                        : null;
                }

                return
                    Scaled(reader, "lower", factor) is { } low
                    && Scaled(reader, "upper", factor) is { } high
                    ? new UniformDistribution(low, high)
                    : null;
            case "empirical":
                return Empirical(reader, factor);
            default:
                return Cut(reader, Whole(reader, family, factor), factor);
        }
    }

    private static Distribution? Whole(JsonObjectReader reader, string family, double factor)
    {
        if (family == "lognormal" && reader.Has("logMean"))
        {
            return
                reader.Number("logMean", -700, 700) is { } m
                && reader.Number("logStandardDeviation", Tiny, 100) is { } s
                ? LognormalDistribution.FromLogMoments(m + Math.Log(factor), s)
                : null;
        }

        if (family == "lognormal" && reader.Has("median"))
        {
            return
                Scaled(reader, "median", factor) is { } median
                && reader.Number("coefficientOfVariation", Tiny, 100) is { } v
                ? LognormalDistribution.FromMedianAndVariation(median, v)
                : null;
        }

        if (family is "gamma" or "weibull" && reader.Has("shape"))
        {
            return
                reader.Number("shape", Tiny, Any) is { } shape
                && Scaled(reader, "scale", factor) is { } scale
                ? family == "gamma"
                    ? GammaDistribution.FromShapeAndScale(shape, scale)
                    : WeibullDistribution.FromShapeAndScale(shape, scale)
                : null;
        }

        if (family == "gumbel" && reader.Has("location"))
        {
            return
                Scaled(reader, "location", factor) is { } location
                && Scaled(reader, "scale", factor) is { } scale
                ? GumbelDistribution.FromLocationAndScale(location, scale)
                : null;
        }

        if (MeanAndDeviation(reader, factor) is not { } given)
        {
            return null;
        }

        return family switch
        {
            "normal" => new NormalDistribution(given.Mean, given.Deviation),
            "lognormal" => LognormalDistribution.FromMeanAndStandardDeviation(
                given.Mean,
                given.Deviation
            ),
            "gamma" => GammaDistribution.FromMeanAndStandardDeviation(given.Mean, given.Deviation),
            "weibull" => WeibullDistribution.FromMeanAndStandardDeviation(
                given.Mean,
                given.Deviation
            ),
            _ => GumbelDistribution.FromMeanAndStandardDeviation(given.Mean, given.Deviation),
        };
    }

    private static Distribution? Cut(JsonObjectReader reader, Distribution? whole, double factor)
    {
        var lower = reader.Number("lower", -Any, Any, isRequired: false) * factor;
        var upper = reader.Number("upper", -Any, Any, isRequired: false) * factor;
        return whole is null || (lower is null && upper is null)
            ? whole
            : new TruncatedDistribution(
                whole,
                lower ?? double.NegativeInfinity,
                upper ?? double.PositiveInfinity
            );
    }

    private static BetaDistribution? Beta(JsonObjectReader reader, double factor)
    {
        if (
            Scaled(reader, "lower", factor) is not { } low
            || Scaled(reader, "upper", factor) is not { } high
        )
        {
            return null;
        }

        if (reader.Has("shapeP"))
        {
            return
                reader.Number("shapeP", Tiny, Any) is { } p
                && reader.Number("shapeQ", Tiny, Any) is { } q
                ? BetaDistribution.FromShapes(p, q, low, high)
                : null;
        }

        return MeanAndDeviation(reader, factor) is { } given
            ? BetaDistribution.FromMeanAndStandardDeviation(given.Mean, given.Deviation, low, high)
            : null;
    }

    private static EmpiricalDistribution? Empirical(JsonObjectReader reader, double factor)
    {
        if (reader.Array("values") is not { } elements)
        {
            return null;
        }

        var values = new List<double>();
        for (var i = 0; i < elements.Count; i++)
        {
            if (
                elements[i].ValueKind != System.Text.Json.JsonValueKind.Number
                || !elements[i].TryGetDouble(out var value)
            )
            {
                reader.Reject(
                    $"{reader.Path("values")}[{i}]",
                    $"a plain number is expected, found {JsonObjectReader.Kind(elements[i])}."
                );
                return null;
            }

            values.Add(value * factor);
        }

        return new(values);
    }

    private static double? Scaled(JsonObjectReader reader, string key, double factor) =>
        reader.Number(key, -Any, Any) * factor;

    private static (double Mean, double Deviation)? MeanAndDeviation(
        JsonObjectReader reader,
        double factor
    )
    {
        var mean = Scaled(reader, "mean", factor);
        if (reader.Has("coefficientOfVariation"))
        {
            return reader.Number("coefficientOfVariation", Tiny, 100) is { } v && mean is { } m
                ? (m, v * Math.Abs(m))
                : null;
        }

        return Scaled(reader, "standardDeviation", factor) is { } s && mean is { } centre
            ? (centre, s)
            : null;
    }
}
