using System.Collections.Immutable;
using DeckLife.Decisions;
using DeckLife.Diagnostics;
using DeckLife.Economics;
using DeckLife.Projection;
using DeckLife.Quantities;
using Xunit;

namespace DeckLife.Reporting.Tests;

/// <summary>One recommendation, and what stands beside it.</summary>
public class FirstScreenTests
{
    private const string Lead = "Remove to the limit and overlay";

    private static readonly DeckProjection Projection = InventedProjection.Make();

    // Present values of four draws each; the recommended strategy has 100, 200, 300, 400.
    public static TheoryData<double, string, string[]> Searches() =>
        new()
        {
            {
                -50,
                "Alternative to consider:",
                ["saves USD 50 (±0) of mean present value", "lasts 3.0 years (±0.0) longer"]
            },
            { 0, "Alternative to consider:", ["too little for these draws to tell from nothing"] },
            {
                25,
                "Beyond the listed strategies, nothing better.",
                ["costs USD 25 (±0) of mean present value against the recommendation"]
            },
        };

    [Theory]
    [MemberData(nameof(Searches))]
    public void Answer_SearchBeyondTheListedStrategies_SaysWhyItDiffersAndWhatItGains(
        double dearer,
        string head,
        string[] said
    )
    {
        var answer = new DeckReport(Projection, Map(dearer)).Answer();

        foreach (var page in new[] { answer.ToText(), Plain(answer.ToHtml().Markup) })
        {
            Assert.Contains(head, page, StringComparison.Ordinal);
            Assert.Contains(
                "chosen among the 4 strategies listed in the deck's file",
                page,
                StringComparison.Ordinal
            );
            Assert.Contains(
                "2 removal depths and overlay thicknesses beyond them, under the stated limits on grade rise and bars exposed at once",
                page,
                StringComparison.Ordinal
            );
            Assert.All(said, s => Assert.Contains(s, page, StringComparison.Ordinal));
        }
    }

    [Fact]
    public void Answer_RecommendationIsTheLeastExpectedRegret_NotTheLikeliestToBeCheapest()
    {
        // Likeliest to be the cheapest is the third, but the second costs less in the mean.
        var projection = Projection with
        {
            Strategies =
            [
                .. Projection.Strategies.Select(
                    (s, i) => s with { ExpectedRegret = i == 1 ? 10e3 : 90e3 }
                ),
            ],
        };

        Assert.Equal("Scarify and overlay", Sections.LeadingStrategy.Of(projection)!.Strategy.Name);
    }

