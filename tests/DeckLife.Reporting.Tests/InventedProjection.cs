using System.Collections.Immutable;
using DeckLife.Diagnostics;
using DeckLife.Fitting;
using DeckLife.Mapping;
using DeckLife.Population;
using DeckLife.Profiles;
using DeckLife.Projection;
using DeckLife.Propagation;
using DeckLife.Quantities;
using DeckLife.Rehabilitation;
using DeckLife.Surveys;

namespace DeckLife.Reporting.Tests;

/// <summary>A projection made up for tests of the page: its numbers follow simple formulas and mean nothing.</summary>
public static class InventedProjection
{
    /// <summary>Text that would run or break out if it were not escaped.</summary>
    public const string Hostile =
        "</script><img src=x onerror=alert(1)><b>\"C'9\" $x$ %{y} =1+1 &amp; \u2028\u202E";

    private static readonly string[] Names =
    [
        "Do nothing, patch as needed",
        "Scarify and overlay",
        "Remove to the limit and overlay",
        "Deep removal, dense overlay",
    ];

    public static DeckProjection Make(bool hostile = false, bool withPrices = true)
    {
        var deck = Deck(hostile, withPrices);
        return new DeckProjection
        {
            Deck = deck,
            Cores = [.. deck.Cores.Select(Fit)],
            Fit = DeckFit(),
            Strategies = [.. deck.Strategies.Select((s, i) => Strategy(s, i, withPrices))],
            Assumptions =
            [
                new("Patches", "Damaged area is patched within one year.", "common practice"),
                new(
                    "Bars",
                    "Each point of the deck stands for its tributary area of top bars.",
                    "stated model"
                ),
            ],
            Settings = deck.Analysis,
            Map = Map(hostile),
            Refused =
            [
                new(
                    new() { Name = hostile ? Hostile : "Remove to mid-depth" },
                    new(
                        "DL4998",
                        Severity.Error,
                        "Refused: removal passes the least remaining slab."
                    )
                ),
            ],
            Cautions =
            [
                "Cores were taken where access was easy: they may not stand for the whole deck.",
            ],
        };
    }

    private static DeckMap Map(bool hostile) =>
        new()
        {
            CellLengthM = 4,
            CellWidthM = 3,
            LaterYr = [10, 20, 30],
            DeckActive = 0.2,
            DeckDamaged = 0.05,
            LengthM = 4.2,
            LengthP05M = 1.6,
            LengthP95M = 11,
            LocalShare = 0.55,
            CoverWeight = 0.5,
            // One cell is not on the deck.
            Cells =
            [
                .. Enumerable
                    .Range(0, 43)
                    .Select(i => new DeckMapCell(
                        2 + (4 * (i % 11)),
                        1.5 + (3 * (i / 11)),
                        i % 9 == 0 ? 0.25 : 0,
                        i % 13 == 0 ? 0.125 : 0,
                        i % 4,
                        0.2 + (0.15 * Math.Sin(i)),
                        0.05 + (0.04 * Math.Sin(i)),
                        [0.1 + (0.05 * Math.Sin(i)), 0.2, 0.3]
                    )),
            ],
            Zones =
            [
                new(
                    hostile ? Hostile : "gutter line",
                    0.25,
                    21,
                    47.5,
                    0.31,
                    0.09,
                    [0.15, 0.25, 0.4]
                ),
                new("the rest", 0.75, 40, null, 0.16, 0.04, [0.08, 0.18, 0.27]),
            ],
        };

