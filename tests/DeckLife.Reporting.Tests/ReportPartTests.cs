using System.Globalization;
using System.Text.RegularExpressions;
using DeckLife.Reporting.Html;
using DeckLife.Reporting.Page;
using Xunit;

namespace DeckLife.Reporting.Tests;

public class ReportPartTests
{
    public static TheoryData<string> Parts() => [.. All(InventedProjection.Make()).Keys];

    internal static Dictionary<string, IReportPart> All(Projection.DeckProjection projection)
    {
        var report = new DeckReport(projection);
        return new()
        {
            ["answer"] = report.Answer(),
            ["strategies"] = report.Strategies(),
            ["damaged"] = report.DamagedArea(),
            ["other"] = report.OtherConditions(),
            ["life"] = report.ServiceLife(),
            ["cost"] = report.Cost(),
            ["work"] = report.Work(),
            ["profiles"] = report.Profiles(),
            ["estimates"] = report.Estimates(),
            ["surveys"] = report.Surveys(),
            ["quality"] = report.DataQuality(),
            ["results"] = report.Results(),
            ["inputs"] = report.Inputs(),
            ["assumptions"] = report.Assumptions(),
            ["nottold"] = report.NotTold(),
            ["provenance"] = report.Provenance(),
            ["glossary"] = report.Glossary,
            ["deckfit"] = Sections.DomainParts.Of(projection.Fit),
            ["influence"] = Sections.SliceInfluenceTable.Of(projection.Cores),
        };
    }