    [Fact]
    public void Answer_RepairsOpenBarsAndTheDepthNone_SaysSoAndKeepsTheCaution()
    {
        var repairs = DiagnosticCatalogue.RepairsExposeTopBars.With(
            "Repairs of damaged places",
            4.1,
            ", and the planned depth of removal none"
        );
        var depth = DiagnosticCatalogue.RemovalBelowTopBars.With(12.0);

        var page = new DeckReport(Projection, Map(-50, repairs)).Answer().ToText();
        var both = new DeckReport(Projection, Map(-50, depth, repairs)).Answer().ToText();

        Assert.Contains(
            "Repairs of damaged places expose 4.1 % of the top bars",
            page,
            StringComparison.Ordinal
        );
        Assert.Contains("and the planned depth of removal none", page, StringComparison.Ordinal);
        Assert.DoesNotContain("past the cover of", page, StringComparison.Ordinal);
        Assert.Contains("past the cover of 12 % of the top bars", both, StringComparison.Ordinal);
        foreach (var text in new[] { page, both })
        {
            Assert.Contains("structural check", text, StringComparison.Ordinal);
            Assert.Contains("staging and shoring", text, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Answer_RecommendationBreaksALimit_SaysWhich()
    {
        var map = Map(-50);
        var broken = map with
        {
            Points = [map.Points[0] with { Broken = [new("grade rise", 60, 40, "mm")] }],
        };

        Assert.DoesNotContain(
            "breaks the stated limit",
            new DeckReport(Projection, map).Answer().ToText(),
            StringComparison.Ordinal
        );
        Assert.Contains(
            "The recommended strategy breaks the stated limit on grade rise.",
            new DeckReport(Projection, broken).Answer().ToText(),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Answer_Waiting_TellsPlainDelayFromWhatLookingAgainAdds()
    {
        var decision = new DecisionAnalysis
        {
            Information = new()
            {
                ChosenNow = Lead,
                Perfect = 100_000,
                ErrorOfPerfect = 4_000,
                Currency = "USD",
                Offers = [],
            },
            Waits =
            [
                new()
                {
                    WaitYears = 10,
                    Now = Lead,
                    Later = Lead,
                    TriggerShare = 0.024,
                    ActProbability = 0.9,
                    EndsBeforeProbability = 0.05,
                    Gain = 156_000,
                    ErrorOfGain = 8_000,
                    GainOfDelay = 161_000,
                    ErrorOfGainOfDelay = 8_100,
                    DelayedTo = Lead,
                    GainOfInformation = -5_000,
                    ErrorOfGainOfInformation = 1_200,
                    SurveyPrice = 5_000,
                },
            ],
        };
        var report = new DeckReport(Projection, null, decision);

        foreach (
            var page in new[] { report.Answer().ToText(), Plain(report.Answer().ToHtml().Markup) }
        )
        {
            Assert.Contains(
                "saved by mere delay of spending (Remove to the limit and overlay then, without looking again): 161,000 (±8,100); by what the sounding shows, its price paid: -5,000 (±1,200)",
                page,
                StringComparison.Ordinal
            );
        }

        Assert.Contains(
            "Of it by mere delay of spending",
            report.Decision().ToText(),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Strategies_Ranked_ShowRegretAndTheErrorOfTheProbability()
    {
        var table = new DeckReport(Projection).Strategies();
        var row = table.Rows[2];

        Assert.Equal("56 % (±2.0 %)", row[6].Text);
        Assert.Equal((0.56, 45e3), (row[6].Value, row[7].Value));
        Assert.StartsWith("Expected regret", table.Columns[7].ToText(), StringComparison.Ordinal);
    }

    [Fact]
    public void CoverChart_UsUnits_ClassesAndWordsAreInInches()
    {
        var chart = Charts.CoverChart.Draw(Projection.Deck)!;

        Assert.Contains("0.2\u00A0in", chart.AlternativeTextUs, StringComparison.Ordinal);
        Assert.DoesNotContain("mm", chart.AlternativeTextUs, StringComparison.Ordinal);
        Assert.All(chart.NumbersUs!.Columns.Take(2), c => Assert.Equal("in", c.FixedUnit));
        Assert.Equal(
            Projection.Deck.Covers.Length,
            chart.NumbersUs.Rows.Sum(r => r[2].Value!.Value)
        );
        Assert.Equal(Projection.Deck.Covers.Length, chart.Numbers.Rows.Sum(r => r[2].Value!.Value));
    }

    private static string Plain(string html) =>
        System.Net.WebUtility.HtmlDecode(
            System.Text.RegularExpressions.Regex.Replace(html, "<[^>]*>", "")
        );

    private static DepthMap Map(double dearer, params Diagnostic[] flags)
    {
        var deck = Projection.Deck with
        {
            Prices = Projection.Deck.Prices! with
            {
                Items = [new UnitPrice("new deck", PriceBasis.RenewedArea, 900, null)],
            },
        };
        double[] values = [100, 200, 300, 400];
        StrategyOutcomes Outcomes(string name, double more, double years) =>
            new()
            {
                Name = name,
                LivesYr = [.. values.Select(v => (v / 20) + years)],
                PresentValues = [.. values.Select(v => v + more)],
                FirstCosts = [.. values],
            };
        var material = deck.Materials[0].Name;
        DepthMapCell Cell(string? name, double removalMm, StrategyOutcomes outcomes) =>
            new()
            {
                Name = name,
                Material = material,
                Removal = Depth.FromMillimetres(removalMm),
                Thickness = Depth.FromMillimetres(50),
                Outcomes = outcomes,
                Projection = Projection.Strategies[2] with { Flags = [.. flags] },
                ExpectedYears = outcomes.ExpectedYears(75),
                ExpectedPresentValue = outcomes.PresentValues.Average(),
            };
        var cells = ImmutableArray.Create(
            Cell(null, 25, Outcomes("best", dearer, dearer < 0 ? 3 : 0)),
            Cell(null, 50, Outcomes("other", 500, 0))
        );
        return new()
        {
            Deck = deck,
            Plan = new()
            {
                RemovalDepths = [Depth.FromMillimetres(25), Depth.FromMillimetres(50)],
                Thicknesses = [Depth.FromMillimetres(50)],
                Materials = [material],
                Limits = new() { GradeRise = Depth.FromMillimetres(40), BarsExposed = 0.15 },
            },
            Cells = cells,
            Points = [Cell(Lead, 44, Outcomes(Lead, 0, 0))],
            Choice = new() { Best = cells[0], Criterion = "least mean present value" },
            Exploration = null!,
        };
    }
}
