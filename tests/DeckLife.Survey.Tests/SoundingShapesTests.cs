using System.Collections.Immutable;
using DeckLife.Surveys;
using FsCheck;
using FsCheck.Fluent;
using FsCheck.Xunit;
using Xunit;

namespace DeckLife.Survey.Tests;

public class SoundingShapesTests
{
    private static SoundingArea Area(
        SoundingFinding finding,
        double x1,
        double x2,
        double y1,
        double y2
    ) =>
        new()
        {
            Row = 1,
            Finding = finding,
            AreaM2 = Math.Abs((x2 - x1) * (y2 - y1)),
            Corners = SoundingShapes.Rectangle(x1, x2, y1, y2),
        };

    [Fact]
    public void CountOnce_SharedGround_GoesToTheWorseFinding()
    {
        var (areas, reduced, shared) = SoundingShapes.CountOnce([
            Area(SoundingFinding.Patched, 0, 10, 0, 10),
            Area(SoundingFinding.Delaminated, 5, 15, 0, 10),
            Area(SoundingFinding.Spalled, 9, 11, 4, 6),
            new SoundingArea
            {
                Row = 4,
                Finding = SoundingFinding.Delaminated,
                AreaM2 = 3,
            },
        ]);

        // 10 x 10 less the shared 5 x 10; 10 x 10 less the spall; the spall whole; a size without corners as it is.
        Assert.Equal([50, 96, 4, 3], areas.Select(a => Math.Round(a.AreaM2, 9)));
        Assert.Equal((2, 54.0), (reduced, Math.Round(shared, 9)));
    }

    [Fact]
    public void CountOnce_OneAreaTwice_CountsOnce()
    {
        var (areas, reduced, _) = SoundingShapes.CountOnce([
            Area(SoundingFinding.Delaminated, 0, 4, 0, 2),
            Area(SoundingFinding.Delaminated, 0, 4, 0, 2),
        ]);

        Assert.Equal([8.0, 0], areas.Select(a => a.AreaM2));
        Assert.Equal(1, reduced);
    }

    [Fact]
    public void CountOnce_AreasThatTouch_ShareNothing()
    {
        var (_, reduced, shared) = SoundingShapes.CountOnce([
            Area(SoundingFinding.Delaminated, 0, 4, 0, 2),
            Area(SoundingFinding.Delaminated, 4, 8, 0, 2),
        ]);

        Assert.Equal((0, 0.0), (reduced, shared));
    }

    [Property(MaxTest = 60, EndSize = 25)]
    public Property CountOnce_RectanglesOnAGrid_SumIsTheNumberOfCoveredCells()
    {
        var rectangle =
            from x in Gen.Choose(0, 15)
            from w in Gen.Choose(1, 8)
            from y in Gen.Choose(0, 7)
            from h in Gen.Choose(1, 5)
            from f in Gen.Elements(
                SoundingFinding.Delaminated,
                SoundingFinding.Spalled,
                SoundingFinding.Patched
            )
            select (x, w, y, h, f);
        return Prop.ForAll(
            Gen.ListOf(rectangle).ToArbitrary(),
            list =>
            {
                // Cells of one square metre, counted one by one, the worst finding first.
                var cells = new Dictionary<(int, int), SoundingFinding>();
                foreach (var (x, w, y, h, f) in list)
                {
                    for (var i = x; i < x + w; i++)
                    {
                        for (var j = y; j < y + h; j++)
                        {
                            cells[(i, j)] =
                                cells.TryGetValue((i, j), out var old) && Worse(old, f) ? old : f;
                        }
                    }
                }

                var (areas, _, _) = SoundingShapes.CountOnce([
                    .. list.Select(r => Area(r.f, r.x, r.x + r.w, r.y, r.y + r.h)),
                ]);
                foreach (var finding in Enum.GetValues<SoundingFinding>())
                {
                    Assert.Equal(
                        cells.Values.Count(f => f == finding),
                        areas.Where(a => a.Finding == finding).Sum(a => a.AreaM2),
                        1e-6
                    );
                }
            }
        );
    }

    [Fact]
    public void TryMeasure_RingInAnyOrderOfTurning_SameSize()
    {
        ImmutableArray<(double, double)> ring = [(0, 0), (3, 0), (3, 4), (0, 4)];

        Assert.True(SoundingShapes.TryMeasure(ring, out var one, out _));
        Assert.True(SoundingShapes.TryMeasure([.. ring.Reverse()], out var other, out _));
        Assert.True(SoundingShapes.TryMeasure([.. ring, ring[0]], out var closed, out _));
        Assert.Equal((12.0, 12.0, 12.0), (one, other, closed));
    }

    [Fact]
    public void TryMeasure_NotFiniteOrTooFew_SaysWhy()
    {
        Assert.False(
            SoundingShapes.TryMeasure([(0, 0), (1, 0), (double.NaN, 1)], out _, out var problem)
        );
        Assert.Contains("finite", problem, StringComparison.Ordinal);
        Assert.False(SoundingShapes.TryMeasure([], out _, out problem));
        Assert.Contains("three", problem, StringComparison.Ordinal);
    }

    private static bool Worse(SoundingFinding a, SoundingFinding b) => Rank(a) <= Rank(b);

    private static int Rank(SoundingFinding f) =>
        f == SoundingFinding.Spalled ? 0
        : f == SoundingFinding.Delaminated ? 1
        : 2;
}
