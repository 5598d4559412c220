using System.Globalization;
using System.Text;
using DeckLife.Fitting;
using DeckLife.Quantities;
using Xunit;
using Xunit.Abstractions;

namespace DeckLife.ReferenceChecks.Fitting;

/// <summary>All 148 profiles of the marine cores, read where they lie outside the repository.</summary>
public class MarineProfileTests(ITestOutputHelper output)
{
    // P035, P037 and P047: the second slice above the first. P044: published Cs below the first slice's content. See MarineTypedCases.
    private static readonly string[] Outliers = ["P035", "P037", "P044", "P047"];

    [Fact]
    public void Fit_EveryProfile_FittedLimitedOrRefusedWithItsReason()
    {
        foreach (var entry in Profiles())
        {
            foreach (
                var options in new[]
                {
                    new ProfileFitOptions(),
                    new ProfileFitOptions { Weights = SliceWeights.Relative },
                    new ProfileFitOptions { Law = ErrorLaw.Student },
                }
            )
            {
                var fit = ProfileFitter.Fit(entry.Core, options);

                Assert.True(
                    fit.Status == FitStatus.Fitted || !string.IsNullOrEmpty(fit.Reason),
                    entry.Core.Core
                );
                Assert.Equal(fit.Status == FitStatus.Refused, fit.DiffusionCoefficient is null);
                if (fit.DiffusionCoefficient is { } d)
                {
                    Assert.True(double.IsFinite(d.Value) && d.Value > 0, entry.Core.Core);
                    Assert.True(
                        d.StandardError is null || double.IsFinite(d.StandardError.Value),
                        entry.Core.Core
                    );
                }
            }
        }
    }

    [Fact]
    public void Fit_PublishedFits_NoneRefusedAndAllButTheExplainedWithin25Percent()
    {
        var profiles = Profiles();
        if (profiles.Count == 0)
        {
            return;
        }

        var published = profiles.Where(e => e.PublishedD is not null).ToArray();
        var ratios = published.ToDictionary(
            e => e.Core.Core,
            e =>
                ProfileFitter
                    .Fit(e.Core, MarineProfiles.AsPublished(e.Skip))
                    .DiffusionCoefficient?.Value
                / UnitFactors.SquareMillimetresPerSquareInch
                / e.PublishedD
        );

        Assert.Equal(97, published.Length);
        Assert.All(ratios.Values, r => Assert.NotNull(r));
        Assert.Equal(
            Outliers,
            ratios.Where(r => r.Value is not (> 0.75 and < 1.25)).Select(r => r.Key).Order()
        );
    }

    /// <summary>Rewrites the wide table when asked (DECKLIFE_WRITE_RESULTS=1, outside data present).</summary>
    [Fact]
    public void WideTable_WhenAsked_IsWritten()
    {
        var profiles = Profiles();
        if (
            profiles.Count == 0
            || Environment.GetEnvironmentVariable("DECKLIFE_WRITE_RESULTS") != "1"
        )
        {
            return;
        }

        var text = new StringBuilder(
            "# Marine cores against the agency's own fits\n\n"
                + "Source: Florida Department of Transportation, final report, State Job 99700-3515-020, Contract BA502 (31 Dec 2001), Tables 4 and 5.\n"
                + "As published: contents at slice centres, slice A left out in schemes 3 to 6, background at least 0, constant weights. D in in²/yr with 95 % limits by profile likelihood.\n"
                + "Command: DECKLIFE_WRITE_RESULTS=1 DECKLIFE_OUTSIDE_DATA=<folder> dotnet test -c Release reference-checks/DeckLife.ReferenceChecks --filter MarineProfileTests\n\n"
                + "| profile | scheme | published D | D | 95 % limits | ratio | status | default fit |\n| --- | --- | --- | --- | --- | --- | --- | --- |\n"
        );
        foreach (var entry in profiles)
        {
            text.Append(Line(entry));
        }

        var all = profiles.Where(e => e.PublishedD is not null).ToArray();
        var ratios = all.Select(e => Ratio(e)!.Value).Order().ToArray();
        text.Append(
            CultureInfo.InvariantCulture,
            $"\nOf {all.Length} published fits {ratios.Count(r => r is > 0.75 and < 1.25)} agree within 25 %, {ratios.Count(r => r is > 0.9 and < 1.1)} within 10 %; median ratio {ratios[all.Length / 2]:F3}, in scheme 1 {Median(all.Where(e => e.Scheme == 1)):F3}, in schemes 3 to 6 {Median(all.Where(e => e.Scheme >= 3)):F3}.\n"
        );
        text.Append(
            "Outliers: P035, P037, P047 have their largest content in the second slice, and the published D is no least-squares minimum of the printed contents even with the background held as published; P044 has a published Cs below the content of its own first slice.\n"
        );
        File.WriteAllText(
            Path.Combine(Path.GetDirectoryName(ResultsFile.Path)!, "MARINE-PROFILES.md"),
            text.ToString()
        );
    }

    private static string Line(MarineProfiles.Entry entry)
    {
        var fit = ProfileFitter.Fit(entry.Core, MarineProfiles.AsPublished(entry.Skip));
        var plain = ProfileFitter.Fit(entry.Core);
        var d = fit.DiffusionCoefficient;
        string In(double? mm) =>
            mm is { } v
                ? (v / UnitFactors.SquareMillimetresPerSquareInch).ToString(
                    "G3",
                    CultureInfo.InvariantCulture
                )
                : "none";
        var ratio = Ratio(entry) is { } r ? r.ToString("F3", CultureInfo.InvariantCulture) : "";
        return string.Create(
            CultureInfo.InvariantCulture,
            $"| {entry.Core.Core} | {entry.Scheme} | {entry.PublishedD?.ToString("G3", CultureInfo.InvariantCulture) ?? "not fitted"} | {(d is null ? "" : In(d.Value))} | {(d is null ? "" : $"{In(d.Lower95)} to {In(d.Upper95)}")} | {ratio} | {Status(fit)} | {Status(plain)} |\n"
        );
    }

    private static string Status(ProfileFit fit) =>
        fit.Status == FitStatus.Refused
            ? "refused " + fit.Flags[^1].Code
            : fit.Status.ToString().ToLowerInvariant();

    private static double Median(IEnumerable<MarineProfiles.Entry> entries)
    {
        var ratios = entries.Select(e => Ratio(e)!.Value).Order().ToArray();
        return ratios[ratios.Length / 2];
    }

    private static double? Ratio(MarineProfiles.Entry entry) =>
        ProfileFitter
            .Fit(entry.Core, MarineProfiles.AsPublished(entry.Skip))
            .DiffusionCoefficient?.Value
        / UnitFactors.SquareMillimetresPerSquareInch
        / entry.PublishedD;

    private IReadOnlyList<MarineProfiles.Entry> Profiles()
    {
        var folder = Environment.GetEnvironmentVariable("DECKLIFE_OUTSIDE_DATA");
        if (string.IsNullOrEmpty(folder))
        {
            output.WriteLine("skipped: outside data absent");
            return [];
        }

        return MarineProfiles.Read(folder);
    }
}
