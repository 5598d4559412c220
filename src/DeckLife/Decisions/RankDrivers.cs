using System.Collections.Immutable;
using DeckLife.Diagnostics;
using DeckLife.Projection;

namespace DeckLife.Decisions;

/// <summary>Which inputs decide between the two strategies of least mean present value.</summary>
public sealed record RankDrivers
{
    /// <summary>The strategy of least mean present value.</summary>
    public required string Lead { get; init; }

    /// <summary>The next.</summary>
    public required string Next { get; init; }

    /// <summary>What the next costs more, mean over the draws.</summary>
    public required double MeanDifference { get; init; }

    /// <summary>Monte Carlo standard error of it.</summary>
    public required double ErrorOfDifference { get; init; }

    /// <summary>Probability that the lead is the cheaper of the two; half of the draws where they cost the same count.</summary>
    public required double LeadProbability { get; init; }

    /// <summary>The inputs, the most deciding first.</summary>
    public required ImmutableArray<RankDriver> Drivers { get; init; }

    /// <summary>Finds them; nothing where fewer than two strategies are ranked, or the draws were not kept.</summary>
    /// <param name="projection">The projection.</param>
    public static RankDrivers? Of(DeckProjection projection)
    {
        ArgumentNullException.ThrowIfNull(projection);
        using var phase = PhaseTrace.Begin("what decides");
        return projection is { Draws: { } draws, Deck.Prices.PricesTheEnd: true }
            ? Of(draws)
            : null;
    }

    internal static RankDrivers? Of(ProjectionDraws draws)
    {
        var ranked = draws
            .Strategies.Where(s => !s.PresentValues.IsEmpty)
            .OrderBy(s => s.PresentValues.Average())
            .Take(2)
            .ToArray();
        if (ranked.Length < 2)
        {
            return null;
        }

        var gains = ranked[1]
            .PresentValues.Select((v, k) => v - ranked[0].PresentValues[k])
            .ToArray();
        var (mean, error) = PairedMean.Of(gains);
        return new()
        {
            Lead = ranked[0].Name,
            Next = ranked[1].Name,
            MeanDifference = mean,
            ErrorOfDifference = error,
            LeadProbability = Leads(gains),
            Drivers =
            [
                .. draws
                    .Inputs.Select(input =>
                    {
                        var (share, errorOfShare) = ExplainedShare.Of(
                            [input.Values],
                            gains,
                            draws.Indices
                        );
                        var order = Enumerable
                            .Range(0, gains.Length)
                            .OrderBy(k => input.Values[k])
                            .ToArray();
                        var third = Math.Max(1, order.Length / 3);
                        return new RankDriver(
                            input.Name,
                            input.Source,
                            share,
                            errorOfShare,
                            Leads([.. order.Take(third).Select(k => gains[k])]),
                            Leads([.. order.TakeLast(third).Select(k => gains[k])])
                        );
                    })
                    .OrderByDescending(d => d.Share),
            ],
        };
    }

    private static double Leads(double[] gains) =>
        gains.Average(g =>
            g > 0 ? 1
            : g == 0 ? 0.5
            : 0
        );
}
