using System.Collections.Immutable;
using DeckLife.Numerics.Sampling;
using DeckLife.Population;

namespace DeckLife.Economics;

/// <summary>One draw of everything that is not known about the prices: the same for all strategies.</summary>
public sealed record PriceDraw
{
    /// <summary>Factor on each price, in the list's order.</summary>
    public required ImmutableArray<double> ItemFactors { get; init; }

    /// <summary>Factor on each action after the limit.</summary>
    public required ImmutableArray<double> ActionFactors { get; init; }

    /// <summary>Life of each action after the limit [yr].</summary>
    public required ImmutableArray<double> ActionLivesYr { get; init; }

    /// <summary>Factor on all prices that the agency pays.</summary>
    public double Level { get; init; } = 1;

    /// <summary>Factor on the area that sounding found at the survey; absent: what the model takes it to have missed stands.</summary>
    public double? QuantityGrowth { get; init; }

    /// <summary>The prices as listed: every uncertain one at its mean.</summary>
    /// <param name="prices">The list.</param>
    public static PriceDraw AsListed(PriceList prices)
    {
        ArgumentNullException.ThrowIfNull(prices);
        return new()
        {
            ItemFactors = [.. prices.Items.Select(_ => 1.0)],
            ActionFactors = [.. prices.AfterLimit.Select(_ => 1.0)],
            ActionLivesYr = [.. prices.AfterLimit.Select(a => a.LifeYr.Mean)],
            QuantityGrowth = prices.QuantityGrowth?.Mean,
        };
    }

    /// <summary>One draw; the same for the same seed and place, whoever asks.</summary>
    /// <param name="prices">The list.</param>
    /// <param name="seed">Seed of the projection.</param>
    /// <param name="place">Place of the draw in the projection.</param>
    public static PriceDraw Of(PriceList prices, ulong seed, int place)
    {
        ArgumentNullException.ThrowIfNull(prices);
        Span<double> u =
            stackalloc double[2 + prices.Items.Length + (2 * prices.AfterLimit.Length)];
        new RandomStream(seed, "prices", (ulong)place).FillUniform(u);
        var items = ImmutableArray.CreateBuilder<double>(prices.Items.Length);
        for (var i = 0; i < prices.Items.Length; i++)
        {
            items.Add(Factor(prices.Items[i].CoefficientOfVariation, u[2 + i]));
        }

        var factors = ImmutableArray.CreateBuilder<double>(prices.AfterLimit.Length);
        var lives = ImmutableArray.CreateBuilder<double>(prices.AfterLimit.Length);
        for (var i = 0; i < prices.AfterLimit.Length; i++)
        {
            var at = 2 + prices.Items.Length + (2 * i);
            factors.Add(Factor(prices.AfterLimit[i].CoefficientOfVariation, u[at]));
            lives.Add(Value(prices.AfterLimit[i].LifeYr, u[at + 1]));
        }

        return new()
        {
            Level = Factor(prices.LevelCoefficientOfVariation, u[0]),
            QuantityGrowth = prices.QuantityGrowth is { } growth ? Value(growth, u[1]) : null,
            ItemFactors = items.MoveToImmutable(),
            ActionFactors = factors.MoveToImmutable(),
            ActionLivesYr = lives.MoveToImmutable(),
        };
    }

    private static double Factor(double coefficientOfVariation, double uniform) =>
        coefficientOfVariation == 0
            ? 1
            : Value(new(1, coefficientOfVariation, SpreadShape.Lognormal), uniform);

    private static double Value(UncertainValue value, double uniform) =>
        value.CoefficientOfVariation == 0
            ? value.Mean
            : PointDistribution.WithinDeck(value, 0, NormalQuantile.At(uniform)).Quantile(0.5);
}
