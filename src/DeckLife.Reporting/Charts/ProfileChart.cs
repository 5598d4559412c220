using System.Collections.Immutable;
using DeckLife.Diagnostics;
using DeckLife.Fitting;
using DeckLife.Profiles;
using DeckLife.Reporting.Html;
using DeckLife.Reporting.Notation;
using DeckLife.Reporting.Tables;

namespace DeckLife.Reporting.Charts;

/// <summary>Measured slices of a core as the steps that they are, with the fitted curve.</summary>
public static class ProfileChart
{
    /// <summary>Draws the profile of one core.</summary>
    /// <param name="fit">The fit, or the refusal.</param>
    /// <param name="largestContent">Top of the content axis [kg/m³], to compare cores; absent: this core's own.</param>
    /// <param name="deepest">End of the depth axis [mm]; absent: this core's own.</param>
    public static ReportChart Draw(
        ProfileFit fit,
        double? largestContent = null,
        double? deepest = null
    )
    {
        ArgumentNullException.ThrowIfNull(fit);
        var core = fit.Profile.Core;
        var depth = deepest ?? Deepest(fit);
        return new ReportChart(
            $"Core {core}",
            Note(fit, MessageUnits.Canonical),
            Alternative(fit, UnitSystem.Si),
            300,
            Json(fit, UnitSystem.Si, largestContent, depth),
            Json(fit, UnitSystem.UsCustomary, largestContent, depth),
            Numbers(fit)
        )
        {
            NoteUs = Note(fit, MessageUnits.UsCustomary),
            AlternativeTextUs = Alternative(fit, UnitSystem.UsCustomary),
        };
    }

    /// <summary>Draws a profile that was not fitted.</summary>
    /// <param name="profile">The profile.</param>
    public static ReportChart Measured(CoreProfile profile)
    {
        ArgumentNullException.ThrowIfNull(profile);
        var chart = Draw(
            new ProfileFit
            {
                Profile = profile,
                Status = FitStatus.Refused,
                Reason = "not fitted yet",
            }
        );
        return chart with { Note = "as measured, not fitted yet." };
    }

    /// <summary>Depth that the slices reach, with a margin [mm].</summary>
    /// <param name="fit">The fit.</param>
    public static double Deepest(ProfileFit fit)
    {
        ArgumentNullException.ThrowIfNull(fit);
        return 1.08
            * fit.Profile.Slices.Select(s => s.Bottom.Millimetres).DefaultIfEmpty(100).Max();
    }

    /// <summary>Largest content that the chart of a fit shows, with a margin [kg/m³].</summary>
    /// <param name="fit">The fit.</param>
    public static double Largest(ProfileFit fit)
    {
        ArgumentNullException.ThrowIfNull(fit);
        return 1.1
            * fit.Profile.Slices.Select(s => s.Content.KilogramsPerCubicMetre)
                .Append(fit.SurfaceChloride?.Value ?? 0)
                .DefaultIfEmpty(1)
                .Max();
    }

    private static string Json(
        ProfileFit fit,
        UnitSystem system,
        double? largestContent,
        double deepest
    )
    {
        var figure = new Figure();
        double X(double mm) => UnitScale.Depth.To(mm, system);
        double Y(double kg) => UnitScale.Chloride.To(kg, system);
        var excluded = fit.Excluded.Select(e => e.Row).ToHashSet();
        Steps(
            figure,
            "measured",
            ChartPalette.Measured,
            "solid",
            fit.Profile.Slices.Where(s => !s.IsNonDetect && !excluded.Contains(s.Row)),
            X,
            Y
        );
        Steps(
            figure,
            "below detection limit",
            ChartPalette.Measured,
            "dot",
            fit.Profile.Slices.Where(s => s.IsNonDetect && !excluded.Contains(s.Row)),
            X,
            Y
        );
        Steps(
            figure,
            "left out of the fit",
            ChartPalette.LeftOut,
            "solid",
            fit.Profile.Slices.Where(s => excluded.Contains(s.Row)),
            X,
            Y
        );
        if (fit.Status != FitStatus.Refused && FitCurve.Of(fit) is { } curve)
        {
            var depths = Enumerable.Range(0, 81).Select(i => deepest * i / 80).ToArray();
            var x = depths.Select(X).ToArray();
            var band = FitCurve.Band(fit, depths);
            if (band is not null)
            {
                (string, object?)[] edge =
                [
                    ("x", x),
                    ("mode", "lines"),
                    ("line", new { width = 0, color = ChartPalette.Fitted }),
                    ("hoverinfo", "skip"),
                ];
                figure.Add(
                    "scatter",
                    [.. edge, ("y", band.Lower.Select(Y).ToArray()), ("showlegend", false)]
                );
                figure.Add(
                    "scatter",
                    [
                        .. edge,
                        ("y", band.Upper.Select(Y).ToArray()),
                        ("fill", "tonexty"),
                        ("fillcolor", ChartPalette.Translucent(ChartPalette.Fitted, "0.16")),
                        ("name", band.Name),
                    ]
                );
            }

            figure.Add(
                "scatter",
                ("x", x),
                ("y", depths.Select(d => Y(curve.At(d))).ToArray()),
                ("mode", "lines"),
                ("line", new { width = 2, color = ChartPalette.Fitted }),
                ("name", "fit"),
                ("hovertemplate", "%{x:.3~r}: %{y:.3~r}")
            );
        }

        return figure
            .Layout(
                (
                    "xaxis",
                    Figure.Axis(
                        $"Depth [{UnitScale.Depth.Unit(system)}]",
                        ("range", new[] { 0, X(deepest) }),
                        ("zeroline", false)
                    )
                ),
                (
                    "yaxis",
                    Figure.Axis(
                        $"Chloride [{UnitScale.Chloride.Unit(system)}]",
                        ("range", new[] { 0, Y(largestContent ?? Largest(fit)) }),
                        ("zeroline", false)
                    )
                ),
                (
                    "margin",
                    new
                    {
                        l = 52,
                        r = 10,
                        t = 8,
                        b = 46,
                    }
                ),
                (
                    "legend",
                    new
                    {
                        orientation = "v",
                        traceorder = "normal",
                        x = 0.98,
                        xanchor = "right",
                        y = 0.98,
                        yanchor = "top",
                        font = new { size = 11 },
                        bgcolor = "rgba(0,0,0,0)",
                    }
                )
            )
            .ToJson();
    }

