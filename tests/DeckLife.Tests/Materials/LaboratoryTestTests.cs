using System.Collections.Immutable;
using DeckLife.Materials;
using DeckLife.Population;
using DeckLife.Quantities;
using Xunit;

namespace DeckLife.Tests.Materials;

public class LaboratoryTestTests
{
    private static readonly RapidMigrationTest Migration = new()
    {
        AppliedVoltageV = 30,
        TemperatureC = 22,
        ThicknessMm = 50,
        PenetrationMm = 15,
        DurationH = 24,
    };

    private static readonly IndicatorRelation Relation = new()
    {
        Citation = "Invented for this test",
        Indicator = "charge passed [C]",
        CoefficientMm2PerYr = 0.5,
        Exponent = 0.8,
        LogStandardDeviation = 0.6,
        LeastIndicator = 300,
        GreatestIndicator = 6000,
        ReferenceAge = Age.FromDays(56),
    };

    [Theory]
    [InlineData(2.0, 15.0)]
    [InlineData(30.0, 50.0)]
    [InlineData(30.0, 0.0)]
    [InlineData(30.0, 0.05)]
    [InlineData(double.NaN, 15.0)]
    [InlineData(30.0, double.NaN)]
    public void RapidMigration_ImpossibleReadings_GiveAProblemAndNoNumber(
        double voltage,
        double penetration
    )
    {
        var test = Migration with { AppliedVoltageV = voltage, PenetrationMm = penetration };

        Assert.False(test.TryFull(out _, out var full));
        Assert.False(test.TrySimplified(out _, out var simplified));
        Assert.False(string.IsNullOrWhiteSpace(full));
        Assert.False(string.IsNullOrWhiteSpace(simplified));
    }

    [Fact]
    public void RapidMigration_FullAndSimplified_DifferByTheRoundedConstants()
    {
        Assert.True(Migration.TryFull(out var full, out _));
        Assert.True(Migration.TrySimplified(out var simplified, out _));

        Assert.InRange(full.SquareMetresPerSecond / simplified.SquareMetresPerSecond, 1.001, 1.003);
    }

    [Fact]
    public void RapidMigration_OtherColourChange_MovesTheFullFormOnly()
    {
        var other = Migration with { ColourChangeMolPerL = 0.14 };
        Assert.True(other.TryFull(out var full, out _));
        Assert.True(Migration.TryFull(out var plain, out _));

        // A colour change at more chloride lies nearer the surface: the same depth means faster ions.
        Assert.True(full > plain);
        Assert.False((other with { CatholyteMolPerL = 0.2 }).TryFull(out _, out _));
    }

    [Fact]
    public void BulkDiffusion_TwoSpecimens_MeanAndSampleScatter()
    {
        var specimens = new[] { 20.0, 30 }.Select(Specimen).ToArray();

        Assert.True(BulkDiffusionResult.TryCombine(specimens, out var value, out _));

        Assert.Equal(25, value.Mean, 1e-12);
        Assert.Equal(Math.Sqrt(50) / 25, value.CoefficientOfVariation, 1e-12);
        Assert.False(BulkDiffusionResult.TryCombine([specimens[0]], out _, out _));
        Assert.False(
            BulkDiffusionResult.TryCombine(
                [specimens[0], specimens[1] with { Immersion = Age.FromDays(90) }],
                out _,
                out _
            )
        );
        Assert.Empty(specimens[0].Concerns);
        Assert.Equal(
            2,
            (specimens[0] with { PointsFitted = 5, Immersion = Age.FromDays(28) }).Concerns.Length
        );
    }

    [Fact]
    public void CoefficientAge_BroughtToTheReferenceAge_FollowsTheLawOfTheMaterial()
    {
        var (start, immersion, reference) = (Age.FromDays(28), Age.FromDays(90), Age.FromDays(90));

        // 90 d over the integral of (90 d/t)^0.3 from 28 to 118 d, by quadrature (SciPy 1.10).
        Assert.Equal(
            0.9124455493667198,
            CoefficientAge.OverImmersion(start, immersion, reference, 0.3),
            1e-12
        );
        Assert.Equal(1, CoefficientAge.OverImmersion(start, immersion, reference, 0));
        // A short immersion is a moment.
        Assert.Equal(
            CoefficientAge.AtMoment(start, reference, 0.3),
            CoefficientAge.OverImmersion(start, Age.FromDays(1e-4), reference, 0.3),
            1e-5
        );
        Assert.Equal(
            Math.Pow(28.0 / 90, 0.3),
            CoefficientAge.AtMoment(start, reference, 0.3),
            1e-12
        );
    }

    [Fact]
    public void SpecimenScatter_OneSpecimenOrNoSpread_IsRefused()
    {
        Assert.False(SpecimenScatter.TryCombine([20], null, out _, out _));
        Assert.False(SpecimenScatter.TryCombine([20, 30], 0, out _, out _));
        Assert.False(SpecimenScatter.TryCombine([20, 0], null, out _, out _));
        Assert.False(SpecimenScatter.TryCombine([], 0.4, out _, out _));
        Assert.True(SpecimenScatter.TryCombine([20], 0.4, out var value, out _));
        Assert.Equal(new UncertainValue(20, 0.4, SpreadShape.Lognormal), value);
    }

