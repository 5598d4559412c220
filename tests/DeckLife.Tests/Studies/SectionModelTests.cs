using DeckLife.Numerics.Distributions;
using DeckLife.Numerics.SpecialFunctions;
using DeckLife.Studies;
using Xunit;

namespace DeckLife.Tests.Studies;

public class SectionModelTests
{
    private static StudyDefinition Fixed(
        SectionSettings section,
        StudyOutput[] outputs,
        params (StudyVariable Variable, double Value)[] values
    ) =>
        new()
        {
            Name = "test",
            Seed = 1,
            Section = section,
            // One drawn input of no width to speak of: a study must draw something.
            Inputs =
            [
                new(StudyVariable.Cover, 0, new UniformDistribution(50, 50.000001)),
                .. values.Select(v => new StudyInput(v.Variable, v.Value, null)),
            ],
            Outputs = [.. outputs],
            Methods = [new SwingMethod(0.1, 0.9)],
        };

    private static double[] At(StudyDefinition study)
    {
        var outputs = study.Outputs.Select(_ => new double[1]).ToArray();
        new SectionModel(study).Evaluate(
            1,
            [
                [50.0],
            ],
            outputs
        );
        return [.. outputs.Select(o => o[0])];
    }

    [Fact]
    public void Content_ConstantCoefficient_IsTheErfcSolution()
    {
        var found = At(
            Fixed(
                new(),
                [new(StudyOutputKind.ContentAtBar, 30)],
                (StudyVariable.SurfaceChloride, 8),
                (StudyVariable.DiffusionCoefficient, 25),
                (StudyVariable.InitialChloride, 0.2)
            )
        );
        Assert.Equal(0.2 + (7.8 * ErrorFunction.Erfc(50 / (2 * Math.Sqrt(750)))), found[0], 1e-12);
    }

    // Deterministic fib Bulletin 34 values recomputed independently: D 10e-12 m2/s, cover 50, dx 8.9, Cs 4, b 4800, 283 K.
    [Theory]
    [InlineData(0.30, 283, 10, 0.6055045898)]
    [InlineData(0.30, 283, 50, 1.656161876)]
    [InlineData(0.30, 283, 100, 2.086476942)]
    [InlineData(0.60, 283, 50, 0.1234139536)]
    [InlineData(0.45, 293, 10, 0.4867469193)]
    [InlineData(0.45, 293, 100, 1.645065616)]
    public void Content_FibForm_MatchesIndependentValues(
        double exponent,
        double kelvin,
        double age,
        double expected
    )
    {
        var found = At(
            Fixed(
                new()
                {
                    Ageing = SectionAgeing.Apparent,
                    ReferenceAgeYr = 0.0767,
                    ReferenceTemperatureC = 293 - 273.15,
                },
                [new(StudyOutputKind.ContentAtBar, age)],
                (StudyVariable.SurfaceChloride, 4),
                (StudyVariable.DiffusionCoefficient, 10e-12 * 1e6 * 31_557_600),
                (StudyVariable.ConvectionDepth, 8.9),
                (StudyVariable.AgeingExponent, exponent),
                (StudyVariable.Temperature, kelvin - 273.15),
                (StudyVariable.ActivationTemperature, 4800)
            )
        );
        Assert.Equal(1, found[0] / expected, 2e-9);
    }

    // At the time to initiation the content is the threshold, for every ageing law.
    [Theory]
    [InlineData(SectionAgeing.None)]
    [InlineData(SectionAgeing.Instantaneous)]
    [InlineData(SectionAgeing.Apparent)]
    public void Time_ContentThere_IsTheThreshold(SectionAgeing ageing)
    {
        (StudyVariable, double)[] values =
        [
            (StudyVariable.SurfaceChloride, 9),
            (StudyVariable.DiffusionCoefficient, ageing == SectionAgeing.None ? 25 : 300),
            (StudyVariable.AgeingExponent, 0.4),
            (StudyVariable.InitialChloride, 0.1),
            (StudyVariable.ChlorideThreshold, 1.2),
        ];
        var section = new SectionSettings { Ageing = ageing };
        var time = At(Fixed(section, [new(StudyOutputKind.TimeToInitiation, 500)], values))[0];
        Assert.InRange(time, 1, 400);
        var there = At(Fixed(section, [new(StudyOutputKind.ContentAtBar, time)], values))[0];
        Assert.Equal(1.2, there, 1e-10);
        Assert.Equal(
            [0.0, 1.0],
            At(
                Fixed(
                    section,
                    [
                        new(StudyOutputKind.InitiatedBy, time * 0.999),
                        new(StudyOutputKind.InitiatedBy, time * 1.001),
                    ],
                    values
                )
            )
        );
    }

