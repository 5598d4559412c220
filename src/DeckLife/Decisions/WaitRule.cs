namespace DeckLife.Decisions;

/// <summary>A rule for the day of a re-survey: what to do later, and from how many places found damaged, up or down.</summary>
/// <param name="Later">Place of the strategy carried out; −1: the rule never acts.</param>
/// <param name="Trigger">Places found damaged at which it acts.</param>
/// <param name="Up">Whether it acts from there up; else down.</param>
internal readonly record struct WaitRule(int Later, int Trigger, bool Up)
{
    /// <summary>The rule of least mean cost over some draws.</summary>
    public static WaitRule Find(Problem problem, IEnumerable<int> draws)
    {
        var over = draws.ToArray();
        var best = new WaitRule(-1, 0, true);
        var least = over.Sum(k => best.Cost(problem, k));
        // Acting is a sum over the draws on one side of the trigger: sorted once, every trigger costs one step.
        var standing = over.Where(k => problem.IsStanding[k])
            .OrderByDescending(k => problem.Found[k])
            .ThenBy(k => k)
            .ToArray();
        for (var s = 0; s < problem.Later.Count; s++)
        {
            var gains = standing.Select(k => problem.Later[s][k] - problem.Nothing[k]).ToArray();
            var all = gains.Sum();
            var above = 0.0;
            var idle = over.Sum(k => new WaitRule(-1, 0, true).Cost(problem, k));
            for (var i = 0; i < standing.Length; i++)
            {
                above += gains[i];
                var found = problem.Found[standing[i]];
                if (i + 1 < standing.Length && problem.Found[standing[i + 1]] == found)
                {
                    continue;
                }

                Try(idle + above, new(s, found, true));
                if (i + 1 < standing.Length)
                {
                    Try(idle + all - above, new(s, problem.Found[standing[i + 1]], false));
                }
            }
        }

        return best;

        void Try(double cost, WaitRule rule)
        {
            if (cost < least)
            {
                (best, least) = (rule, cost);
            }
        }
    }

    /// <summary>The rule of least mean cost over some draws among those that do the same whatever is found.</summary>
    public static WaitRule FindBlind(Problem problem, IEnumerable<int> draws)
    {
        var over = draws.ToArray();
        return Enumerable
            .Range(-1, problem.Later.Count + 1)
            .Select(s => new WaitRule(s, 0, true))
            .MinBy(r => over.Sum(k => r.Cost(problem, k)));
    }

    /// <summary>Whether the rule acts in one draw.</summary>
    public bool Acts(Problem problem, int draw) =>
        Later >= 0
        && problem.IsStanding[draw]
        && (Up ? problem.Found[draw] >= Trigger : problem.Found[draw] <= Trigger);

    /// <summary>Present value under the rule in one draw.</summary>
    public double Cost(Problem problem, int draw) =>
        (Acts(problem, draw) ? problem.Later[Later][draw] : problem.Nothing[draw])
        + (problem.IsStanding[draw] ? problem.SurveyPrice : 0);

    /// <summary>What a rule is found for.</summary>
    /// <param name="Nothing">Present value of doing nothing, one a draw.</param>
    /// <param name="Later">Present value of each delayed strategy, one a draw.</param>
    /// <param name="Found">Places that the re-survey finds damaged, one a draw.</param>
    /// <param name="IsStanding">Whether the deck has not met its end before the re-survey.</param>
    /// <param name="SurveyPrice">Present value of the re-survey.</param>
    internal sealed record Problem(
        IReadOnlyList<double> Nothing,
        IReadOnlyList<IReadOnlyList<double>> Later,
        IReadOnlyList<int> Found,
        IReadOnlyList<bool> IsStanding,
        double SurveyPrice
    );
}
