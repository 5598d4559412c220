using System.Collections.Immutable;
using System.Globalization;

namespace DeckLife.Fitting;

/// <summary>
/// The prior distributions of a deck fit: weakly informative, so that a few cores can't run to values that no deck shows,
/// and wide enough that eight cores decide for themselves. Each has its reason beside it.
/// </summary>
/// <remarks>
/// Source of the forms: Gelman, Prior distributions for variance parameters in hierarchical models (Bayesian Analysis 1, 2006) for
/// the half-t family of standard deviations, of which the half-normal is the limit with the lightest tail; Lewandowski, Kurowicka and Joe (Journal of Multivariate Analysis 100, 2009) for the
/// correlation. The ranges are common practice for bridge decks, without one source.
/// </remarks>
public sealed record DeckPriors
{
    /// <summary>Mean of the normal prior of the mean of ln Cs: ln of 6 kg/m³ (10 lb/yd³), a salted deck's middle.</summary>
    public double MeanLnSurfaceChloride { get; init; } = Math.Log(6);

    /// <summary>Its standard deviation: 95 % of it spans 0.8 to 43 kg/m³, wider than decks are found.</summary>
    public double SdOfMeanLnSurfaceChloride { get; init; } = 1;

    /// <summary>Mean of the normal prior of the mean of ln D: ln of 30 mm²/yr (1e-12 m²/s).</summary>
    public double MeanLnDiffusionCoefficient { get; init; } = Math.Log(30);

    /// <summary>Its standard deviation: 95 % of it spans 2.8 to 320 mm²/yr (9e-14 to 1e-11 m²/s).</summary>
    public double SdOfMeanLnDiffusionCoefficient { get; init; } = 1.2;

    /// <summary>
    /// Scale of the half-normal prior of the standard deviation between cores of ln Cs: 95 % of it lies below 0.98,
    /// where a core in forty has seven times the deck's median.
    /// </summary>
    public double ScaleOfSdLnSurfaceChloride { get; init; } = 0.5;

    /// <summary>Scale of the half-normal prior of the standard deviation between cores of ln D; D scatters more than Cs: 95 % below 1.4.</summary>
    public double ScaleOfSdLnDiffusionCoefficient { get; init; } = 0.7;

    /// <summary>η of the prior of the correlation, density in (1 - ρ²)^(η - 1): 2 pulls mildly to 0, as a few cores can't tell.</summary>
    public double CorrelationShape { get; init; } = 2;

    /// <summary>Scale of the half-normal prior of the background [kg/m³]: 95 % below 1 kg/m³; more comes from chlorides mixed in.</summary>
    public double ScaleOfBackgroundKgPerM3 { get; init; } = 0.5;

    /// <summary>
    /// Scale of the half-normal prior of the laboratory's error, where it is one number for all slices [kg/m³]. It holds grinding,
    /// sampling of aggregate and misfit as well as chemistry: 95 % below 1.2 kg/m³.
    /// </summary>
    public double ScaleOfLabErrorKgPerM3 { get; init; } = 0.6;

    /// <summary>Scale of the half-normal prior of the laboratory's error, where it is in proportion to the content: 95 % below 0.3.</summary>
    public double ScaleOfRelativeLabError { get; init; } = 0.15;

    /// <summary>Standard deviation of the normal prior, about 0, of the logarithm of the factor on the given standard deviations: 95 % between 0.4 and 2.7.</summary>
    public double SdOfLnGivenErrorFactor { get; init; } = 0.5;

    /// <summary>
    /// Smallest error of a slice [kg/m³]: contents are reported in steps of 0.001 % of concrete, about 0.024 kg/m³, whose rounding alone
    /// has 0.024/√12 = 0.007; it keeps noise-free input from an infinite density.
    /// </summary>
    public double SmallestLabErrorKgPerM3 { get; init; } = 0.005;

    /// <summary>Mean of the normal prior of the ageing exponent, where several ages let it be estimated (from 0 to <see cref="LargestAgeingExponent"/>).</summary>
    public double MeanAgeingExponent { get; init; } = 0.3;

