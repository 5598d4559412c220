using DeckLife.Numerics.Diffusion;

namespace DeckLife.Fitting;

/// <summary>Fits a set of slices once: the search, with the weights settled where they depend on the fit.</summary>
internal static class ProfileSolver
{
    private const int MostReweightings = 100;

    /// <summary>Fits.</summary>
    public static ProfileSearch Solve(ProfileData data, ProfileFitOptions options)
    {
        var (low, high) = ProfileSearch.Interval(data, options);
        var search = ProfileSearch.Run(ProfileObjective.Create(data, options.Law), low, high);
        if (options.Weights != SliceWeights.Relative)
        {
            return search;
        }

        // Weights from the fitted means, never from the measured contents: those would pull the fit towards low readings.
        var floor = RelativeFloor(data, options);
        for (var pass = 0; pass < MostReweightings; pass++)
        {
            var weight = RelativeWeights(search, floor);
            var change = 0.0;
            for (var i = 0; i < weight.Length; i++)
            {
                change = Math.Max(
                    change,
                    Math.Abs(weight[i] - search.Objective.Data.Weight[i]) / weight[i]
                );
            }

            if (change < 1e-11)
            {
                break;
            }

            search = ProfileSearch.Run(
                ProfileObjective.Create(data.WithWeights(weight), options.Law),
                low,
                high
            );
        }

        return search;
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

    private static double[] RelativeWeights(ProfileSearch search, double floor)
    {
        var data = search.Objective.Data;
        var weight = Means(data, search.Best);
        for (var i = 0; i < weight.Length; i++)
        {
            var mean = Math.Max(weight[i], floor);
            weight[i] = data.Replicates[i] / (mean * mean);
        }

        return weight;
    }
}