    [Fact]
    public void DeckFit_OnItsOwn_ShowsTheOtherMethodItsCoresAndTheCrackCoresApart()
    {
        var fit = InventedProjection.Make().Fit;
        var core = new DeckLife.Fitting.DeckCoreEstimate(
            "K7",
            20,
            new(5) { Lower95 = 4, Upper95 = 6 },
            new(21) { Lower95 = 15, Upper95 = 29 },
            false
        );
        var full = fit with
        {
            CoreEstimates = [core],
            Reml = new()
            {
                SurfaceChloride = new(5.25) { Lower95 = 4.5, Upper95 = 6.1 },
                DiffusionCoefficient = new(22.5) { Lower95 = 16, Upper95 = 31 },
                SdLnSurfaceChloride = 0.21,
                SdLnDiffusionCoefficient = 0.43,
                Correlation = 1,
                BackgroundKgPerM3 = 0.1,
                LabErrorSdKgPerM3 = 0.12,
                LogLikelihood = 3,
                IsSingular = true,
                DegreesOfFreedom = 7,
            },
            CrackCores = fit with { Cores = 1, Reason = "fewer than 3 cores" },
        };

        var text = Sections.DomainParts.Of(full).ToText();

        Assert.Contains("t limits on 7 degrees of freedom", text, StringComparison.Ordinal);
        Assert.Contains("at the edge", text, StringComparison.Ordinal);
        Assert.Contains("22.5", text, StringComparison.Ordinal);
        Assert.Contains("K7", text, StringComparison.Ordinal);
        Assert.Contains(
            "Cores on cracks, kept apart: fewer than 3 cores.",
            text,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void ToHtml_EveryNumberOfTheDecisionTable_LinksToAnEntryThatExists()
    {
        var parts = All(InventedProjection.Make());
        var page = string.Concat(parts.Values.Select(p => p.ToHtml().Markup));
        var answer = parts["answer"].ToHtml().Markup;
        var body = answer[answer.IndexOf("<tbody", StringComparison.Ordinal)..];

        var cells = Regex
            .Matches(body[..body.IndexOf("</tbody>", StringComparison.Ordinal)], "<td.*?</td>")
            .Select(m => m.Value)
            .Where(c => Regex.Replace(c, "<[^>]*>", "").Any(char.IsAsciiDigit))
            .ToList();
        Assert.True(cells.Count > 12);
        Assert.All(
            cells,
            c => Assert.Contains("<a class=\"dl-basis\"", c, StringComparison.Ordinal)
        );
        var targets = Regex
            .Matches(page, "href=\"#(basis-[^\"]+)\"")
            .Select(m => m.Groups[1].Value);
        Assert.All(
            targets.Distinct(),
            t => Assert.Equal(1, Regex.Count(page, $"id=\"{Regex.Escape(t)}\""))
        );
        // Outside a report there is no list to link to.
        Assert.DoesNotContain(
            "#basis-",
            Sections.DomainParts.Of(InventedProjection.Make()).ToHtml().Markup,
            StringComparison.Ordinal
        );
    }

    [Theory]
    [MemberData(nameof(Parts))]
    public void ToHtml_HostileNames_NothingBreaksOut(string part)
    {
        var html = All(InventedProjection.Make(hostile: true))[part].ToHtml().Markup;

        Assert.DoesNotContain("<img", html, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain(
            "\u2028",
            html.Replace("\\u2028", "", StringComparison.Ordinal)
                .Replace("&amp;amp; \u2028", "", StringComparison.Ordinal),
            StringComparison.Ordinal
        );
        // A mark that turns the direction of writing would turn the numbers after it.
        Assert.DoesNotContain("\u202E", html, StringComparison.Ordinal);
        Assert.DoesNotContain("\\u202e", html, StringComparison.OrdinalIgnoreCase);
        // Every script end belongs to a script begun by this library: two kinds only.
        Assert.Equal(
            Regex.Count(
                html,
                "<script( type=\"application/json\" class=\"dl-figure\" data-units=\"(si|us)\")?>"
            ),
            Regex.Count(html, "</script", RegexOptions.IgnoreCase)
        );
        // Tags of this library's own, balanced.
        foreach (
            var tag in new[] { "div", "table", "figure", "details", "section", "dl", "ul", "span" }
        )
        {
            Assert.Equal(Regex.Count(html, $"<{tag}[ >]"), Regex.Count(html, $"</{tag}>"));
        }
    }

    [Theory]
    [MemberData(nameof(Parts))]
    public void ToHtml_AnyPart_NoNaNOrInfinityAndSameUnderAnyCulture(string part)
    {
        var invariant = All(InventedProjection.Make())[part].ToHtml().Markup;
        Assert.DoesNotMatch("\\bNaN\\b|Infinity|∞", invariant);
        var before = CultureInfo.CurrentCulture;
        try
        {
            foreach (var culture in new[] { "de-DE", "tr-TR", "ar-SA" })
            {
                CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo(culture);
                var made = All(InventedProjection.Make())[part];
                Assert.Equal(invariant, made.ToHtml().Markup);
                Assert.NotEmpty(made.ToText());
            }
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    [Fact]
    public void ToHtml_NoPrices_SaysSoAndShowsNoCost()
    {
        var parts = All(InventedProjection.Make(withPrices: false));

        Assert.Contains(
            "No prices were given",
            parts["answer"].ToHtml().Markup,
            StringComparison.Ordinal
        );
        Assert.DoesNotContain("USD", parts["answer"].ToHtml().Markup, StringComparison.Ordinal);
        Assert.Contains("no prices", parts["cost"].ToHtml().Markup, StringComparison.Ordinal);
        // Without prices the longest life leads: the invented deep removal.
        Assert.Contains(
            "<b>Deep removal, dense overlay</b>",
            parts["answer"].ToHtml().Markup,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Answer_Always_CarriesLifeWithBandAndCriterionAndTheCautions()
    {
        var projection = InventedProjection.Make();
        var html = new DeckReport(projection).Answer().ToHtml().Markup;

        Assert.Contains("<b>Remove to the limit and overlay</b>", html, StringComparison.Ordinal);
        Assert.Contains("10\u00A0% of the deck area damaged", html, StringComparison.Ordinal);
        // 37 × 1 × sqrt(-ln 0.6) + 1 = 27.4; × 0.72: 20.04; × 1.35: 36.7: the fixture's own formula.
        Assert.Contains("27 years", html, StringComparison.Ordinal);
        Assert.Contains("5–95\u00A0%: 20 to 37", html, StringComparison.Ordinal);
        Assert.Contains("structural check, staging and shoring", html, StringComparison.Ordinal);
        Assert.Contains("post-tensioned or precast", html, StringComparison.Ordinal);
        Assert.Contains("licensed engineer", html, StringComparison.Ordinal);
        Assert.Contains("silica dust", html, StringComparison.Ordinal);
        Assert.Contains("probabilities", html, StringComparison.Ordinal);
        Assert.Contains(projection.Cautions[0], html, StringComparison.Ordinal);
    }

    [Fact]
    public void DataQuality_RefusedCore_ShowsReasonAndNoEstimate()
    {
        var table = Sections.DataQuality.Of(InventedProjection.Make()).Cores();
        var refused = table.Rows[^1];

        Assert.Equal("refused", refused[3].Text);
        Assert.Equal("no estimate", refused[4].Text);
        Assert.Contains("do not fall with depth", refused[7].Text, StringComparison.Ordinal);
        Assert.Contains("Line 14 left out", table.Rows[2][7].Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Render_WholePage_SameBytesSmallAndWithoutOutsideAddress()
    {
        string Page() =>
            new HtmlPage
            {
                Title = "Test <page>",
                Version = "0",
                Contents = [new("a", "A & B")],
                Body = HtmlFragment.Join(
                    All(InventedProjection.Make()).Values.Select(p => p.ToHtml())
                ),
            }.Render();

        var page = Page();
        File.WriteAllText(Path.Combine(AppContext.BaseDirectory, "page.html"), page);

        Assert.Equal(page, Page());
        Assert.True(page.Length < 6_000_000);
        Assert.Contains("<title>Test &lt;page&gt;</title>", page, StringComparison.Ordinal);
        Assert.DoesNotMatch("<(script|link|img|iframe)[^>]+(src|href)=", page);
    }

    [Fact]
    public void Answer_DecisionWorkedOut_FirstScreenTellsHowSureAndWhatKnowingMoreIsWorth()
    {
        var decision = new DeckLife.Decisions.DecisionAnalysis
        {
            Drivers = new()
            {
                Lead = "Scarify and overlay",
                Next = "Deep removal",
                MeanDifference = 31_000,
                ErrorOfDifference = 7_000,
                LeadProbability = 0.55,
                Drivers =
                [
                    new(
                        "median cover [mm]",
                        DeckLife.Decisions.InputSource.CoverSurvey,
                        0.5,
                        0.05,
                        0.9,
                        0.2
                    ),
                ],
            },
            Information = new()
            {
                ChosenNow = "Scarify and overlay",
                Perfect = 100_000,
                ErrorOfPerfect = 4_000,
                Currency = "USD",
                Offers =
                [
                    new(
                        new(DeckLife.Decisions.InformationKind.Cores, 8, 9_000),
                        940,
                        900,
                        0.03,
                        800
                    ),
                ],
            },
        };
        var report = new DeckReport(InventedProjection.Make(), null, decision);

        var html = report.Answer().ToHtml().ToString();
        var text = report.Answer().ToText();

        foreach (var page in new[] { html, text })
        {
            Assert.Contains("How sure", page, StringComparison.Ordinal);
            Assert.Contains("It hangs most on median cover [mm]", page, StringComparison.Ordinal);
            Assert.Contains("Before deciding", page, StringComparison.Ordinal);
            Assert.Contains("8 more cores: 940", page, StringComparison.Ordinal);
            Assert.Contains("at a price of 9,000", page, StringComparison.Ordinal);
        }

        Assert.Contains("8 more cores", report.Decision().ToText(), StringComparison.Ordinal);
    }
}
