using DeckLife.Materials;
using DeckLife.Population;
using DeckLife.Projection;
using DeckLife.Quantities;
using DeckLife.Rehabilitation;
using Xunit;

namespace DeckLife.Tests.Projection;

/// <summary>Each deck or strategy provokes one message of the projection.</summary>
public class ProvokedProjectionMessageTests
{
    private static readonly Deck Plain = ExampleDecks.Plain;

    private static readonly OverlayMaterial Dense = Plain.Materials[0];

    private static readonly Intervention Overlay = ExampleDecks
        .Overlay("overlay", 0, 10, 50)
        .Interventions[0];

    /// <summary>A rule that the projection does not know.</summary>
    private sealed record RemovalByColour : RemovalRule;

    [Fact]
    public void Plan_MaterialThatIsNotDescribed_Refused() =>
        AssertRefused(
            "DL4005",
            Overlay with
            {
                Overlay = new("unheard of", Depth.FromMillimetres(50)),
            }
        );

    [Fact]
    public void Plan_ProtectionThatIsNotDescribed_Refused() =>
        AssertRefused(
            "DL4005",
            new()
            {
                At = Age.FromYears(1),
                Protection = new("unheard of", Depth.FromMillimetres(3)),
            }
        );

    [Fact]
    public void Plan_InterventionAfterTheHorizon_Refused() =>
        AssertRefused("DL4007", Overlay with { At = Age.FromYears(61) });

    [Fact]
    public void Plan_RemovalRuleOfAnotherKind_Refused() =>
        AssertRefused("DL4009", Overlay with { Removal = new RemovalByColour() });

    [Fact]
    public void Project_RemovalPastTheTopBars_Said() =>
        AssertFlagged(
            "DL4004",
            Overlay with
            {
                Removal = new FixedDepthRemoval(Depth.FromMillimetres(70)),
            }
        );

    // Bars lie at 55 mm in the mean: 6 mm spares them all, and what is damaged after 15 years is repaired.
    [Fact]
    public void Project_RepairsThatOpenTopBars_SaidApartFromTheDepth()
    {
        var flags = With(
            Overlay with
            {
                At = Age.FromYears(15),
                Removal = new FixedDepthRemoval(Depth.FromMillimetres(6)),
            },
            Plain
        )
            .Strategies[1]
            .Flags;

        Assert.Contains(
            flags,
            f => f.Code == "DL4022" && f.Text.Contains("none", StringComparison.Ordinal)
        );
        Assert.DoesNotContain(flags, f => f.Code == "DL4004");
    }

    // Salt stands deeper than the rule may go: 0.3 kg/m3 would ask for far more than 20 mm.
    [Fact]
    public void Project_LimitBelowWhatTheRuleMayReach_Said() =>
        AssertFlagged(
            "DL4010",
            Overlay with
            {
                Removal = new ChlorideLimitRemoval(
                    ChlorideContent.FromKilogramsPerCubicMetre(0.3),
                    Depth.FromMillimetres(10),
                    Depth.FromMillimetres(20)
                ),
            }
        );

    [Fact]
    public void Project_OverlayBelowItsLeastThickness_Said() =>
        AssertFlagged(
            "DL4021",
            Overlay,
            Plain with
            {
                Materials = [Dense with { LeastThickness = Depth.FromMillimetres(50.8) }],
            }
        );

    [Fact]
    public void Project_PricesWithoutTheEnd_NothingIsCalledCheapest() =>
        AssertNoted(
            "DL4011",
            Small with
            {
                Prices = Plain.Prices! with { Items = [.. Plain.Prices.Items.SkipLast(1)] },
            }
        );

    [Fact]
    public void Project_OverlayBeyondTheLimitOfItsSpecification_Said() =>
        AssertNoted(
            "DL4102",
            Specified(
                new()
                {
                    GreatestThickness = Depth.FromMillimetres(45),
                    Material = "dense",
                    Source = "invented",
                }
            )
        );

    [Fact]
    public void Project_ValueThatASpecificationLimitsAndNobodyStates_Said() =>
        AssertNoted(
            "DL4103",
            Specified(
                new()
                {
                    GreatestWaterCementitiousRatio = 0.4,
                    Material = "dense",
                    Source = "invented",
                }
            )
        );

    [Fact]
    public void Project_FitWithoutDraws_Said() =>
        AssertNoted("DL4013", Small, ExampleDecks.Fit with { Draws = [] });

    [Theory]
    [InlineData(199, true)]
    [InlineData(200, false)]
    public void Project_FewDraws_SaidBelowTwoHundred(int draws, bool said) =>
        Assert.Equal(
            said,
            ExampleDecks
                .Project(Small with { Analysis = Small.Analysis with { Draws = draws } })
                .Flags.Any(f => f.Code == "DL4012")
        );

    [Fact]
    public void Flags_LearnedWeightsWithAHeavyTail_NotTrusted()
    {
        var learned = new LearnedDraws
        {
            Before = [],
            Used = [],
            Evidence = new(),
            IsLearned = true,
            ParetoShape = 0.71,
        };

        Assert.Equal("DL4017", Assert.Single(Hindcasts.Flags(learned)).Code);
        Assert.Empty(Hindcasts.Flags(learned with { ParetoShape = 0.7 }));
    }

    private static Deck Small =>
        Plain with
        {
            Strategies = [ExampleDecks.Nothing, ExampleDecks.Overlay("overlay", 0, 10, 50)],
            Analysis = Plain.Analysis with { Draws = 20, Points = 16 },
        };

    private static Deck Specified(MixSpecification specification) =>
        Small with
        {
            Materials = [Dense with { Specification = specification }],
        };

    private static DeckProjection With(Intervention intervention, Deck deck) =>
        ExampleDecks.Project(
            deck with
            {
                Strategies =
                [
                    ExampleDecks.Nothing,
                    new() { Name = "provoking", Interventions = [intervention] },
                ],
                Analysis = Small.Analysis,
            }
        );

    private static void AssertRefused(string code, Intervention intervention)
    {
        var refused = Assert.Single(With(intervention, Plain).Refused);
        AssertText(code, refused.Reason);
        Assert.Contains("\"provoking\"", refused.Reason.Text, StringComparison.Ordinal);
    }

    private static void AssertFlagged(string code, Intervention intervention, Deck? deck = null)
    {
        var projection = With(intervention, deck ?? Plain);
        Assert.Empty(projection.Refused);
        AssertText(code, projection.Strategies[1].Flags.First(f => f.Code == code));
        Assert.DoesNotContain(projection.Strategies[0].Flags, f => f.Code == code);
    }

    private static void AssertNoted(string code, Deck deck, DeckLife.Fitting.DeckFit? fit = null)
    {
        var flags = ExampleDecks.Project(deck, fit).Flags;
        Assert.True(flags.Any(f => f.Code == code), string.Join('\n', flags));
        AssertText(code, flags.First(f => f.Code == code));
        Assert.DoesNotContain(ExampleDecks.Project(Small).Flags, f => f.Code == code);
    }

    private static void AssertText(string code, DeckLife.Diagnostics.Diagnostic found)
    {
        Assert.Equal(code, found.Code);
        Assert.DoesNotContain("{", found.Text, StringComparison.Ordinal);
    }
}
