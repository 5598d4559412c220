using DeckLife.Population;
using DeckLife.Rehabilitation;
using DeckLife.Tests.Projection;
using Xunit;

namespace DeckLife.Tests.Rehabilitation;

public class PlannedInterventionTests
{
    private static readonly PlannedIntervention Nothing = new() { AtYr = 0, DepthsMm = [0] };

    private static readonly OverlayMaterial Dense = ExampleDecks.Plain.Materials[0] with
    {
        ServiceLife = new(25, 0.2, SpreadShape.Lognormal),
    };

    [Theory]
    [InlineData(0, 10)]
    [InlineData(10, 10)]
    [InlineData(10.1, 20)]
    [InlineData(20, 20)]
    [InlineData(39, 40)]
    [InlineData(60, 40)] // deeper than any: the deepest
    [InlineData(double.PositiveInfinity, 40)]
    public void DepthFor_ClassesOfDepth_TheShallowestThatIsDeepEnough(
        double requiredMm,
        double expected
    )
    {
        var step = Nothing with { DepthsMm = [10, 20, 40] };

        Assert.Equal(expected, step.DepthFor(requiredMm));
        Assert.Equal(10, step.LeastDepthMm);
        // What is not stated: no material, and damage is repaired.
        Assert.Equal(-1, step.MaterialIndex);
        Assert.True(step.RepairsDamage);
    }

    [Fact]
    public void Covers_WhatGoesOn_OverlaysAndBarriersOnly()
    {
        Assert.False(Nothing.Covers);
        Assert.True((Nothing with { Material = Dense }).Covers);
        Assert.True((Nothing with { Protection = Thin(ProtectionKind.Barrier) }).Covers);
        Assert.False((Nothing with { Protection = Thin(ProtectionKind.Sealer) }).Covers);
    }

    [Fact]
    public void ChangesSection_AnythingOffOrOn_ButNotNothing()
    {
        Assert.False(Nothing.ChangesSection);
        Assert.True((Nothing with { DepthsMm = [0, 15] }).ChangesSection);
        Assert.True((Nothing with { Material = Dense }).ChangesSection);
        Assert.True((Nothing with { Protection = Thin(ProtectionKind.Sealer) }).ChangesSection);
    }

    [Fact]
    public void OwnLife_BarrierOverOverlay_IsTheBarriers()
    {
        Assert.Null(Nothing.OwnLife);
        Assert.Equal(25, (Nothing with { Material = Dense }).OwnLife!.Value.Mean);
        Assert.Equal(
            12,
            (Nothing with { Material = Dense, Protection = Thin(ProtectionKind.Barrier) })
                .OwnLife!
                .Value
                .Mean
        );
        // A sealer wears off and leaves the overlay as it is.
        Assert.Equal(
            25,
            (Nothing with { Material = Dense, Protection = Thin(ProtectionKind.Sealer) })
                .OwnLife!
                .Value
                .Mean
        );
        Assert.Null((Nothing with { Protection = Thin(ProtectionKind.Sealer) }).OwnLife);
    }

    private static SurfaceProtection Thin(ProtectionKind kind) =>
        new()
        {
            Name = "thin",
            Kind = kind,
            PassingFraction = 0.1,
            ServiceLife = UncertainValue.Exactly(12),
            Source = "invented",
        };
}