    [Fact]
    public void IndicatorRelation_MeasuredCharge_HasMedianAndSpreadOfTheRelation()
    {
        Assert.True(Relation.TryDiffusion(1000, out var value, out _));

        var logVariance = Math.Log(1 + value.CoefficientOfVariation * value.CoefficientOfVariation);
        Assert.Equal(0.6, Math.Sqrt(logVariance), 1e-12);
        Assert.Equal(0.5 * Math.Pow(1000, 0.8), value.Mean / Math.Exp(logVariance / 2), 1e-9);
    }

    [Fact]
    public void IndicatorRelation_WithoutCitationSpreadOrRange_IsRefused()
    {
        Assert.False((Relation with { Citation = " " }).TryDiffusion(1000, out _, out _));
        Assert.False((Relation with { LogStandardDeviation = 0 }).TryDiffusion(1000, out _, out _));
        Assert.False(Relation.TryDiffusion(200, out _, out var problem));
        Assert.Contains("300 to 6000", problem, StringComparison.Ordinal);
        Assert.False(Relation.TryDiffusion(double.NaN, out _, out _));
    }

    [Fact]
    public void ClassRelation_OnlyStatedClassesWithSpread_GiveD()
    {
        var relation = new ClassRelation
        {
            Citation = "Invented for this test",
            ReferenceAge = Age.FromDays(56),
            Diffusion = ImmutableDictionary<ChloridePenetrability, UncertainValue>
                .Empty.Add(ChloridePenetrability.Low, new(40, 0.6, SpreadShape.Lognormal))
                .Add(ChloridePenetrability.VeryLow, UncertainValue.Exactly(15)),
        };

        Assert.True(relation.TryDiffusion(ChloridePenetrability.Low, out var low, out _));
        Assert.Equal(40, low.Mean);
        Assert.False(relation.TryDiffusion(ChloridePenetrability.VeryLow, out _, out _));
        Assert.False(relation.TryDiffusion(ChloridePenetrability.High, out _, out _));
    }

    [Theory]
    [InlineData(4000.01, ChloridePenetrability.High)]
    [InlineData(4000, ChloridePenetrability.Moderate)]
    [InlineData(2000, ChloridePenetrability.Moderate)]
    [InlineData(1999.9, ChloridePenetrability.Low)]
    [InlineData(1000, ChloridePenetrability.Low)]
    [InlineData(100, ChloridePenetrability.VeryLow)]
    [InlineData(99.9, ChloridePenetrability.Negligible)]
    public void ChargePassed_AtTheLimits_CountsToTheMorePenetrable(
        double coulombs,
        ChloridePenetrability expected
    ) => Assert.Equal(expected, ChargePassed.Classify(coulombs));

    [Theory]
    [InlineData(11.9, ResistivityCylinder.FourByEightInch, false, ChloridePenetrability.High)]
    [InlineData(11.0, ResistivityCylinder.FourByEightInch, true, ChloridePenetrability.Moderate)]
    [InlineData(21.0, ResistivityCylinder.FourByEightInch, false, ChloridePenetrability.Moderate)]
    [InlineData(30.0, ResistivityCylinder.FourByEightInch, false, ChloridePenetrability.Low)]
    [InlineData(30.0, ResistivityCylinder.SixByTwelveInch, false, ChloridePenetrability.VeryLow)]
    [InlineData(
        300.0,
        ResistivityCylinder.FourByEightInch,
        false,
        ChloridePenetrability.Negligible
    )]
    public void SurfaceResistivity_CylinderAndCuring_DecideTheClass(
        double kiloohmCm,
        ResistivityCylinder cylinder,
        bool limeWater,
        ChloridePenetrability expected
    ) => Assert.Equal(expected, SurfaceResistivity.Classify(kiloohmCm, cylinder, limeWater));

    [Fact]
    public void MixCheck_LimitsOfTheAgency_NoneIsBuiltIn()
    {
        var none = new MixSpecification { Material = "latex-modified", Source = "invented" };
        Assert.All(
            MixCheck.Compare(none, 0.9, Depth.FromMillimetres(1)),
            f => Assert.Equal(MixOutcome.NoLimitStated, f.Outcome)
        );

        var stated = none with
        {
            GreatestWaterCementitiousRatio = 0.40,
            LeastThickness = Depth.FromInches(1.25),
        };
        Assert.Equal(
            [MixOutcome.WithinLimit, MixOutcome.WithinLimit, MixOutcome.NoLimitStated],
            MixCheck.Compare(stated, 0.40, Depth.FromMillimetres(31.75)).Select(f => f.Outcome)
        );
        Assert.Equal(
            [MixOutcome.BeyondLimit, MixOutcome.BeyondLimit, MixOutcome.NoLimitStated],
            MixCheck.Compare(stated, 0.41, Depth.FromMillimetres(31)).Select(f => f.Outcome)
        );
        Assert.Equal(MixOutcome.ValueNotStated, MixCheck.Compare(stated, null, null)[0].Outcome);
    }

    private static BulkDiffusionResult Specimen(double d) =>
        new()
        {
            Method = "invented immersion test",
            Coefficient = DiffusionCoefficient.FromSquareMillimetresPerYear(d),
            SurfaceContent = ChlorideContent.FromKilogramsPerCubicMetre(12),
            InitialContent = ChlorideContent.FromKilogramsPerCubicMetre(0.2),
            AgeAtStart = Age.FromDays(28),
            Immersion = Age.FromDays(35),
            SolutionTemperature = Temperature.FromCelsius(23),
            PointsFitted = 7,
        };
}
