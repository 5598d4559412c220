using System.Collections.Immutable;
using DeckLife.Diagnostics;
using DeckLife.Profiles;

namespace DeckLife.Fitting;

/// <summary>Sets up the statistical model of a group of cores from the choices made.</summary>
internal static class DeckModelMaking
{
    /// <summary>Makes the model.</summary>
    /// <param name="cores">The cores.</param>
    /// <param name="options">The choices.</param>
    /// <param name="flags">Receives what a reviewer should know.</param>
    public static DeckModel Make(
        CoreProfile[] cores,
        DeckFitOptions options,
        ImmutableArray<Diagnostic>.Builder flags
    )
    {
        var youngest = cores.Min(c => c.ExposureAge.Years);
        var oldest = cores.Max(c => c.ExposureAge.Years);
        var reference = options.ReferenceExposureAge?.Years ?? oldest;
        var exponent = options.FixedAgeingExponent;
        if (exponent is null && oldest < options.SmallestAgeRatio * youngest)
        {
            exponent = 0;
        }

        if (exponent is { } given && (youngest < oldest || reference != oldest))
        {
            flags.Add(
                DiagnosticCatalogue.AgesPooledAtGivenExponent.With(
                    youngest,
                    oldest,
                    reference,
                    given
                )
            );
        }

        return new DeckModel
        {
            Slices = new DeckSlices(cores, options.Weights),
            Priors = options.Priors,
            FixedBackground =
                options.Background == BackgroundTreatment.Fixed
                    ? options.FixedBackground.KilogramsPerCubicMetre
                    : null,
            FixedAgeingExponent = exponent,
            ReferenceYears = reference,
            StartYears = options.ConcreteAgeAtFirstSalt.Years,
            IsTargeted = Targeted(cores, options, flags),
            TargetedAreaShare = options.TargetedAreaShare ?? 0,
        };
    }

    private static double[]? Targeted(
        CoreProfile[] cores,
        DeckFitOptions options,
        ImmutableArray<Diagnostic>.Builder flags
    )
    {
        double[] targeted =
        [
            .. cores.Select(c => options.TargetedCores.Contains(c.Core) ? 1.0 : 0.0),
        ];
        var count = (int)targeted.Sum();
        if (count == 0)
        {
            return null;
        }

        if (count < cores.Length && options.TargetedAreaShare is not null)
        {
            return targeted;
        }

        flags.Add(
            DiagnosticCatalogue.TargetedCoresUnweighted.With(
                count,
                cores.Length,
                count == cores.Length
                    ? "none elsewhere"
                    : "the share of the area that such places have is not given"
            )
        );
        return null;
    }
}
