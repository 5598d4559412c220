using DeckLife.Fitting;
using DeckLife.Population;
using DeckLife.Projection;
using DeckLife.Quantities;
using DeckLife.Rehabilitation;

namespace DeckLife.ReferenceChecks;

/// <summary>Lives of overlays on clean concrete, from the deck to the year of the limit, against images in two layers.</summary>
public sealed class OverlayLifeCases : IReferenceCaseSet
{
    /// <inheritdoc/>
    public IEnumerable<ReferenceCase> Cases()
    {
        yield return Case(
            "strategies/overlay-life-dense",
            30,
            15,
            25,
            [(0.10, 39.594858), (0.25, 44.167228), (0.50, 50.700793)]
        );
        yield return Case(
            "strategies/overlay-life-permeable",
            40,
            45,
            12,
            [(0.10, 33.975791), (0.25, 37.072051), (0.50, 41.330524)]
        );
    }

    private static ReferenceCase Case(
        string id,
        double overlayMm,
        double overlayD,
        double deckD,
        (double Limit, double LifeYr)[] lives
    ) =>
        new(
            id,
            "Life of an overlay on clean concrete, projected as a strategy",
            FormattableString.Invariant(
                $"overlay {overlayMm:0} mm of D {overlayD:0} mm2/yr placed after half a year of exposure and 20 mm of removal on 250 mm of D {deckD:0} mm2/yr; cover 45 mm, Cs 6 kg/m3, no background; threshold lognormal over the deck, mean 1 kg/m3, COV 0.3; 5 yr from initiation to damage; nothing unknown"
            ),
            "Carslaw and Jaeger, Conduction of Heat in Solids, section 12.8 (layer on a half space by images; from memory, the equations checked): reference-checks/peers/overlay-life, NumPy 1.24 and SciPy 1.10",
            HowGot.ComputedIndependently,
            "the damaged share is read yearly and is bent, so that a straight line between crosses the limit up to 0.04 yr early; tables of sections move the share by up to 0.1 % of the area, which is 0.05 yr where lives end at their steepest",
            [
                .. lives.Select(l => new ReferenceValue(
                    FormattableString.Invariant($"life to {100 * l.Limit:0} % damaged [yr]"),
                    l.LifeYr,
                    () => Life(overlayMm, overlayD, deckD, l.Limit),
                    0.1,
                    IsAbsolute: true
                )),
            ]
        );

    private static double Life(double overlayMm, double overlayD, double deckD, double limit)
    {
        var deck = new Deck
        {
            Name = "reference deck (invented)",
            AreaM2 = 100,
            Thickness = Depth.FromMillimetres(250),
            Structure = StructureKind.CastInPlace,
            BarType = BarType.Bare,
            TopBarDiameter = Depth.FromMillimetres(16),
            SurveyYear = 2031,
            ExposureAge = Age.FromYears(0.5),
            Extraction = ChlorideExtraction.AcidSoluble,
            Threshold = new()
            {
                Content = new(1, 0.3, SpreadShape.Lognormal),
                WithinDeckShare = 1,
                Extraction = ChlorideExtraction.AcidSoluble,
                Source = "reference case",
            },
            Propagation = new() { Period = UncertainValue.Exactly(5), Source = "reference case" },
            StatedCoverMm = UncertainValue.Exactly(45),
            Materials =
            [
                new()
                {
                    Name = "overlay",
                    DiffusionCoefficient = UncertainValue.Exactly(overlayD),
                    ReferenceAge = Age.FromDays(28),
                    AgeAtExposure = Age.FromDays(28),
                    Source = "reference case",
                },
            ],
            Strategies =
            [
                new()
                {
                    Name = "overlay",
                    Interventions =
                    [
                        new()
                        {
                            At = Age.FromYears(0),
                            Removal = new FixedDepthRemoval(Depth.FromMillimetres(20)),
                            Overlay = new("overlay", Depth.FromMillimetres(overlayMm)),
                        },
                    ],
                },
            ],
            Horizon = Age.FromYears(75),
            DiscountRate = 0,
            DamageLimit = limit,
            Surveys = new() { ModelDiscrepancySd = 0 },
            Analysis = new()
            {
                Seed = 1,
                Draws = 40,
                Points = 64,
            },
        };
        var fit = new DeckFit
        {
            Cores = 8,
            SurfaceChloride = new(6),
            DiffusionCoefficient = new(deckD),
            Background = new(0),
            SdLnSurfaceChloride = new(0),
            SdLnDiffusionCoefficient = new(0),
            Correlation = new(0),
            LabErrorSd = new(0.1),
            Method = "stated",
            Draws = [new(Math.Log(6), Math.Log(deckD), 0, 0, 0, 0, 0.1)],
        };
        return DeckProjector.Project(deck, fit, []).Strategies[0].ServiceLife.P50Yr
            ?? double.PositiveInfinity;
    }
}
