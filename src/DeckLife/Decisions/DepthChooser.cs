using System.Collections.Immutable;

namespace DeckLife.Decisions;

/// <summary>Finds the best case among those that keep the limits, and what one more year costs.</summary>
internal static class DepthChooser
{
    /// <summary>Chooses; nothing where no case keeps the limits.</summary>
    public static DepthChoice? Choose(Deck deck, ImmutableArray<DepthMapCell> cells)
    {
        var allowed = cells.Where(c => c.IsAllowed && c.Outcomes is not null).ToArray();
        if (allowed.Length == 0)
        {
            return null;
        }

        // Without a price for the end, a deck that fails costs nothing: the cheapest would be the worst.
        var byCost = deck.Prices is { PricesTheEnd: true };
        var score = byCost
            ? (Func<DepthMapCell, IReadOnlyList<double>>)(c => c.Outcomes!.PresentValues)
            : c => [.. c.Outcomes!.LivesYr.Select(l => -Math.Min(l, deck.Horizon.Years))];
        // Ties go to the shallower removal, then to the thinner overlay.
        var best = allowed
            .OrderBy(c => score(c).Average())
            .ThenBy(c => c.Removal.Millimetres)
            .ThenBy(c => c.Thickness.Millimetres)
            .First();
        var bestScore = score(best);
        return new()
        {
            Best = best,
            Criterion = byCost
                ? "least mean present value over the draws, interventions and end included"
                : "longest mean life within the horizon; costs are not compared, since no price is given for reaching the end",
            Indistinguishable =
            [
                .. allowed.Where(c =>
                {
                    if (ReferenceEquals(c, best))
                    {
                        return false;
                    }

                    var (mean, error) = PairedMean.Difference(score(c), bestScore);
                    return mean <= 2 * error;
                }),
            ],
            OneMoreYear = deck.Prices is null ? null : NextYear(best, allowed, deck.Horizon.Years),
        };
    }

    /// <summary>The step from a case to a dearer one that buys years at the lowest price.</summary>
    internal static YearPrice? NextYear(
        DepthMapCell from,
        IReadOnlyList<DepthMapCell> allowed,
        double horizonYr
    )
    {
        YearPrice? cheapest = null;
        foreach (var cell in allowed)
        {
            var cost = cell.FirstCost - from.FirstCost;
            var years = cell.ExpectedYears - from.ExpectedYears;
            if (!(cost > 0) || !(years > 0))
            {
                continue;
            }

            var gains = Capped(cell).Select((l, k) => l - Capped(from)[k]).ToArray();
            var gain = PairedMean.Of(gains);
            var price = cost.Value / gain.Mean;
            // Years that are only chance have no price.
            if (gain.Mean <= 2 * gain.Error || price >= (cheapest?.PerYear ?? double.MaxValue))
            {
                continue;
            }

            // The delta method on the ratio of the two paired means.
            var error = PairedMean
                .Of([
                    .. gains.Select(
                        (g, k) =>
                            (
                                cell.Outcomes!.FirstCosts[k]
                                - from.Outcomes!.FirstCosts[k]
                                - (price * g)
                            ) / gain.Mean
                    ),
                ])
                .Error;
            cheapest = new(price, error, gain.Mean, cost.Value, cell);
        }

        return cheapest;

        double[] Capped(DepthMapCell cell) =>
            [.. cell.Outcomes!.LivesYr.Select(l => Math.Min(l, horizonYr))];
    }
}
