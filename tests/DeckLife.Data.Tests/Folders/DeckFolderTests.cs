using DeckLife.Data.Folders;
using DeckLife.Diagnostics;
using DeckLife.Economics;
using DeckLife.Population;
using DeckLife.Quantities;
using DeckLife.Rehabilitation;
using DeckLife.Surveys;
using Xunit;

namespace DeckLife.Data.Tests.Folders;

public class DeckFolderTests
{
    internal static readonly string Inputs = Path.Combine(AppContext.BaseDirectory, "Inputs");

    private static readonly string Minimal = Path.Combine(Inputs, "minimal-deck");

    [Fact]
    public void Read_MinimalDeck_EveryValueInCanonicalUnits()
    {
        var result = DeckFolder.Read(Minimal);

        Assert.True(result.Deck is not null, string.Join('\n', result.Problems));
        var deck = result.Deck;
        Assert.Equal(4000 * 0.3048 * 0.3048, deck.AreaM2, 9);
        Assert.Equal(203.2, deck.Thickness.Millimetres, 9);
        Assert.Equal(15.875, deck.TopBarDiameter.Millimetres, 9);
        Assert.Equal(StructureKind.CastInPlace, deck.Structure);
        Assert.Equal(BarType.Bare, deck.BarType);
        Assert.Equal((2031, 30.0), (deck.SurveyYear, deck.ExposureAge.Years));
        Assert.Equal(60, deck.ConcreteAgeAtFirstSalt.Days, 9);
        Assert.Equal(
            1.6 * UnitFactors.KilogramsPerCubicMetrePerPoundPerCubicYard,
            deck.Threshold.Content.Mean,
            12
        );
        Assert.Equal(
            (0.3, SpreadShape.Lognormal),
            (deck.Threshold.Content.CoefficientOfVariation, deck.Threshold.Content.Shape)
        );
        Assert.Equal(0.3, deck.Propagation.Period.CoefficientOfVariation, 12);
        Assert.Equal(8, Assert.Single(deck.Materials).DiffusionCoefficient.Mean);
        var intervention = Assert.Single(deck.Strategies[1].Interventions);
        Assert.Equal(new FixedDepthRemoval(Depth.FromMillimetres(31.75)), intervention.Removal);
        Assert.Equal(44.45, intervention.Overlay!.Thickness.Millimetres, 9);
        Assert.Equal(
            [
                (PriceBasis.DeckArea, 43.06),
                (PriceBasis.PlacedVolume, 1177.16),
                (PriceBasis.LumpSum, 40000.0),
            ],
            deck.Prices!.Items.Select(i => (i.Basis, Math.Round(i.Amount, 2)))
        );
        Assert.Equal((60, 0.03, 0.10), (deck.Horizon.Years, deck.DiscountRate, deck.DamageLimit));
        Assert.Equal(
            (7UL, 400, 256),
            (deck.Analysis.Seed, deck.Analysis.Draws, deck.Analysis.Points)
        );
        Assert.Equal(3, deck.Cores.Length);
        Assert.All(deck.Cores, c => Assert.Equal(6, c.Slices.Length));
        Assert.True(deck.Cores[2].Slices[5].IsNonDetect);
        Assert.Equal(
            (20, 20, 3),
            (deck.Covers.Length, deck.HalfCells.Length, deck.Soundings.Length)
        );
        Assert.Equal(-410, deck.HalfCells.Min(h => h.PotentialMvCse));
        Assert.Equal(3.048, deck.Covers[0].X!.Value, 12);

        // 22 x 6 and 13 x 8 share 7 x 4.
        Assert.Equal(
            (132 + 104 - 28) * 0.3048 * 0.3048,
            deck.Soundings.Where(s => s.Finding == SoundingFinding.Delaminated).Sum(s => s.AreaM2),
            9
        );
        Assert.Equal(5, deck.Inputs.Length);
        Assert.All(deck.Inputs, i => Assert.Matches("^[0-9a-f]{64}$", i.Sha256));
        Assert.NotEmpty(deck.Assumptions);
        Assert.DoesNotContain(result.Problems, p => p.Severity == Severity.Error);
    }
}