    private static Deck Deck(bool hostile, bool withPrices) =>
        new()
        {
            Name = hostile ? Hostile : "Invented Deck 7",
            AreaM2 = 1240,
            Thickness = Depth.FromMillimetres(203.2),
            Structure = StructureKind.CastInPlace,
            BarType = BarType.Bare,
            TopBarDiameter = Depth.FromMillimetres(15.875),
            SurveyYear = 2031,
            ExposureAge = Age.FromYears(34),
            Threshold = new()
            {
                Content = new(1.2, 0.35, SpreadShape.Lognormal),
                WithinDeckShare = 0.5,
                Extraction = ChlorideExtraction.AcidSoluble,
                Source = "invented for tests",
            },
            Propagation = new()
            {
                Period = new(6, 0.4, SpreadShape.Lognormal),
                Source = "invented for tests",
            },
            Materials =
            [
                new()
                {
                    Name = "dense concrete",
                    DiffusionCoefficient = new(9, 0.4, SpreadShape.Lognormal),
                    ReferenceAge = Age.FromDays(28),
                    AgeAtExposure = Age.FromDays(60),
                    Source = "invented for tests",
                },
            ],
            Strategies =
            [
                new() { Name = hostile ? Hostile : Names[0] },
                With(Names[1], new FixedDepthRemoval(Depth.FromMillimetres(12.7)), 50.8),
                With(
                    Names[2],
                    new ChlorideLimitRemoval(
                        ChlorideContent.FromKilogramsPerCubicMetre(0.9),
                        Depth.FromMillimetres(12.7),
                        Depth.FromMillimetres(80)
                    ),
                    63.5
                ),
                With(Names[3], new FixedDepthRemoval(Depth.FromMillimetres(76.2)), 76.2),
            ],
            Prices = withPrices
                ? new()
                {
                    Currency = "USD",
                    PriceYear = 2031,
                    Items = [],
                }
                : null,
            Horizon = Age.FromYears(75),
            DiscountRate = 0.025,
            DamageLimit = 0.1,
            Analysis = new() { Seed = 7 },
            Cores = [.. Enumerable.Range(0, 9).Select(j => Core(j, hostile))],
            Covers =
            [
                .. Enumerable
                    .Range(0, 140)
                    .Select(i => new CoverReading(
                        i + 2,
                        i % 20,
                        i / 20,
                        Depth.FromMillimetres(
                            50 + (9 * Math.Sin(i * 1.7)) + (6 * Math.Cos(i * 0.61))
                        )
                    )),
            ],
            HalfCells =
            [
                .. Enumerable
                    .Range(0, 240)
                    .Select(i => new HalfCellReading(
                        i + 2,
                        1.5 * (i % 30),
                        1.5 * (i / 30),
                        -250 - (130 * Math.Sin((i % 30) * 0.22) * Math.Cos((i / 30) * 0.5))
                    )),
            ],
            Soundings =
            [
                Area(2, SoundingFinding.Delaminated, 6, 1, 5, 2.4),
                Area(3, SoundingFinding.Delaminated, 12, 4, 3, 3),
                Area(4, SoundingFinding.Patched, 24, 7, 4, 2),
                new()
                {
                    Row = 5,
                    Finding = SoundingFinding.Spalled,
                    AreaM2 = 1.1,
                },
            ],
            Assumptions = [new("Ageing", "The deck's concrete no longer ages.", "common practice")],
            Diagnostics =
            [
                new("DL1999", Severity.Warning, "Two cover readings are under 15 mm.")
                {
                    File = "cover.csv",
                },
            ],
            Inputs =
            [
                new("deck.json", new string('a', 64)),
                new("chlorides.csv", new string('b', 64)),
            ],
        };

    private static Strategy With(string name, RemovalRule removal, double thicknessMm) =>
        new()
        {
            Name = name,
            Interventions =
            [
                new()
                {
                    At = Age.FromYears(1),
                    Removal = removal,
                    Overlay = new("dense concrete", Depth.FromMillimetres(thicknessMm)),
                },
            ],
        };

    private static SoundingArea Area(
        int row,
        SoundingFinding finding,
        double x,
        double y,
        double w,
        double h
    ) =>
        new()
        {
            Row = row,
            Finding = finding,
            AreaM2 = w * h,
            Corners = [(x, y), (x + w, y), (x + w, y + h), (x, y + h)],
        };

    private static CoreProfile Core(int j, bool hostile) =>
        new()
        {
            Core = hostile && j == 0 ? Hostile : $"C-{j + 1:00}",
            ExposureAge = Age.FromYears(34),
            OnCrack = j == 6,
            X = 4 * j,
            Y = 1 + (j % 4 * 2),
            Slices =
            [
                .. Enumerable
                    .Range(0, 6)
                    .Select(i =>
                    {
                        // Falls with depth like a profile; core 9 does not fall and is refused.
                        var c =
                            j == 8 ? 1.5 + (0.1 * i) : (4 + (0.4 * j)) * Math.Exp(-0.45 * i) + 0.15;
                        return new ChlorideSlice
                        {
                            Row = (j * 6) + i + 2,
                            Top = Depth.FromMillimetres(12.7 * i),
                            Bottom = Depth.FromMillimetres(12.7 * (i + 1)),
                            Content = ChlorideContent.FromKilogramsPerCubicMetre(
                                i == 0 && j == 2 ? 0.5 * c : c
                            ),
                            IsNonDetect = i == 5 && j == 4,
                        };
                    }),
            ],
        };

