using System.Collections.Immutable;
using DeckLife.Network.Decks;

namespace DeckLife.Network.Programs;

/// <summary>Turns projected decks into a program in whole numbers, one deck at a time; draws are not kept.</summary>
public sealed class ProgramBuilder
{
    private readonly NetworkDefinition network;
    private readonly ImmutableArray<ProgramDeck>.Builder decks =
        ImmutableArray.CreateBuilder<ProgramDeck>();
    private readonly Dictionary<string, int> corridors = new(StringComparer.Ordinal);
    private long areaDm2;

    /// <summary>Begins with no deck.</summary>
    /// <param name="network">The network.</param>
    public ProgramBuilder(NetworkDefinition network)
    {
        ArgumentNullException.ThrowIfNull(network);
        this.network = network;
    }

    /// <summary>Adds a projected deck.</summary>
    /// <param name="deck">The deck.</param>
    public void Add(DeckRecord deck)
    {
        ArgumentNullException.ThrowIfNull(deck);
        var member = network.Members[deck.Index];
        var area = deck.AreaDm2!.Value;
        var years = network.ConditionYears;
        var nothing = deck.Options[0].MeanPpm(years);
        areaDm2 += area;
        decks.Add(
            new(
                [
                    .. deck.Options.Select(option =>
                    {
                        var mean = option.MeanPpm(years);
                        long avoided = 0;
                        for (var y = 0; y < years; y++)
                        {
                            avoided += nothing[y] - mean[y];
                        }

                        return new ProgramOption(
                            (long)Math.Round(member.Weight * area * avoided / 1e6),
                            option.StartYear is { } start ? start - network.FirstYear : -1,
                            option.CostByYear,
                            network.DamagedAtMost is null
                                ? []
                                : [.. mean.Select(ppm => (area * ppm + 999_999) / 1_000_000)]
                        );
                    }),
                ],
                Corridor(member.Corridor),
                [.. nothing.Take(network.Budgets.Length)]
            )
        );
    }

    /// <summary>The program of all decks added.</summary>
    public ProgramProblem ToProblem() =>
        new()
        {
            Decks = decks.ToImmutable(),
            Budgets = network.Budgets,
            MostClosuresAYear = network.MostClosuresAYear,
            MostClosuresACorridor = network.MostClosuresACorridor,
            DamagedAtMost = network.DamagedAtMost is { } most
                ?
                [
                    .. Enumerable
                        .Range(network.FirstYear, network.ConditionYears)
                        .Select(y =>
                            y < network.DamagedAtMostFrom
                                ? (long?)null
                                : (long)Math.Floor(most * areaDm2)
                        ),
                ]
                : [],
        };

    private int Corridor(string? name)
    {
        if (name is null)
        {
            return -1;
        }

        if (!corridors.TryGetValue(name, out var number))
        {
            corridors.Add(name, number = corridors.Count);
        }

        return number;
    }
}