    /// <summary>Its standard deviation: plain cement has about 0.2, much slag or fly ash 0.6 (common practice).</summary>
    public double SdAgeingExponent { get; init; } = 0.25;

    /// <summary>Upper end of the ageing exponent; at 1 the integral of D no longer starts at birth.</summary>
    public double LargestAgeingExponent { get; init; } = 0.95;

    /// <summary>Standard deviation of the normal priors, about 0, of how far ln Cs and ln D of targeted cores lie from the others.</summary>
    public double SdOfTargetedShift { get; init; } = 0.5;

    /// <summary>Standard deviation of the ageing exponent's prior within its ends.</summary>
    public double SdOfAgeingPrior()
    {
        // Simpson's rule; 200 panels of a smooth density: error below 1e-8.
        const int Panels = 200;
        double zero = 0;
        double first = 0;
        double second = 0;
        for (var i = 0; i <= Panels; i++)
        {
            var m = LargestAgeingExponent * i / Panels;
            var z = (m - MeanAgeingExponent) / SdAgeingExponent;
            var weight =
                (
                    i is 0 or Panels ? 1
                    : i % 2 == 1 ? 4
                    : 2
                ) * Math.Exp(-0.5 * z * z);
            zero += weight;
            first += weight * m;
            second += weight * m * m;
        }

        var mean = first / zero;
        return Math.Sqrt((second / zero) - (mean * mean));
    }

    /// <summary>The priors in words and numbers, for a report; those that take no part are left out.</summary>
    /// <param name="weights">What the errors mean.</param>
    /// <param name="background">Whether the background is estimated.</param>
    /// <param name="estimatesAgeing">Whether the ageing exponent is estimated.</param>
    /// <param name="hasTargetedCores">Whether some cores are targeted.</param>
    public ImmutableArray<string> Statements(
        SliceWeights weights,
        BackgroundTreatment background,
        bool estimatesAgeing,
        bool hasTargetedCores
    )
    {
        var lines = ImmutableArray.CreateBuilder<string>();
        void Add(FormattableString line) => lines.Add(line.ToString(CultureInfo.InvariantCulture));
        Add(
            $"mean of ln(Cs / (kg/m3)): normal, mean {MeanLnSurfaceChloride:G4}, s.d. {SdOfMeanLnSurfaceChloride:G4}"
        );
        Add(
            $"mean of ln(D / (mm2/yr)): normal, mean {MeanLnDiffusionCoefficient:G4}, s.d. {SdOfMeanLnDiffusionCoefficient:G4}"
        );
        Add($"s.d. between cores of ln Cs: half-normal, scale {ScaleOfSdLnSurfaceChloride:G4}");
        Add($"s.d. between cores of ln D: half-normal, scale {ScaleOfSdLnDiffusionCoefficient:G4}");
        Add($"correlation: density in (1 - rho^2)^{CorrelationShape - 1:G4}");
        if (background == BackgroundTreatment.Fitted)
        {
            Add($"background: half-normal, scale {ScaleOfBackgroundKgPerM3:G4} kg/m3");
        }

        Add(
            weights switch
            {
                SliceWeights.Relative =>
                    $"laboratory error: half-normal, scale {ScaleOfRelativeLabError:G4} of the content",
                SliceWeights.Given =>
                    $"factor on the given laboratory errors: log-normal, median 1, s.d. of ln {SdOfLnGivenErrorFactor:G4}",
                _ =>
                    $"laboratory error: half-normal, scale {ScaleOfLabErrorKgPerM3:G4} kg/m3, at least {SmallestLabErrorKgPerM3:G4} kg/m3",
            }
        );
        if (estimatesAgeing)
        {
            Add(
                $"ageing exponent: normal, mean {MeanAgeingExponent:G4}, s.d. {SdAgeingExponent:G4}, from 0 to {LargestAgeingExponent:G4}"
            );
        }

        if (hasTargetedCores)
        {
            Add(
                $"shift of targeted cores in ln Cs and ln D: normal, mean 0, s.d. {SdOfTargetedShift:G4}"
            );
        }

        return lines.ToImmutable();
    }
}
