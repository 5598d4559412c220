using DeckLife.Initiation;
using DeckLife.Quantities;
using DeckLife.Transport;
using Xunit;

namespace DeckLife.Tests.Initiation;

public class TimeToInitiationTests
{
    private static readonly Age Horizon = Age.FromYears(100);

    [Theory]
    // Cs 5, C0 0.1, D 30 mm²/yr: inverse of Crank 1975 eq. 2.45, 30 digits.
    [InlineData(38, 0.71, 10.198152027235)]
    [InlineData(50, 1.2, 28.240218733606)]
    [InlineData(63.5, 0.71, 28.477492044197)]
    [InlineData(70, 1.2, 55.350828717868)]
    public void UnderConstantSurface_WorkedValues_ToThirteenDigits(
        double cover,
        double threshold,
        double expected
    ) => Assert.Equal(expected, Years(Closed(5, 0.1, cover, threshold)), 1e-11 * expected);

    [Theory]
    [InlineData(38, 0.71)]
    [InlineData(50, 1.2)]
    public void InSection_AgainstTheClosedForm_WithinAThousandth(double cover, double threshold)
    {
        var closed = Years(Closed(5, 0.1, cover, threshold));
        var solved = Years(
            TimeToInitiation.InSection(Deck(500, 5, 0.1), Mm(cover), C(threshold), Horizon)
        );
        Assert.Equal(closed, solved, 1e-3 * closed);
    }

    [Fact]
    public void UnderConstantSurface_ThresholdEqualAboveAndBelow_AreValues()
    {
        Assert.IsType<NotWithin>(Closed(5, 0.1, 50, 5));
        Assert.Equal(new NotWithin(Horizon), Closed(5, 0.1, 50, 6));
        Assert.Equal(new AlreadyAt(default), Closed(5, 1.2, 50, 1.2));
        Assert.Equal(new AlreadyAt(default), Closed(5, 2, 50, 1.2));
        Assert.IsType<Reached>(Closed(5, 0.1, 50, 1.2));
        Assert.Equal(new NotWithin(Horizon), Closed(5, 0.1, 150, 1.2));
        // A bar at the surface itself has the surface's content at once.
        Assert.Equal(new AlreadyAt(default), Closed(5, 0.1, 0, 1.2));
        Assert.Equal(new AlreadyAt(default), Closed(1.2, 0.1, 0, 1.2));
    }

    [Fact]
    public void UnderConstantSurface_AgeingLaw_ContentAtThatTimeIsTheThreshold()
    {
        // m = 0.4 from 28 days on, first salt at birth: s = Dref tref^m t^(1 − m)/(1 − m).
        var law = new InstantaneousAgeing(
            DiffusionCoefficient.FromSquareMillimetresPerYear(300),
            0.4,
            Age.FromDays(28),
            null
        );
        // erfc 1/2 of the rise (Abramowitz and Stegun, table 7.1): reached where 2√s is twice the cover.
        var time = Years(
            TimeToInitiation.UnderConstantSurface(
                C(5),
                C(0.1),
                law,
                default,
                Mm(50),
                C(0.1 + (4.9 * 0.4795001221869535)),
                Horizon
            )
        );

        var s = 300 * Math.Pow(28 / 365.25, 0.4) * Math.Pow(time, 0.6) / 0.6;
        Assert.Equal(50 * 50, s, 1e-6 * s);
    }

    [Fact]
    public void InSection_SameThreeValues()
    {
        Assert.IsType<NotWithin>(
            TimeToInitiation.InSection(Deck(200, 5, 0.1), Mm(50), C(6), Horizon)
        );
        Assert.IsType<AlreadyAt>(
            TimeToInitiation.InSection(Deck(200, 5, 1.5), Mm(50), C(1.2), Horizon)
        );
        Assert.IsType<AlreadyAt>(
            TimeToInitiation.InSection(Deck(200, 5, 1.2), Mm(50), C(1.2), Horizon)
        );
        Assert.IsType<Reached>(
            TimeToInitiation.InSection(Deck(200, 5, 0.1), Mm(50), C(1.2), Horizon)
        );
    }

    [Fact]
    public void InSection_ContentPeaksUnderAnOverlay_TheRunningMaximumDecides()
    {
        // Residual salt reaches the bar after the removal, peaks and falls below the threshold again: initiated it stays.
        var section = Deck(600, 6, 0) with
        {
            Changes =
            [
                new SectionChange
                {
                    At = Age.FromYears(20),
                    Remove = Mm(10),
                    Place = Layer("overlay", 50, 10, 0),
                    Surface = new ConstantSurface(default),
                },
            ],
        };
        var history = SectionSolver.History(section, Mm(60), Horizon);
        var peak = history.Maximum;
        Assert.True(
            history.ContentAt(100) < 0.8 * peak && history.ContentAt(20) < 0.8 * peak,
            $"at 20: {history.ContentAt(20)}, at 100: {history.ContentAt(100)}, peak {peak}"
        );

        var time = Years(TimeToInitiation.FromHistory(history, C(0.9 * peak)));
        Assert.InRange(time, 20, 60);
        Assert.IsType<NotWithin>(TimeToInitiation.FromHistory(history, C(1.01 * peak)));
    }

    private static InitiationTime Closed(
        double surface,
        double background,
        double cover,
        double threshold
    ) =>
        TimeToInitiation.UnderConstantSurface(
            C(surface),
            C(background),
            new ConstantDiffusion(DiffusionCoefficient.FromSquareMillimetresPerYear(30)),
            default,
            Mm(cover),
            C(threshold),
            Horizon
        );

    private static double Years(InitiationTime time) => Assert.IsType<Reached>(time).Age.Years;

    private static Section Deck(double thickness, double surface, double background) =>
        new()
        {
            Layers = [Layer("deck", thickness, 30, background)],
            Surface = new ConstantSurface(C(surface)),
            Bottom = BottomFace.Sealed,
        };

    private static ConcreteLayer Layer(
        string name,
        double thickness,
        double coefficient,
        double initial
    ) =>
        new()
        {
            Name = name,
            Thickness = Mm(thickness),
            Diffusion = new ConstantDiffusion(
                DiffusionCoefficient.FromSquareMillimetresPerYear(coefficient)
            ),
            InitialChloride = C(initial),
        };

    private static Depth Mm(double value) => Depth.FromMillimetres(value);

    private static ChlorideContent C(double value) =>
        ChlorideContent.FromKilogramsPerCubicMetre(value);
}