    private static ProfileFit Fit(CoreProfile core, int j)
    {
        var fit = new ProfileFit
        {
            Profile = core,
            Status = FitStatus.Refused,
            Reason = "contents do not fall with depth",
        };
        if (j == 8)
        {
            return fit;
        }

        return fit with
        {
            Status = j == 5 ? FitStatus.Limited : FitStatus.Fitted,
            Reason = j == 5 ? "background at its lower bound 0" : null,
            Points = j == 2 ? 5 : 6,
            SurfaceChloride = Around(5.1 + (0.5 * j), 0.07),
            DiffusionCoefficient = Around(22 + (3 * j), 0.16),
            Background =
                j == 5
                    ? new(0) { IsAtBound = true, MissingReason = "at its bound" }
                    : Around(0.15, 0.3),
            DegreesOfFreedom = 3,
            Excluded = j == 2 ? [new(14, "washed-out skin: the content rises below it")] : [],
            Flags =
                j == 3
                    ?
                    [
                        new(
                            "DL2999",
                            Severity.Warning,
                            "Largest influence: slice 2 changes D by 1.9."
                        ),
                    ]
                    : [],
        };
    }

    private static Estimate Around(double value, double share) =>
        new(value)
        {
            StandardError = value * share,
            Lower95 = value * (1 - (2.2 * share)),
            Upper95 = value * (1 + (2.6 * share)),
            LimitMethod = "invented",
        };

    private static DeckFit DeckFit() =>
        new()
        {
            Cores = 7,
            SurfaceChloride = Around(6.4, 0.06),
            DiffusionCoefficient = Around(30, 0.12),
            Background = Around(0.15, 0.2),
            SdLnSurfaceChloride = Around(0.2, 0.3),
            SdLnDiffusionCoefficient = Around(0.35, 0.3),
            Correlation = new(-0.2) { MissingReason = "invented" },
            LabErrorSd = Around(0.2, 0.2),
            Method = "invented for tests",
            Convergence = new(1.003, 1840),
            Draws = [],
        };

    private static StrategyProjection Strategy(Strategy strategy, int index, bool withPrices)
    {
        double[] half = [9, 24, 37, 52];
        PercentileBand At(double t, double lag, double repair)
        {
            double F(double shift) =>
                t < repair
                    ? 0.04 + (0.02 * t)
                    : 0.25
                        * (
                            1
                            - Math.Exp(
                                -Math.Pow(Math.Max(0, t - repair) / (half[index] * shift * lag), 2)
                            )
                        );
            return new(F(1.35), F(1), F(0.72));
        }

        var repair = index == 0 ? 0 : 1.0;
        double? Life(double shift)
        {
            var t = half[index] * shift * Math.Sqrt(-Math.Log(1 - 0.4)) + repair;
            return t <= 75 ? t : null;
        }

        return new()
        {
            Strategy = strategy,
            ServiceLife = new(
                "10 % of the deck area damaged",
                Life(0.72),
                Life(1),
                index == 3 ? null : Life(1.35),
                index == 3 ? 0.08 : 0
            ),
            Curve =
            [
                .. Enumerable
                    .Range(0, 76)
                    .Select(t => new CurvePoint(
                        t,
                        At(t, 1, repair),
                        At(t, 0.93, repair),
                        At(t, 0.7, repair)
                    )),
            ],
            Cost = withPrices
                ? new(
                    new(
                        510_000 + (90_000 * index),
                        640_000 + (70_000 * index),
                        905_000 + (40_000 * index)
                    ),
                    24_300 + (2_000 * index),
                    "USD",
                    2031
                )
                : null,
            CheapestProbability = withPrices ? new[] { 0.08, 0.19, 0.56, 0.17 }[index] : null,
            ErrorOfCheapestProbability = withPrices ? 0.02 : null,
            ExpectedRegret = withPrices ? new[] { 410e3, 120e3, 45e3, 160e3 }[index] : null,
            MedianRemovalDepthMm = index switch
            {
                0 => [],
                1 => [12.7],
                2 => [44],
                _ => [76.2],
            },
            Interventions =
                index == 0
                    ? []
                    :
                    [
                        new()
                        {
                            AtYr = 1,
                            DepthClasses = [new(12.7 * index, 0.8), new(25.4 * index, 0.2)],
                            MeanRemovalMm = new(10 * index, 15 * index, 22 * index),
                            RepairedFraction = new(0.03, 0.06, 0.11),
                            UndercutFraction = new(0, index == 3 ? 0.94 : 0.02, 1),
                            StruckFraction = new(0, 0.01 * index, 0.1),
                            GradeRiseMm = 38 - (10 * index),
                            AddedDeadLoadKnPerM2 = index == 2 ? null : 0.9,
                        },
                    ],
            Flags =
                index == 3
                    ?
                    [
                        new(
                            "DL4999",
                            Severity.Warning,
                            "Removal passes the top bars on 94 % of the area: a structural check, staging and shoring come first."
                        ),
                    ]
                    : [],
        };
    }
}
