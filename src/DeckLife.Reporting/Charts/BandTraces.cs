using DeckLife.Projection;

namespace DeckLife.Reporting.Charts;

/// <summary>A line with its band: median, and the area from the 5th to the 95th percentile, shown and hidden together.</summary>
internal static class BandTraces
{
    /// <summary>Adds both to a figure.</summary>
    /// <param name="figure">The figure.</param>
    /// <param name="years">Calendar years.</param>
    /// <param name="bands">Shares as fractions, one a year; drawn in percent.</param>
    /// <param name="name">Name of the line.</param>
    /// <param name="colour">Its colour.</param>
    /// <param name="dash">How it is dashed.</param>
    /// <param name="opacity">Of the band.</param>
    /// <param name="hover">What a point says.</param>
    public static void Add(
        Figure figure,
        double[] years,
        IReadOnlyList<PercentileBand> bands,
        string name,
        string colour,
        string dash,
        string opacity,
        string hover
    )
    {
        double[] Percent(Func<PercentileBand, double> of) => [.. bands.Select(b => 100 * of(b))];
        (string, object?)[] edge =
        [
            ("x", years),
            ("mode", "lines"),
            ("line", new { width = 0, color = colour }),
            ("hoverinfo", "skip"),
            ("showlegend", false),
            ("legendgroup", name),
        ];
        figure.Add("scatter", [.. edge, ("y", Percent(b => b.P05))]);
        figure.Add(
            "scatter",
            [
                .. edge,
                ("y", Percent(b => b.P95)),
                ("fill", "tonexty"),
                ("fillcolor", ChartPalette.Translucent(colour, opacity)),
            ]
        );
        figure.Add(
            "scatter",
            ("x", years),
            ("y", Percent(b => b.P50)),
            ("mode", "lines"),
            ("name", name),
            ("legendgroup", name),
            (
                "line",
                new
                {
                    color = colour,
                    width = 2.5,
                    dash,
                }
            ),
            ("hovertemplate", hover)
        );
    }
}
