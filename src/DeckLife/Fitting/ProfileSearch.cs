using DeckLife.Numerics.LeastSquares;

namespace DeckLife.Fitting;

/// <summary>The bracketed search over ln D, and what it saw on its way.</summary>
internal sealed class ProfileSearch
{
    private const int GridPoints = 40;
    private const double LocalReach = 0.5;
    private const double LengthLowShare = 0.2;
    private const double LengthHighFactor = 20;

    private ProfileSearch(ProfileObjective objective, ProfilePoint[] grid, ProfilePoint best)
    {
        Objective = objective;
        Grid = grid;
        Best = best;
    }

    /// <summary>What was minimised.</summary>
    public ProfileObjective Objective { get; }

    /// <summary>The grid over the search interval.</summary>
    public ProfilePoint[] Grid { get; }

    /// <summary>The minimum.</summary>
    public ProfilePoint Best { get; }

    /// <summary>Whether the lower end of the interval is as good as the best inner point.</summary>
    public bool AtLowEnd { get; private init; }

    /// <summary>Whether the upper end of the interval is as good as the best inner point.</summary>
    public bool AtHighEnd { get; private init; }

    /// <summary>Other local minima, each with its objective.</summary>
    public ProfilePoint[] OtherMinima { get; private init; } = [];

    /// <summary>The search interval of ln D that the depths and the age give.</summary>
    public static (double Low, double High) Interval(ProfileData data, ProfileFitOptions options)
    {
        var shallow = double.PositiveInfinity;
        var deep = 0.0;
        for (var i = 0; i < data.Count; i++)
        {
            var centre = 0.5 * (data.TopMm[i] + data.BottomMm[i]);
            if (centre > 0)
            {
                shallow = Math.Min(shallow, centre);
                deep = Math.Max(deep, centre);
            }
        }

        var low = LnDiffusion(LengthLowShare * shallow, data.Years);
        var high = LnDiffusion(LengthHighFactor * deep, data.Years);
        return (
            options.SearchLow is { } l ? Math.Log(l.SquareMillimetresPerYear) : low,
            options.SearchHigh is { } h ? Math.Log(h.SquareMillimetresPerYear) : high
        );
    }

    /// <summary>Searches the interval: a grid, then every bracketed zero of the slope.</summary>
    public static ProfileSearch Run(ProfileObjective objective, double low, double high)
    {
        var grid = new ProfilePoint[GridPoints];
        for (var i = 0; i < GridPoints; i++)
        {
            grid[i] = objective.At(low + ((high - low) * i / (GridPoints - 1)));
        }

        // Differences below this are rounding.
        var slack = 1e-11 * grid.Max(g => Math.Abs(g.Objective));
        var minima = new List<ProfilePoint>();
        var plateaus = new HashSet<ProfilePoint>();
        for (var i = 0; i + 1 < GridPoints; i++)
        {
            if (grid[i].Slope < 0 && grid[i + 1].Slope >= 0)
            {
                var at = BracketedZero.Find(
                    x => objective.At(x).Slope,
                    grid[i].LnDiffusion,
                    grid[i + 1].LnDiffusion,
                    grid[i].Slope,
                    grid[i + 1].Slope,
                    1e-15
                );
                var found = objective.At(at);
                minima.Add(found);
                if (Math.Max(grid[i].Objective, grid[i + 1].Objective) <= found.Objective + slack)
                {
                    // The slope changes its sign by rounding, where no D is better than the next.
                    plateaus.Add(found);
                }
            }
        }

        var (first, last) = (grid[0], grid[^1]);
        if (minima.Count == 0)
        {
            var end = first.Objective <= last.Objective ? first : last;
            return new ProfileSearch(objective, grid, end)
            {
                AtLowEnd = first.Objective <= last.Objective,
                AtHighEnd = last.Objective <= first.Objective,
            };
        }

        var best = minima.MinBy(m => m.Objective);
        // An end counts as equally good where the difference is rounding.
        return new ProfileSearch(objective, grid, best)
        {
            AtLowEnd = first.Objective <= best.Objective + slack,
            AtHighEnd = last.Objective <= best.Objective + slack,
            OtherMinima = [.. minima.Where(m => m != best && !plateaus.Contains(m))],
        };
    }

    /// <summary>The minimum near a known one, for weights that have changed a little; absent where it has left the neighbourhood.</summary>
    public static ProfilePoint? Near(ProfileObjective objective, double lnDiffusion)
    {
        var left = objective.At(lnDiffusion - LocalReach);
        var right = objective.At(lnDiffusion + LocalReach);
        return left.Slope < 0 && right.Slope > 0
            ? objective.At(
                BracketedZero.Find(
                    x => objective.At(x).Slope,
                    left.LnDiffusion,
                    right.LnDiffusion,
                    left.Slope,
                    right.Slope,
                    1e-15
                )
            )
            : null;
    }

    private static double LnDiffusion(double lengthMm, double years) =>
        Math.Log(lengthMm * lengthMm / (4 * years));
}
