using DeckLife.Projection;
using FsCheck;
using FsCheck.Fluent;
using FsCheck.Xunit;
using Xunit;

namespace DeckLife.Tests.Projection;

/// <summary>
/// Three orders that look obvious and are false. Reference numbers: reference-checks/peers/overlay-orders (NumPy and SciPy,
/// finite volumes with Richardson extrapolation). Tolerance: 3e-3 of the surface content, three times what the solver promises at the bar.
/// </summary>
public class OverlayOrderTests
{
    private const double Tolerance = 0.024;

    public static TheoryData<string> Solvers => ["scalar", "batched"];

    [Theory]
    [MemberData(nameof(Solvers))]
    public void Solve_PermeableOverlay_DeeperRemovalBringsTheBarNearerTheSalt(string solver)
    {
        var contents = new[] { 7.0, 30, 45 }.Select(removed =>
            Histories(solver, 38, 30, removed, 60, 8, 50)[^1]
        );

        Assert.Collection(
            contents,
            c => Assert.Equal(1.690677, c, Tolerance),
            c => Assert.Equal(2.019914, c, Tolerance),
            c => Assert.Equal(2.880929, c, Tolerance)
        );
    }

    [Theory]
    [MemberData(nameof(Solvers))]
    public void Solve_DenserOverlay_HoldsResidualSaltIn(string solver)
    {
        var peaks = new[] { 30, 3, 0.5 }.Select(d => Histories(solver, 38, d, 7, 60, 1, 60).Max());

        Assert.Collection(
            peaks,
            c => Assert.Equal(1.333068, c, Tolerance),
            c => Assert.Equal(1.465171, c, Tolerance),
            c => Assert.Equal(1.574424, c, Tolerance)
        );
    }

    [Theory]
    [MemberData(nameof(Solvers))]
    public void Solve_RemovalToUnderTheBar_IsNotANewDeck(string solver)
    {
        var fed = Histories(solver, 38 + 65, 20, 65, 30, 0, 60, deckDiffusion: 40, exposure: 40)
            .Max();
        var clean = Histories(solver, 38 + 65, 20, 65, 30, 0, 60, 0, 40, 40).Max();

        Assert.Equal(FedFromBelow, fed, Tolerance);
        Assert.True(fed > 0.5 * FedFromBelow);
        Assert.Equal(0, clean, 1e-9);
    }

    // Deeper removal at the same finished grade, the surface never below what lies inside: with a layer as permeable as the deck the
    // comparison principle makes it a theorem; the bar stays in old concrete.
    [Property(MaxTest = 30)]
    public Property Solve_EqualGradeAndDiffusion_DeeperRemovalNeverRaisesTheContent() =>
        Prop.ForAll(Deeper(Gen.Constant(100)).ToArbitrary(), AssertNotRaised);

    [Property(MaxTest = 60)]
    public Property Solve_EqualGradeAndDenserLayer_DeeperRemovalNeverRaisesTheContent() =>
        Prop.ForAll(Deeper(Gen.Choose(2, 100)).ToArbitrary(), AssertNotRaised);

    private static Gen<(
        double Less,
        double More,
        double Grade,
        double Bar,
        double Deck,
        double Layer,
        double Exposure
    )> Deeper(Gen<int> percent) =>
        from less in Gen.Choose(2, 20)
        from further in Gen.Choose(5, 25)
        from rest in Gen.Choose(5, 30)
        from grade in Gen.Choose(5, 50)
        from deck in Gen.Choose(5, 60)
        from share in percent
        from exposure in Gen.Choose(5, 50)
        select (
            (double)less,
            (double)less + further,
            (double)grade,
            (double)less + further + rest,
            (double)deck,
            deck * share / 100.0,
            (double)exposure
        );

    private static void AssertNotRaised(
        (
            double Less,
            double More,
            double Grade,
            double Bar,
            double Deck,
            double Layer,
            double Exposure
        ) c
    )
    {
        double[] At(double removed) =>
            Histories(
                "batched",
                c.Grade + removed,
                c.Layer,
                removed,
                c.Bar,
                8,
                60,
                8,
                c.Deck,
                c.Exposure
            );
        foreach (var (shallow, deep) in At(c.Less).Zip(At(c.More)))
        {
            Assert.True(deep <= shallow + 2 * Tolerance, $"{c}: {deep} over {shallow}");
        }
    }

    private const double FedFromBelow = 0.218064;

    internal static double[] Histories(
        string solver,
        double layer,
        double layerDiffusion,
        double removed,
        double bar,
        double surface,
        double years,
        double oldSurface = 8,
        double deckDiffusion = 20,
        double exposure = 35
    )
    {
        var times = BarHistories.Times(years, 24);
        var batch = new SectionBatch(1)
        {
            TimesYr = times,
            LayerYears = times,
            OldYears = times,
        };
        batch.LayerThicknessMm[0] = layer;
        batch.OldThicknessMm[0] = 200 - removed;
        batch.BarDepthMm[0] = layer + bar - removed;
        batch.RemovedMm[0] = removed;
        batch.ProfileSpreadMm[0] = 2 * Math.Sqrt(deckDiffusion * exposure);
        batch.OldSurfaceChloride[0] = oldSurface;
        batch.SurfaceChloride[0] = surface;
        batch.LayerDiffusion[0] = layerDiffusion;
        batch.OldDiffusion[0] = deckDiffusion;
        var contents = new double[times.Length];
        Made[solver].Solve(batch, contents);
        return contents;
    }

    private static readonly Dictionary<string, ISectionSolver> Made = new()
    {
        ["scalar"] = new ScalarSectionSolver(),
        ["batched"] = new BatchedSectionSolver(),
    };
}
