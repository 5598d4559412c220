using System.Collections.Immutable;
using System.Globalization;
using System.Reflection;
using DeckLife.Projection;
using DeckLife.Reporting.Html;
using DeckLife.Reporting.Tables;

namespace DeckLife.Reporting.Sections;

/// <summary>Where a report comes from: version, seed, sizes, and the fingerprint of every file.</summary>
public static class Provenance
{
    /// <summary>Makes the table.</summary>
    /// <param name="projection">The projection.</param>
    public static ReportTable Of(DeckProjection projection)
    {
        ArgumentNullException.ThrowIfNull(projection);
        return Of(projection.Deck with { Analysis = projection.Settings });
    }

    /// <summary>Makes the table for a deck.</summary>
    /// <param name="deck">The deck.</param>
    public static ReportTable Of(Deck deck)
    {
        ArgumentNullException.ThrowIfNull(deck);
        var analysis = deck.Analysis;
        var (version, commit) = Version();
        return new(
            "Provenance",
            [new("What"), new("Value")],
            [
                Row("Version", version),
                ImmutableArray.Create(
                    ReportCell.Words("Commit"),
                    ReportCell.Fragment(
                        HtmlFragment.Of($"<code class=\"dl-hash\">{commit}</code>"),
                        commit
                    )
                ),
                Row("Seed", analysis.Seed.ToString(CultureInfo.InvariantCulture)),
                Row(
                    "Draws of what is not known",
                    analysis.Draws.ToString(CultureInfo.InvariantCulture)
                ),
                Row(
                    "Points of the deck in each draw",
                    analysis.Points.ToString(CultureInfo.InvariantCulture)
                ),
                .. deck.Inputs.Select(i =>
                    ImmutableArray.Create(
                        ReportCell.Words(i.Name),
                        ReportCell.Fragment(
                            HtmlFragment.Of($"<code class=\"dl-hash\">{i.Sha256}</code>"),
                            i.Sha256
                        )
                    )
                ),
            ]
        );
    }

    /// <summary>The library's version and the commit that it was built from.</summary>
    public static (string Version, string Commit) Version()
    {
        var parts = (
            typeof(Deck)
                .Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()
                ?.InformationalVersion
            ?? "unknown"
        ).Split('+', 2);
        return (parts[0], parts.Length > 1 ? parts[1] : "not recorded");
    }

    private static ImmutableArray<ReportCell> Row(string name, string value) =>
        [ReportCell.Words(name), ReportCell.Words(value)];
}
