using System.Collections.Immutable;

namespace DeckLife.Decisions;

/// <summary>What one strategy leads to in every draw.</summary>
public sealed record StrategyOutcomes
{
    /// <summary>The strategy's name.</summary>
    public required string Name { get; init; }

    /// <summary>Time from the survey until the end criterion is met [yr], one a draw; positive infinity where the horizon comes first.</summary>
    public required ImmutableArray<double> LivesYr { get; init; }

    /// <summary>Present value at the deck's discount rate, one a draw, in the price list's currency; empty without prices.</summary>
    public ImmutableArray<double> PresentValues { get; init; } = [];

    /// <summary>Present value of the interventions alone, one a draw; empty without prices.</summary>
    public ImmutableArray<double> FirstCosts { get; init; } = [];

    /// <summary>Variance of the years to the end by the finite number of points a draw [yr²]; absent where it was not measured.</summary>
    public double? VarianceOfYearsByPoints { get; init; }

    /// <summary>Variance of the present value by the finite number of points a draw; absent where it was not measured.</summary>
    public double? VarianceOfPresentValueByPoints { get; init; }

    /// <summary>Mean square error of the years to the end by the steps of the layered solver [yr²]; absent where it was not measured.</summary>
    public double? VarianceOfYearsBySolver { get; init; }

    /// <summary>Mean square error of the present value by the steps of the layered solver; absent where it was not measured.</summary>
    public double? VarianceOfPresentValueBySolver { get; init; }

    /// <summary>Share of the area damaged in every whole year from the survey on: year by year, then draw by draw.</summary>
    internal ImmutableArray<double> Damaged { get; init; } = [];

    /// <summary>Share of the area damaged at a whole year in one draw; before an intervention of that moment.</summary>
    /// <param name="year">Years from the survey, 0 to the horizon, rounded down to a whole one.</param>
    /// <param name="draw">Place of the draw.</param>
    public double DamagedAt(int year, int draw) => Damaged[(year * LivesYr.Length) + draw];

    /// <summary>Mean over the draws of the years until the end criterion, those beyond the horizon counted as the horizon.</summary>
    /// <param name="horizonYr">The horizon [yr].</param>
    public double ExpectedYears(double horizonYr) => LivesYr.Average(l => Math.Min(l, horizonYr));
}