    private static void Steps(
        Figure figure,
        string name,
        string colour,
        string dash,
        IEnumerable<ChlorideSlice> slices,
        Func<double, double> x,
        Func<double, double> y
    )
    {
        var list = slices.ToList();
        if (list.Count == 0)
        {
            return;
        }

        // Three points a slice and a gap: the slice from top to bottom, its centre in between to hover on.
        figure.Add(
            "scatter",
            (
                "x",
                list.SelectMany(s =>
                        new double?[]
                        {
                            x(s.Top.Millimetres),
                            x(s.CentreMm),
                            x(s.Bottom.Millimetres),
                            null,
                        }
                    )
                    .ToArray()
            ),
            (
                "y",
                list.SelectMany(s =>
                    {
                        var c = y(s.Content.KilogramsPerCubicMetre);
                        return new double?[] { c, c, c, null };
                    })
                    .ToArray()
            ),
            ("mode", list.Any(s => s.IsCentreOnly) ? "lines+markers" : "lines"),
            (
                "line",
                new
                {
                    color = colour,
                    width = 4,
                    dash,
                }
            ),
            ("marker", new { color = colour, size = 7 }),
            ("connectgaps", false),
            ("name", name),
            ("hovertemplate", "%{x:.3~r}: %{y:.3~r}")
        );
    }

    private static string Note(ProfileFit fit, MessageUnits units) =>
        fit.Status switch
        {
            FitStatus.Fitted => "fitted.",
            FitStatus.Limited => $"limited: {MessageHtml.Reason(fit.Reason, fit.Flags, units)}",
            _ => $"refused: {MessageHtml.Reason(fit.Reason, fit.Flags, units)}",
        };

    private static string Alternative(ProfileFit fit, UnitSystem system)
    {
        var slices = fit.Profile.Slices;
        string Text(UnitScale scale, double value) => QuantityHtml.Text(scale, value, system);
        string Content(ChlorideSlice slice) =>
            Text(UnitScale.Chloride, slice.Content.KilogramsPerCubicMetre);
        var start =
            $"Chloride against depth of core {fit.Profile.Core}: {slices.Length} slices"
            + (
                slices.Length > 0
                    ? $" from {Content(slices[0])} at the surface to {Content(slices[^1])} at {Text(UnitScale.Depth, slices[^1].CentreMm)}."
                    : "."
            );
        return fit.Status == FitStatus.Refused
            ? $"{start} No fit: {MessageHtml.Reason(fit.Reason, fit.Flags, system == UnitSystem.Si ? MessageUnits.Canonical : MessageUnits.UsCustomary)}"
            : $"{start} Fit: surface content {Text(UnitScale.Chloride, fit.SurfaceChloride!.Value)}, diffusion coefficient {Text(UnitScale.Diffusion, fit.DiffusionCoefficient!.Value)}.";
    }

    private static ReportTable Numbers(ProfileFit fit)
    {
        var curve = FitCurve.Of(fit);
        // Beside a slice's content stands the mean of the curve over it; a slice of unknown thickness has its mid-depth alone.
        double? Fitted(ChlorideSlice slice) =>
            fit.Options.AsPoints || slice.IsCentreOnly
                ? curve?.At(slice.CentreMm)
                : curve?.MeanOver(slice.Top.Millimetres, slice.Bottom.Millimetres);
        var reasons = fit.Excluded.ToLookup(e => e.Row, e => e.Reason);
        return new(
            $"Core {fit.Profile.Core}: slices",
            [
                new("Top", true, UnitScale.Depth),
                new("Bottom", true, UnitScale.Depth),
                new("Measured", true, UnitScale.Chloride),
                new(
                    fit.Options.AsPoints ? "Fitted at mid-depth" : "Fitted mean of the slice",
                    true,
                    UnitScale.Chloride
                ),
                new("Remark"),
            ],
            [
                .. fit.Profile.Slices.Select(s =>
                    ImmutableArray.Create(
                        ReportCell.Quantity(UnitScale.Depth, s.Top.Millimetres),
                        ReportCell.Quantity(UnitScale.Depth, s.Bottom.Millimetres),
                        ReportCell.Quantity(UnitScale.Chloride, s.Content.KilogramsPerCubicMetre),
                        fit.Status == FitStatus.Refused
                            ? ReportCell.Missing("no fit")
                            : ReportCell.Quantity(UnitScale.Chloride, Fitted(s)),
                        ReportCell.Words(
                            string.Join(
                                "; ",
                                new[] { s.IsNonDetect ? "below the detection limit shown" : "" }
                                    .Concat(
                                        s.Row > 0
                                            ? reasons[s.Row].Select(r => "left out: " + r)
                                            : []
                                    )
                                    .Where(t => t.Length > 0)
                            )
                        )
                    )
                ),
            ]
        );
    }
}
