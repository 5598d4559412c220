using DeckLife.Numerics.Diffusion;

namespace DeckLife.Fitting;

/// <summary>Fits a set of slices once: the search, with the weights settled where they depend on the fit.</summary>
internal static class ProfileSolver
{
    private const int MostReweightings = 100;
    private const int MostSearches = 6;
    private const double SettledChange = 1e-11;

    /// <summary>Fits with the weights that the options ask for.</summary>
    public static ProfileSearch Solve(ProfileData data, ProfileFitOptions options) =>
        Solve(data, options, options.Weights == SliceWeights.Relative ? 1 : 0);

    /// <summary>Fits with errors of which a share is in proportion to the content.</summary>
    /// <param name="data">The slices.</param>
    /// <param name="options">Choices; the weights are those of the share.</param>
    /// <param name="proportionalShare">
    /// Share of the variance, at the geometric mean of the fitted contents, that is in proportion to the square of the fitted content; 0: the
    /// weights of the data as they are; 1: errors in proportion to the content.
    /// </param>
    public static ProfileSearch Solve(
        ProfileData data,
        ProfileFitOptions options,
        double proportionalShare
    )
    {
        var (low, high) = ProfileSearch.Interval(data, options);
        var search = ProfileSearch.Run(ProfileObjective.Create(data, options.Law), low, high);
        if (proportionalShare <= 0)
        {
            return search;
        }

        // Weights from the fitted means, never from the measured contents: those would pull the fit towards low readings.
        var floor = RelativeFloor(data, options);
        for (var pass = 0; pass < MostSearches; pass++)
        {
            var weight = Settle(search, options, floor, proportionalShare);
            var settled = Change(weight, search.Objective.Data.Weight) < SettledChange;
            search = ProfileSearch.Run(
                ProfileObjective.Create(data.WithWeights(weight), options.Law),
                low,
                high
            );
            if (settled)
            {
                break;
            }
        }

        return search;
    }

    // Reweights near the minimum until nothing changes; the caller then searches the whole interval again.
    private static double[] Settle(
        ProfileSearch search,
        ProfileFitOptions options,
        double floor,
        double proportionalShare
    )
    {
        var data = search.Objective.Data;
        var weight = Weights(data, search.Best, floor, proportionalShare);
        var best = search.Best;
        for (var pass = 0; pass < MostReweightings; pass++)
        {
            if (
                ProfileSearch.Near(
                    ProfileObjective.Create(data.WithWeights(weight), options.Law),
                    best.LnDiffusion
                )
                is not { } next
            )
            {
                return weight;
            }

            best = next;
            var after = Weights(data, best, floor, proportionalShare);
            var change = Change(after, weight);
            weight = after;
            if (change < SettledChange)
            {
                return weight;
            }
        }

        return weight;
    }

    private static double Change(double[] one, double[] other)
    {
        var change = 0.0;
        for (var i = 0; i < one.Length; i++)
        {
            change = Math.Max(change, Math.Abs(one[i] - other[i]) / one[i]);
        }

        return change;
    }

    /// <summary>The content under which relative errors stop shrinking [kg/m³].</summary>
    public static double RelativeFloor(ProfileData data, ProfileFitOptions options)
    {
        var floor = options.RelativeFloorShare * data.Content.Max();
        for (var i = 0; i < data.Count; i++)
        {
            if (data.Censored[i])
            {
                floor = Math.Max(floor, data.Content[i]);
            }
        }

        return floor;
    }

    /// <summary>The model's content of every slice [kg/m³].</summary>
    public static double[] Means(ProfileData data, ProfilePoint at)
    {
        var length = 2 * Math.Sqrt(Math.Exp(at.LnDiffusion) * data.Years);
        var means = new double[data.Count];
        for (var i = 0; i < means.Length; i++)
        {
            means[i] =
                at.Background
                + (at.Excess * SliceMean.Value(data.TopMm[i], data.BottomMm[i], length));
        }

        return means;
    }

    private static double[] Weights(
        ProfileData data,
        ProfilePoint at,
        double floor,
        double proportionalShare
    )
    {
        var weight = Means(data, at);
        var logs = 0.0;
        for (var i = 0; i < weight.Length; i++)
        {
            weight[i] = Math.Max(weight[i], floor);
            logs += Math.Log(weight[i]);
        }

        var constant = (1 - proportionalShare) * Math.Exp(2 * logs / weight.Length);
        for (var i = 0; i < weight.Length; i++)
        {
            weight[i] =
                data.Replicates[i] / (constant + (proportionalShare * weight[i] * weight[i]));
        }

        return weight;
    }
}
