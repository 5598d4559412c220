using System.Collections.Immutable;
using DeckLife.Diagnostics;
using DeckLife.Profiles;

namespace DeckLife.Fitting;

/// <summary>Fits Fick's second law with a constant surface content to the slices of one core.</summary>
/// <remarks>
/// Equation: mean of a slice = C0 + (Cs - C0) [mean of erfc(x / (2 sqrt(D t)))], <see cref="DeckLife.Numerics.Diffusion.SliceMean"/>.
/// Method: for a given D the model is linear in (Cs - C0, C0); these are solved exactly with both at least 0, and D is found by a
/// bracketed search over ln D in a stated interval (variable projection: Golub and Pereyra, SIAM J. Numer. Anal. 10 (1973) 413).
/// No starting values; the same answer in any unit and in any order of the slices. Limits: profile likelihood with the F(1, n - p) cut
/// (Bates and Watts, Nonlinear Regression Analysis and Its Applications, 1988, chapter 6),
/// by default over the kinds of error that the slices leave likely (<see cref="ErrorKindLimits"/>).
/// Valid for: constant surface content, half space, D apparent over the exposure. Checked by: ProfileFitterTests, ProfileLawsTests, and the
/// reference checks under fitting.
/// </remarks>
public static class ProfileFitter
{
    /// <summary>Fits one core.</summary>
    /// <param name="profile">The core: slices in any order.</param>
    /// <param name="options">Choices; absent: the documented defaults.</param>
    /// <returns>The fit, or its refusal with the reason; never an exception for what the data say.</returns>
    /// <exception cref="ArgumentNullException">No profile.</exception>
    public static ProfileFit Fit(CoreProfile profile, ProfileFitOptions? options = null)
    {
        ArgumentNullException.ThrowIfNull(profile);
        options ??= new ProfileFitOptions();
        var ordered = profile.SlicesByDepth();
        var flags = new List<Diagnostic>();
        var skip = ChooseSkip(ordered, options, flags, out var excluded);
        var fit = FitSlices(profile, ordered, skip, options, flags, excluded);
        if (
            options.LimitsOverErrorKinds
            && options.Weights == SliceWeights.Constant
            && fit.Status != FitStatus.Refused
        )
        {
            // Limits by profile likelihood also where the fit itself is bootstrapped: once is enough.
            var relative = options with
            {
                Weights = SliceWeights.Relative,
                Influence = false,
                Limits = LimitMethod.ProfileLikelihood,
            };
            fit = WeightComparison.Add(
                fit,
                FitSlices(profile, ordered, skip, relative, [], excluded)
            );
        }

        return skip > 0
            ? fit with
            {
                Alternative = FitSlices(
                    profile,
                    ordered,
                    0,
                    options with
                    {
                        Influence = false,
                    },
                    [],
                    []
                ),
            }
            : fit;
    }

    private static int ChooseSkip(
        ImmutableArray<ChlorideSlice> ordered,
        ProfileFitOptions options,
        List<Diagnostic> flags,
        out ImmutableArray<ExcludedSlice> excluded
    )
    {
        excluded = [];
        if (options.SkipSurface is { } byHand)
        {
            var count = Math.Clamp(byHand, 0, ordered.Length);
            if (count > 0)
            {
                flags.Add(DiagnosticCatalogue.SkippedByHand.With(count));
                excluded =
                [
                    .. ordered
                        .Take(count)
                        .Select(s => new ExcludedSlice(s.Row, "left out by hand at the surface")),
                ];
            }

            return count;
        }

        var (skip, peak, excess) = SkinRule.Apply(ordered);
        if (skip > 0)
        {
            foreach (var slice in ordered.Take(skip))
            {
                flags.Add(
                    DiagnosticCatalogue.SkinSlice.With(
                        FitText.Interval(slice),
                        slice.Content.KilogramsPerCubicMetre,
                        FitText.Interval(ordered[peak]),
                        ordered[peak].Content.KilogramsPerCubicMetre,
                        excess
                    ) with
                    {
                        Row = slice.Row,
                    }
                );
            }

            excluded =
            [
                .. ordered
                    .Take(skip)
                    .Select(s => new ExcludedSlice(
                        s.Row,
                        "skin: above a peak that exceeds it by more than 2 combined standard deviations"
                    )),
            ];
        }
        else if (peak > 0)
        {
            flags.Add(
                DiagnosticCatalogue.PeakBelowSurface.With(
                    ordered[peak].Content.KilogramsPerCubicMetre,
                    FitText.Interval(ordered[peak]),
                    ordered[peak].CentreMm,
                    excess
                ) with
                {
                    Row = ordered[peak].Row,
                }
            );
        }

        return skip;
    }

    private static ProfileFit FitSlices(
        CoreProfile profile,
        ImmutableArray<ChlorideSlice> ordered,
        int skip,
        ProfileFitOptions options,
        List<Diagnostic> flags,
        ImmutableArray<ExcludedSlice> excluded
    )
    {
        ImmutableArray<ChlorideSlice> used = [.. ordered.Skip(skip)];
        var draft = new ProfileFit
        {
            Profile = profile,
            Status = FitStatus.Refused,
            Options = options,
            Points = used.Length,
            Excluded = excluded,
        };
        if (profile.OnCrack)
        {
            flags.Add(DiagnosticCatalogue.CoreOnCrack.With());
        }

        if (RefusalRules.BeforeFitting(profile, used, skip, options) is { } early)
        {
            return Refuse(draft, flags, early);
        }

        var data = ProfileDataBuilder.Build(profile, used, options);
        var heldByProgram = false;
        if (data.FixedBackground is null && data.Detected == 3 && data.Count > 3)
        {
            data = data.WithBackground(0);
            heldByProgram = true;
        }

        if (RefusalRules.OfInterval(data, options) is { } empty)
        {
            return Refuse(draft, flags, empty);
        }

        var search = ProfileSolver.Solve(data, options);
        if (RefusalRules.AfterSearch(search) is { } late)
        {
            return Refuse(draft, flags, late);
        }

        return ProfileResult.Compose(draft, used, search, heldByProgram, flags);
    }

    private static ProfileFit Refuse(ProfileFit draft, List<Diagnostic> flags, Diagnostic reason) =>
        draft with
        {
            Status = FitStatus.Refused,
            Reason = reason.Text,
            Flags = [.. flags, reason],
        };
}
