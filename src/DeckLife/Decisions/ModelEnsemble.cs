using System.Collections.Immutable;
using DeckLife.Projection;

namespace DeckLife.Decisions;

/// <summary>The same deck under other forms of the model: whether the answer hangs on how the model is made rather than on what it is fed.</summary>
/// <remarks>
/// The forms stand beside each other and carry no weights: none is more than a reasonable way to see it. All share draws, so
/// that differences are not chance. How deep is decided anew under each.
/// </remarks>
public sealed record ModelEnsemble
{
    /// <summary>Exponent with which old concrete is taken to go on ageing where the deck states none; judgement: the lower end of the 0.2 (plain cement) to 0.6 (much slag or fly ash) of common practice, since decks old enough to be overlaid are mostly of plain cement.</summary>
    public const double OtherAgeingExponent = 0.2;

    // Numerical choices: forms are compared by means over the same draws, whose differences vary far less than lives do.
    private const int Draws = 200;
    private const int AreaPoints = 64;

    /// <summary>Names of the strategies, in the order of each variant's numbers.</summary>
    public required ImmutableArray<string> Strategies { get; init; }

    /// <summary>The forms, the given one first.</summary>
    public required ImmutableArray<ModelVariant> Variants { get; init; }

    /// <summary>Forms under which another strategy leads than under the given one.</summary>
    public IEnumerable<ModelVariant> Disagreeing => Variants.Where(v => v.Lead != Variants[0].Lead);

    /// <summary>Projects the deck under each form.</summary>
    /// <param name="projection">The projection, for its deck and fit.</param>
    /// <param name="cancellation">Ends it early.</param>
    /// <returns>The ensemble; nothing where a strategy that one form allows is refused under another, or there is none.</returns>
    public static ModelEnsemble? Of(
        DeckProjection projection,
        CancellationToken cancellation = default
    )
    {
        ArgumentNullException.ThrowIfNull(projection);
        if (projection.Strategies.IsEmpty)
        {
            return null;
        }

        var deck = projection.Deck with
        {
            Strategies = [.. projection.Strategies.Select(s => s.Strategy)],
            Analysis = projection.Deck.Analysis with { Draws = Draws, Points = AreaPoints },
        };
        var variants = ImmutableArray.CreateBuilder<ModelVariant>();
        foreach (var (form, varied) in Forms(deck))
        {
            var result = DeckProjector.ProjectWithoutRecord(varied, projection.Fit, cancellation);
            if (result.Draws is not { } draws || !result.Refused.IsEmpty)
            {
                return null;
            }

            var years = draws.Strategies.Select(s => s.ExpectedYears(deck.Horizon.Years)).ToArray();
            var costs = deck.Prices is { PricesTheEnd: true }
                ? draws.Strategies.Select(s => s.PresentValues.Average()).ToArray()
                : [];
            var lead = Enumerable
                .Range(0, years.Length)
                .MinBy(s => costs.Length > 0 ? costs[s] : -years[s]);
            variants.Add(new(form, draws.Strategies[lead].Name, [.. years], [.. costs]));
        }

        return new()
        {
            Strategies = [.. deck.Strategies.Select(s => s.Name)],
            Variants = variants.ToImmutable(),
        };
    }

    private static IEnumerable<(string Form, Deck Deck)> Forms(Deck deck)
    {
        yield return ("as given", deck);
        yield return deck.AgeingExponent > 0
            ? ("the old concrete no longer ages", deck with { AgeingExponent = 0 })
            : (
                FormattableString.Invariant(
                    $"the old concrete goes on ageing with exponent {OtherAgeingExponent}"
                ),
                deck with
                {
                    AgeingExponent = OtherAgeingExponent,
                }
            );
        if (deck.Materials.Any(m => m.AgeingExponent > 0))
        {
            yield return (
                "overlays do not age",
                deck with
                {
                    Materials = [.. deck.Materials.Select(m => m with { AgeingExponent = 0 })],
                }
            );
        }

        if (deck.Materials.Any(m => m.ServiceLife is not null))
        {
            yield return (
                "overlays last as long as the deck beneath",
                deck with
                {
                    Materials = [.. deck.Materials.Select(m => m with { ServiceLife = null })],
                }
            );
        }

        if (deck.Threshold.Content.CoefficientOfVariation > 0)
        {
            yield return (
                "the threshold is one for the whole deck, and not known",
                deck with
                {
                    Threshold = deck.Threshold with { WithinDeckShare = 0 },
                }
            );
            yield return (
                "the threshold varies over the deck only",
                deck with
                {
                    Threshold = deck.Threshold with { WithinDeckShare = 1 },
                }
            );
        }

        if (deck.Propagation.Driver.CoefficientOfVariation > 0)
        {
            yield return (
                "the time to damage varies over the deck only",
                deck with
                {
                    Propagation = deck.Propagation with { WithinDeckShare = 1 },
                }
            );
        }

        if (deck.Surveys.Learn && !(deck.Soundings.IsEmpty && deck.HalfCells.IsEmpty))
        {
            yield return (
                "the surveys are not learned from",
                deck with
                {
                    Surveys = deck.Surveys with { Learn = false },
                }
            );
        }
    }
}
