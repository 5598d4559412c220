using System.Collections.Immutable;
using DeckLife.Economics;
using DeckLife.Fitting;
using DeckLife.Population;
using DeckLife.Projection;
using DeckLife.Propagation;
using DeckLife.Quantities;
using DeckLife.Rehabilitation;

namespace DeckLife.Tests.Projection;

/// <summary>Invented decks for the tests of the projection.</summary>
internal static class ExampleDecks
{
    public static Strategy Nothing { get; } = new() { Name = "do nothing" };

    public static Deck Plain { get; } =
        new()
        {
            Name = "test deck (invented)",
            AreaM2 = 800,
            Thickness = Depth.FromMillimetres(200),
            Structure = StructureKind.CastInPlace,
            BarType = BarType.Bare,
            TopBarDiameter = Depth.FromMillimetres(16),
            SurveyYear = 2031,
            ExposureAge = Age.FromYears(25),
            Threshold = new()
            {
                Content = new(1.0, 0.35, SpreadShape.Lognormal),
                WithinDeckShare = 0.5,
                Extraction = ChlorideExtraction.AcidSoluble,
                Source = "test",
            },
            Extraction = ChlorideExtraction.AcidSoluble,
            Propagation = new() { Period = new(5, 0.3, SpreadShape.Lognormal), Source = "test" },
            StatedCoverMm = new(55, 0.18, SpreadShape.Normal),
            Materials =
            [
                new()
                {
                    Name = "dense",
                    DiffusionCoefficient = new(8, 0.3, SpreadShape.Lognormal),
                    ReferenceAge = Age.FromDays(90),
                    AgeAtExposure = Age.FromDays(60),
                    AgeingExponent = 0.2,
                    ConstantAfter = Age.FromYears(15),
                    DensityKgPerM3 = 2350,
                    Source = "test",
                },
            ],
            Strategies = [Nothing, Overlay("overlay", 0, 10, 50), ToLimit("deeper", 0, 1.0, 50)],
            Horizon = Age.FromYears(60),
            DiscountRate = 0.03,
            DamageLimit = 0.10,
            Surveys = new() { ModelDiscrepancySd = 0 },
            ConcreteDensityKgPerM3 = 2320,
            Prices = new()
            {
                Currency = "USD",
                PriceYear = 2031,
                Items =
                [
                    new("mobilisation", PriceBasis.LumpSum, 20_000, null),
                    new("overlay", PriceBasis.PlacedVolume, 2_000, "dense"),
                    new("removal", PriceBasis.RemovedVolume, 900, null),
                    new("repair", PriceBasis.RepairedArea, 350, null),
                    new("new deck", PriceBasis.RenewedArea, 900, null),
                ],
                RenewalLifeYr = 75,
            },
            Analysis = new()
            {
                Seed = 7,
                Draws = 60,
                Points = 64,
            },
        };

    public static DeckFit Fit { get; } = Fitted(0.15);

    public static DeckFit Fitted(double ignorance, double spread = 0.3) =>
        new()
        {
            Cores = 8,
            SurfaceChloride = new(6),
            DiffusionCoefficient = new(35),
            Background = new(0.1),
            SdLnSurfaceChloride = new(spread),
            SdLnDiffusionCoefficient = new(spread),
            Correlation = new(0),
            LabErrorSd = new(0.1),
            Method = "test",
            Draws =
            [
                .. Enumerable
                    .Range(0, 101)
                    .Select(i => new DeckHyperDraw(
                        Math.Log(6) + ignorance * Math.Sin(i * 1.7),
                        Math.Log(35) + ignorance * 2 * Math.Cos(i * 2.3),
                        spread * (1 + ignorance * Math.Sin(i * 0.9)),
                        spread * (1 + ignorance * Math.Cos(i * 0.7)),
                        0,
                        0.1,
                        0.1
                    )),
            ],
        };

    public static Strategy Overlay(string name, double at, double removalMm, double thicknessMm) =>
        new()
        {
            Name = name,
            Interventions =
            [
                new()
                {
                    At = Age.FromYears(at),
                    Removal = new FixedDepthRemoval(Depth.FromMillimetres(removalMm)),
                    Overlay = new("dense", Depth.FromMillimetres(thicknessMm)),
                },
            ],
        };

    public static Strategy ToLimit(string name, double at, double limit, double thicknessMm) =>
        new()
        {
            Name = name,
            Interventions =
            [
                new()
                {
                    At = Age.FromYears(at),
                    Removal = new ChlorideLimitRemoval(
                        ChlorideContent.FromKilogramsPerCubicMetre(limit),
                        Depth.FromMillimetres(10),
                        Depth.FromMillimetres(60)
                    ),
                    Overlay = new("dense", Depth.FromMillimetres(thicknessMm)),
                },
            ],
        };

    public static DeckProjection Project(Deck deck, DeckFit? fit = null) =>
        DeckProjector.Project(deck, fit ?? Fit, ImmutableArray<ProfileFit>.Empty);
}
