using System.Collections.Immutable;

namespace DeckLife.Fitting;

/// <summary>The fit without each slice in turn.</summary>
internal static class ProfileInfluence
{
    /// <summary>Refits; a slice that can't be spared stands without numbers, one whose refit would have no likelihood is left out.</summary>
    public static ImmutableArray<SliceInfluence> Compute(
        ProfileData data,
        ProfileFitOptions options
    )
    {
        if (data.DegreesOfFreedom < 1)
        {
            return [];
        }

        var result = ImmutableArray.CreateBuilder<SliceInfluence>(data.Count);
        for (var i = 0; i < data.Count; i++)
        {
            var rest = data.Without(i);
            // An exact fit is left where measured slices equal parameters; with non-detects or Student's t it has no likelihood.
            var exact = rest.DegreesOfFreedom < 1;
            if (exact && (rest.Detected < rest.Count || options.Law != ErrorLaw.Normal))
            {
                continue;
            }

            var search = RefusalRules.OfInterval(rest, options) is null
                ? ProfileSolver.Solve(rest, options)
                : null;
            result.Add(
                search is { AtLowEnd: false, AtHighEnd: false, Best: { Excess: > 0 } best }
                    ? new SliceInfluence(data.Rows[i], best.Surface, Math.Exp(best.LnDiffusion))
                    : new SliceInfluence(data.Rows[i], null, null)
            );
        }

        return result.ToImmutable();
    }
}