    [Fact]
    public void Time_ThresholdNeverReachedOrThereFromTheStart_SaysSo()
    {
        double Time(double surface, double initial) =>
            At(
                Fixed(
                    new(),
                    [new(StudyOutputKind.TimeToInitiation, 100)],
                    (StudyVariable.SurfaceChloride, surface),
                    (StudyVariable.DiffusionCoefficient, 25),
                    (StudyVariable.InitialChloride, initial),
                    (StudyVariable.ChlorideThreshold, 1.2)
                )
            )[0];
        Assert.Equal(double.PositiveInfinity, Time(1.1, 0));
        Assert.Equal(0, Time(5, 1.3));
    }

    // An overlay of the same concrete with the same salt, nothing taken off, is a deeper bar with a fresh start:
    // before the placing nothing differs, after it the content first lags behind the bare section.
    [Fact]
    public void Overlay_BeforeItsAge_IsTheBareSection_AndAfterItLags()
    {
        (StudyVariable, double)[] values =
        [
            (StudyVariable.SurfaceChloride, 8),
            (StudyVariable.DiffusionCoefficient, 25),
            (StudyVariable.InitialChloride, 0.1),
            (StudyVariable.ChlorideThreshold, 3),
            (StudyVariable.RemovalDepth, 10),
            (StudyVariable.OverlayThickness, 40),
            (StudyVariable.OverlayDiffusionCoefficient, 10),
        ];
        StudyOutput[] outputs =
        [
            new(StudyOutputKind.ContentAtBar, 20),
            new(StudyOutputKind.ContentAtBar, 60),
            new(StudyOutputKind.TimeToInitiation, 120),
        ];
        var bare = At(Fixed(new(), outputs, values));
        var overlaid = At(Fixed(new() { OverlayAgeYr = 20 }, outputs, values));
        Assert.Equal(bare[0], overlaid[0], 1e-12);
        Assert.True(overlaid[1] < bare[1]);
        Assert.True(overlaid[2] > bare[2]);
    }

    // Same D everywhere, no removal, a very thin overlay: the bare section to a small error.
    [Fact]
    public void Overlay_ThinAndAlike_IsNearlyTheBareSection()
    {
        (StudyVariable, double)[] values =
        [
            (StudyVariable.SurfaceChloride, 8),
            (StudyVariable.DiffusionCoefficient, 25),
            (StudyVariable.ChlorideThreshold, 2.5),
            (StudyVariable.RemovalDepth, 1),
            (StudyVariable.OverlayThickness, 1),
            (StudyVariable.OverlayDiffusionCoefficient, 25),
        ];
        StudyOutput[] outputs =
        [
            new(StudyOutputKind.ContentAtBar, 60),
            new(StudyOutputKind.TimeToInitiation, 120),
        ];
        var bare = At(Fixed(new(), outputs, values));
        var overlaid = At(
            Fixed(new() { OverlayAgeYr = 10, SlabThicknessMm = 400 }, outputs, values)
        );
        Assert.Equal(bare[0], overlaid[0], 0.02);
        Assert.Equal(bare[1], overlaid[1], 0.5);
    }

    // A bar that has started stays started, though the overlay lowers the content at the bar.
    [Fact]
    public void Overlay_AfterInitiation_BarStaysInitiated()
    {
        (StudyVariable, double)[] values =
        [
            (StudyVariable.SurfaceChloride, 8),
            (StudyVariable.DiffusionCoefficient, 60),
            (StudyVariable.ChlorideThreshold, 1.5),
            (StudyVariable.RemovalDepth, 30),
            (StudyVariable.OverlayThickness, 60),
            (StudyVariable.OverlayDiffusionCoefficient, 3),
        ];
        StudyOutput[] outputs =
        [
            new(StudyOutputKind.InitiatedBy, 40),
            new(StudyOutputKind.TimeToInitiation, 40),
        ];
        var found = At(Fixed(new() { OverlayAgeYr = 30 }, outputs, values));
        Assert.Equal(1, found[0]);
        Assert.InRange(found[1], 5, 30);
    }
}
