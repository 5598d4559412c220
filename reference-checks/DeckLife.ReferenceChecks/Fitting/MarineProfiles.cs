using System.Globalization;
using DeckLife.Fitting;
using DeckLife.Profiles;
using DeckLife.Quantities;

namespace DeckLife.ReferenceChecks.Fitting;

/// <summary>
/// Chloride profiles of cores from 13 marine bridges with the agency's own fits: Florida Department of Transportation, final report,
/// State Job 99700-3515-020, Contract BA502 (2001), Tables 4 and 5. Contents at slice centres; thickness not published.
/// </summary>
internal static class MarineProfiles
{
    /// <summary>One profile with its published fit, where the report gives one.</summary>
    /// <param name="Core">The profile.</param>
    /// <param name="Scheme">The report's slicing scheme; in 3 to 6 slice A was left out of the agency's fit.</param>
    /// <param name="FirstSlice">Letter of the shallowest slice.</param>
    /// <param name="PublishedD">D [in²/yr].</param>
    /// <param name="PublishedSurface">Cs [lb/yd³].</param>
    /// <param name="PublishedBackground">C0 [lb/yd³].</param>
    public sealed record Entry(
        CoreProfile Core,
        int Scheme,
        string FirstSlice,
        double? PublishedD,
        double? PublishedSurface,
        double? PublishedBackground
    )
    {
        /// <summary>Slices that the agency left out.</summary>
        public int Skip => Scheme >= 3 && FirstSlice == "A" ? 1 : 0;
    }

    public static IReadOnlyList<Entry> Read(string folder)
    {
        var at = Path.Combine(folder, "data", "marine-profiles");
        var published = Rows(Path.Combine(at, "marine_substructure_13_bridges_published_fits.csv"))
            .ToDictionary(r => r["profile_id"]);
        return
        [
            .. Rows(Path.Combine(at, "marine_substructure_13_bridges_profiles.csv"))
                .GroupBy(r => r["profile_id"])
                .Select(g => MakeEntry(g.Key, [.. g], published[g.Key])),
        ];
    }

    /// <summary>The choices of the agency's fit: centres, slice A left out in schemes 3 to 6, background at least 0.</summary>
    /// <param name="skip">Slices left out at the surface.</param>
    public static ProfileFitOptions AsPublished(int skip) =>
        new()
        {
            AsPoints = true,
            SkipSurface = skip,
            Influence = false,
            LimitsOverErrorKinds = false,
        };

    /// <summary>A core from centres [in] and contents [lb/yd³].</summary>
    public static CoreProfile Make(string name, double years, double[] inches, double[] pounds) =>
        new()
        {
            Core = name,
            ExposureAge = Age.FromYears(years),
            Slices =
            [
                .. inches.Zip(
                    pounds,
                    (x, c) =>
                        new ChlorideSlice
                        {
                            Top = Depth.FromInches(x),
                            Bottom = Depth.FromInches(x),
                            Content = ChlorideContent.FromPoundsPerCubicYard(c),
                        }
                ),
            ],
        };

    private static Entry MakeEntry(
        string id,
        Dictionary<string, string>[] rows,
        Dictionary<string, string> fit
    ) =>
        new(
            Make(
                id,
                Number(rows[0]["age_yr"]),
                [.. rows.Select(r => Number(r["depth_center_in"]))],
                [.. rows.Select(r => Number(r["chloride_lb_per_yd3"]))]
            ),
            int.Parse(rows[0]["slice_scheme"], CultureInfo.InvariantCulture),
            rows[0]["slice"],
            Optional(fit["published_D_in2_per_yr"]),
            Optional(fit["published_Cs_lb_per_yd3"]),
            Optional(fit["published_C0_lb_per_yd3"])
        );

    private static IEnumerable<Dictionary<string, string>> Rows(string path)
    {
        var lines = File.ReadAllLines(path);
        var head = lines[0].Split(',');
        return lines
            .Skip(1)
            .Where(l => l.Length > 0)
            .Select(l => l.Split(','))
            .Select(f => head.Zip(f).ToDictionary(p => p.First, p => p.Second));
    }

    private static double? Optional(string text) =>
        double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var value)
            ? value
            : null;

    private static double Number(string text) =>
        double.Parse(text, NumberStyles.Float, CultureInfo.InvariantCulture);
}
