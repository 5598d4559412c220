using System.Collections.Immutable;

namespace DeckLife.Fitting;

/// <summary>The fit without each slice in turn.</summary>
internal static class ProfileInfluence
{
    /// <summary>Refits; a slice that can't be spared is left out of the list.</summary>
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

            var search = ProfileSolver.Solve(rest, options);
            var undetermined = search.AtLowEnd || search.AtHighEnd || !(search.Best.Excess > 0);
            result.Add(
                undetermined
                    ? new SliceInfluence(data.Rows[i], null, null)
                    : new SliceInfluence(
                        data.Rows[i],
                        search.Best.Surface,
                        Math.Exp(search.Best.LnDiffusion)
                    )
            );
        }

        return result.ToImmutable();
    }
}
