using System.Collections.Immutable;
using DeckLife.Fitting;
using DeckLife.Reporting.Html;
using DeckLife.Reporting.Notation;
using DeckLife.Reporting.Tables;

namespace DeckLife.Reporting.Charts;

/// <summary>One estimate of every core beside the deck's: who agrees, who stands apart, and how sure each is.</summary>
public static class EstimatesChart
{
    /// <summary>Surface contents.</summary>
    /// <param name="cores">The fits of the cores.</param>
    /// <param name="deck">The fit of the deck.</param>
    public static ReportChart SurfaceChloride(ImmutableArray<ProfileFit> cores, DeckFit deck)
    {
        ArgumentNullException.ThrowIfNull(deck);
        return Draw(
            "Surface chloride by core",
            UnitScale.Chloride,
            cores,
            f => f.SurfaceChloride,
            deck.SurfaceChloride,
            "linear"
        );
    }

    /// <summary>Apparent diffusion coefficients.</summary>
    /// <param name="cores">The fits of the cores.</param>
    /// <param name="deck">The fit of the deck.</param>
    public static ReportChart DiffusionCoefficient(ImmutableArray<ProfileFit> cores, DeckFit deck)
    {
        ArgumentNullException.ThrowIfNull(deck);
        return Draw(
            "Apparent diffusion coefficient by core",
            UnitScale.Diffusion,
            cores,
            f => f.DiffusionCoefficient,
            deck.DiffusionCoefficient,
            "log"
        );
    }

    private static ReportChart Draw(
        string title,
        UnitScale scale,
        ImmutableArray<ProfileFit> cores,
        Func<ProfileFit, Estimate?> estimate,
        Estimate deck,
        string axisType
    )
    {
        var usable = cores
            .Where(c => c.Status != FitStatus.Refused && estimate(c) is not null)
            .Select(c => (Name: c.Profile.Core, Estimate: estimate(c)!, c.Status))
            .ToList();
        string Json(UnitSystem system)
        {
            var figure = new Figure();
            var all = usable
                .Select(u =>
                    (
                        u.Name,
                        u.Estimate,
                        Colour: ChartPalette.Measured,
                        Open: u.Status == FitStatus.Limited
                    )
                )
                .Append(("Deck median", deck, ChartPalette.Fitted, false));
            foreach (var (name, value, colour, open) in all)
            {
                var label = HtmlEscape.ChartLabel(name);
                if (
                    value is { Lower95: { } low, Upper95: { } high }
                    && (axisType != "log" || low > 0)
                )
                {
                    figure.Add(
                        "scatter",
                        ("x", new[] { scale.To(low, system), scale.To(high, system) }),
                        ("y", new[] { label, label }),
                        ("mode", "lines"),
                        (
                            "line",
                            new { color = ChartPalette.Translucent(colour, "0.45"), width = 7 }
                        ),
                        ("hoverinfo", "skip")
                    );
                }

                figure.Add(
                    "scatter",
                    ("x", new[] { scale.To(value.Value, system) }),
                    ("y", new[] { label }),
                    ("mode", "markers"),
                    (
                        "marker",
                        new
                        {
                            color = colour,
                            size = 11,
                            symbol = open ? "circle-open" : "circle",
                        }
                    ),
                    ("hovertemplate", "%{x:.3~r}<extra></extra>")
                );
            }

            return figure
                .Layout(
                    (
                        "xaxis",
                        Figure.Axis(
                            $"{char.ToUpperInvariant(scale.Name[0])}{scale.Name[1..]} [{scale.Unit(system)}]",
                            ("type", axisType),
                            ("rangemode", "tozero")
                        )
                    ),
                    (
                        "yaxis",
                        Figure.Axis(
                            "",
                            ("autorange", "reversed"),
                            ("type", "category"),
                            ("dtick", 1)
                        )
                    ),
                    ("showlegend", false),
                    (
                        "margin",
                        new
                        {
                            l = 16,
                            r = 12,
                            t = 8,
                            b = 48,
                        }
                    )
                )
                .ToJson();
        }

        string Alternative(UnitSystem system)
        {
            var values = usable.Select(u => u.Estimate.Value).DefaultIfEmpty(double.NaN).ToList();
            string Text(double value) => QuantityHtml.Text(scale, value, system);
            return $"{title}, {usable.Count} cores. Deck median {Text(deck.Value)}; cores from {Text(values.Min())} to {Text(values.Max())}.";
        }

        return new ReportChart(
            title,
            "Dot: estimate; bar: 95 % limits; open: limited.",
            Alternative(UnitSystem.Si),
            110 + (28 * (usable.Count + 1)),
            Json(UnitSystem.Si),
            Json(UnitSystem.UsCustomary),
            new ReportTable(
                title,
                [
                    new("Core"),
                    new("Estimate", true, scale),
                    new("Lower 95 %", true, scale),
                    new("Upper 95 %", true, scale),
                ],
                [
                    .. usable
                        .Select(u => (u.Name, u.Estimate))
                        .Append(("Deck median", deck))
                        .Select(u =>
                            ImmutableArray.Create(
                                ReportCell.Words(u.Item1),
                                ReportCell.Quantity(scale, u.Item2.Value),
                                ReportCell.Quantity(scale, u.Item2.Lower95),
                                ReportCell.Quantity(scale, u.Item2.Upper95)
                            )
                        ),
                ]
            )
        )
        {
            AlternativeTextUs = Alternative(UnitSystem.UsCustomary),
        };
    }
}
