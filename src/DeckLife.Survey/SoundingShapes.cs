using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;
using DeckLife.Surveys;
using NetTopologySuite.Geometries;
using NetTopologySuite.Index.Quadtree;
using NetTopologySuite.Operation.Overlay;
using NetTopologySuite.Operation.OverlayNG;
using NetTopologySuite.Operation.Union;

namespace DeckLife.Survey;

/// <summary>The geometry of sounding surveys: sizes of shapes, overlaps counted once.</summary>
public static class SoundingShapes
{
    private static readonly GeometryFactory Factory = new();

    /// <summary>Corners of a rectangle along the deck's axes, in order around it [m].</summary>
    /// <param name="x1">One end along the deck [m].</param>
    /// <param name="x2">The other end along the deck [m].</param>
    /// <param name="y1">One side across the deck [m].</param>
    /// <param name="y2">The other side across the deck [m].</param>
    public static ImmutableArray<(double X, double Y)> Rectangle(
        double x1,
        double x2,
        double y1,
        double y2
    )
    {
        var (left, right) = (Math.Min(x1, x2), Math.Max(x1, x2));
        var (low, high) = (Math.Min(y1, y2), Math.Max(y1, y2));
        return [(left, low), (right, low), (right, high), (left, high)];
    }

    /// <summary>Finds the size of a shape, or says why it is none.</summary>
    /// <param name="corners">Corners in order around it [m]; the first need not be repeated.</param>
    /// <param name="areaM2">The size [m²].</param>
    /// <param name="problem">What is wrong with the corners.</param>
    public static bool TryMeasure(
        ImmutableArray<(double X, double Y)> corners,
        out double areaM2,
        [NotNullWhen(false)] out string? problem
    )
    {
        areaM2 = 0;
        if (corners.IsDefault || corners.Distinct().Count() < 3)
        {
            problem = "has fewer than three corners";
            return false;
        }

        if (corners.Any(c => !double.IsFinite(c.X) || !double.IsFinite(c.Y)))
        {
            problem = "has corners that are not finite";
            return false;
        }

        var polygon = ToPolygon(corners);
        if (!polygon.IsValid)
        {
            problem = "has sides that cross or touch";
            return false;
        }

        areaM2 = polygon.Area;
        if (areaM2 <= 0)
        {
            problem = "has its corners on one line";
            return false;
        }

        problem = null;
        return true;
    }

    /// <summary>
    /// Reduces each area by what it shares with a worse one (spalled before delaminated before patched) or with an earlier one of
    /// the same finding, so that sizes add up to the ground they cover. Areas without corners keep their size.
    /// </summary>
    /// <param name="areas">The areas of a survey; shapes must have been measured.</param>
    /// <returns>The areas in the same order, how many were reduced, and by how much in all [m²].</returns>
    public static (ImmutableArray<SoundingArea> Areas, int Reduced, double SharedM2) CountOnce(
        ImmutableArray<SoundingArea> areas
    )
    {
        var result = areas.ToArray();
        var index = new Quadtree<Polygon>();
        var reduced = 0;
        var shared = 0.0;
        var order = Enumerable
            .Range(0, areas.Length)
            .Where(i => !areas[i].Corners.IsEmpty)
            .OrderBy(i => Rank(areas[i].Finding))
            .ThenBy(i => i);
        foreach (var i in order)
        {
            var polygon = ToPolygon(areas[i].Corners);
            var neighbours = index
                .Query(polygon.EnvelopeInternal)
                .Where(other => other.EnvelopeInternal.Intersects(polygon.EnvelopeInternal))
                .ToList<Geometry>();
            if (neighbours.Count > 0)
            {
                var earlier =
                    neighbours.Count == 1 ? neighbours[0] : UnaryUnionOp.Union(neighbours);
                var rest = OverlayNGRobust
                    .Overlay(polygon, earlier, SpatialFunction.Difference)
                    .Area;
                var lost = polygon.Area - rest;
                if (lost > 1e-9 * polygon.Area)
                {
                    reduced++;
                    shared += lost;
                    result[i] = areas[i] with { AreaM2 = Math.Max(0, rest) };
                }
            }

            index.Insert(polygon.EnvelopeInternal, polygon);
        }

        return (ImmutableArray.Create(result), reduced, shared);
    }

    private static int Rank(SoundingFinding finding) =>
        finding switch
        {
            SoundingFinding.Spalled => 0,
            SoundingFinding.Delaminated => 1,
            _ => 2,
        };

    private static Polygon ToPolygon(ImmutableArray<(double X, double Y)> corners)
    {
        var ring = corners.Select(c => new Coordinate(c.X, c.Y)).ToList();
        if (!ring[0].Equals2D(ring[^1]))
        {
            ring.Add(ring[0].Copy());
        }

        return Factory.CreatePolygon([.. ring]);
    }
}
