using System.Collections.Immutable;
using System.Globalization;
using DeckLife.Network.Programs;

namespace DeckLife.Network.Results;

/// <summary>The words that go with a network's results wherever they are shown.</summary>
public static class NetworkNotes
{
    /// <summary>Cautions for the first screen.</summary>
    public static ImmutableArray<string> Cautions { get; } =
    [
        "This is a planning aid. It does not judge any deck's strength or whether it is safe to carry traffic. Local specifications and a licensed engineer decide; a deck that looks dangerous goes before every program.",
        "Removal below the top bars needs a structural check, staging and shoring first. Never assume it for post-tensioned or precast decks.",
        "Concrete removal, hydrodemolition, blasting and silica dust hurt people: site safety rules apply.",
    ];

    /// <summary>How sure a program is to be the best, in a sentence.</summary>
    /// <param name="status">The status.</param>
    /// <param name="gap">The gap.</param>
    public static string Sureness(ProgramStatus status, double gap) =>
        status switch
        {
            ProgramStatus.Optimal => "No program avoids more damaged area, weighted as stated.",
            ProgramStatus.WithinGap =>
                $"Another program could avoid at most {Percent(gap)} more damaged area, weighted as stated; the search ended there.",
            _ =>
                $"The condition asked for can't be held; the program misses it least and may be improved in value by at most {Percent(gap)}.",
        };

    /// <summary>What the results stand on.</summary>
    /// <param name="result">The results.</param>
    public static ImmutableArray<string> Assumptions(NetworkResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        var network = result.Network;
        return
        [
            string.Create(
                CultureInfo.InvariantCulture,
                $"Sampling: {network.Draws} draws of what is not known about each deck, {network.Points} points of the deck in each; one history for each strategy and start year gives condition, cost and band. Enough to rank decks in a program; look at a single deck with its own projection."
            ),
            "Bands are given for two ends: decks that err independently, whose errors average out over the network, and decks that all err together. What is not known about thresholds, propagation and the model's form is largely common to all decks: the truth is nearer to the second.",
            "Money binds the expected cost of each year, rounded up, in constant prices; what a program leaves to be spent after its last year is not its own. Each deck gets at most one strategy.",
            "Value is the damaged area avoided against doing nothing, from the first year to the last looked at, times the deck's weight. It does not count what users pay for closures, nor renewal of a deck that is past repair.",
            "A deck without cores stands on its exposure class: its surface content and diffusion coefficient are those of decks like it, and its bands are wide.",
        ];
    }

    private static string Percent(double share) =>
        (100 * share).ToString(share < 1e-4 ? "0.####" : "0.##", CultureInfo.InvariantCulture)
        + " %";
}
