using System.Collections.Immutable;
using DeckLife.Projection;

namespace DeckLife.Decisions;

/// <summary>What a headline number's band is made of.</summary>
public sealed record ErrorBudget
{
    /// <summary>The strategy.</summary>
    public required string Strategy { get; init; }

    /// <summary>The number: years to the end (those beyond the horizon counted as the horizon), or present value.</summary>
    public required string Number { get; init; }

    /// <summary>Its unit: yr, or the currency.</summary>
    public required string Unit { get; init; }

    /// <summary>Standard deviation over the draws, in that unit.</summary>
    public required double StandardDeviation { get; init; }

    /// <summary>Monte Carlo standard error of the mean over the draws, in that unit.</summary>
    public required double MonteCarloError { get; init; }

    /// <summary>The sources, the largest first.</summary>
    public required ImmutableArray<ErrorShare> Shares { get; init; }

    /// <summary>Share of the variance that comes from the finite number of points a draw: measured by following some draws again with other points. Absent where that was not done.</summary>
    public double? PointsShare { get; init; }

    /// <summary>The like by the steps of the layered solver, measured by following some draws again with finer ones. Absent where that was not done.</summary>
    public double? SolverShare { get; init; }

    /// <summary>All that is numerical: <see cref="PointsShare"/> and <see cref="SolverShare"/>; absent where neither was measured.</summary>
    public double? NumericalShare =>
        PointsShare is null && SolverShare is null ? null : (PointsShare ?? 0) + (SolverShare ?? 0);

    /// <summary>Share that the ten most telling inputs explain together: above the sum of the sources where they act together, below it where surveys tie them to each other.</summary>
    public double Together { get; init; }

    /// <summary>What no source explains by itself: sources acting together, and steep dependences that a smooth surface misses. Negative where sources overlap.</summary>
    public double NotAttributed => 1 - Shares.Sum(s => s.Share) - (NumericalShare ?? 0);

    /// <summary>The budgets of every strategy's years and present value.</summary>
    /// <param name="projection">The projection.</param>
    /// <returns>Empty where the draws were not kept.</returns>
    public static ImmutableArray<ErrorBudget> Of(DeckProjection projection)
    {
        ArgumentNullException.ThrowIfNull(projection);
        return projection.Draws is not { } draws
            ? []
            :
            [
                .. draws.Strategies.SelectMany(s =>
                    Of(draws, s, projection.Deck.Horizon.Years, projection.Deck.Prices?.Currency)
                ),
            ];
    }

    private const int MostTogether = 10;

    private static double TogetherOf(ProjectionDraws draws, IReadOnlyList<double> values) =>
        ExplainedShare
            .Of(
                [
                    .. draws
                        .Inputs.Select(i =>
                            (i.Values, ExplainedShare.Of([i.Values], values, draws.Indices).Share)
                        )
                        .OrderByDescending(i => i.Share)
                        .Take(MostTogether)
                        .Select(i => i.Values),
                ],
                values,
                draws.Indices
            )
            .Share;

    internal static IEnumerable<ErrorBudget> Of(
        ProjectionDraws draws,
        StrategyOutcomes outcomes,
        double horizonYr,
        string? currency
    )
    {
        yield return Of(
            draws,
            outcomes.Name,
            "years to the end",
            "yr",
            [.. outcomes.LivesYr.Select(l => Math.Min(l, horizonYr))],
            outcomes.VarianceOfYearsByPoints,
            outcomes.VarianceOfYearsBySolver
        );
        if (!outcomes.PresentValues.IsEmpty)
        {
            yield return Of(
                draws,
                outcomes.Name,
                "present value",
                currency ?? "",
                outcomes.PresentValues,
                outcomes.VarianceOfPresentValueByPoints,
                outcomes.VarianceOfPresentValueBySolver
            );
        }
    }

    private static double? ShareOf(double? part, double variance) =>
        part is { } v && variance > 0 ? Math.Clamp(v / variance, 0, 1) : null;

    private static ErrorBudget Of(
        ProjectionDraws draws,
        string strategy,
        string number,
        string unit,
        IReadOnlyList<double> values,
        double? byPoints,
        double? bySolver
    )
    {
        var (_, error) = PairedMean.Of(values);
        var variance = error * error * values.Count;
        return new()
        {
            Strategy = strategy,
            Number = number,
            Unit = unit,
            StandardDeviation = Math.Sqrt(variance),
            MonteCarloError = error,
            Together = TogetherOf(draws, values),
            PointsShare = ShareOf(byPoints, variance),
            SolverShare = ShareOf(bySolver, variance),
            Shares =
            [
                .. draws
                    .Inputs.GroupBy(i => i.Source)
                    .Select(g =>
                    {
                        var (share, errorOfShare) = ExplainedShare.Of(
                            [.. g.Select(i => i.Values)],
                            values,
                            draws.Indices
                        );
                        return new ErrorShare(g.Key, share, errorOfShare);
                    })
                    .OrderByDescending(s => s.Share),
            ],
        };
    }
}
