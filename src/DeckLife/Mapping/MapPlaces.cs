using System.Collections.Immutable;
using DeckLife.Numerics.LinearMixed;
using DeckLife.Surveys;

namespace DeckLife.Mapping;

/// <summary>The cells of a map, and how alike their places are: near each other, and within a zone.</summary>
/// <remarks>
/// Correlation of two places: ζ [same zone] + (1 − ζ) exp(−d/ℓ). Zones are those that the deck states; what lies in none is one of its own.
/// </remarks>
internal sealed class MapPlaces
{
    private readonly DeckGrid grid;
    private readonly int[] cells;
    private readonly Dictionary<int, int> placeOf = [];
    private readonly ImmutableArray<DeckZone> zones;
    private readonly int[] zoneOf;

    /// <summary>Takes the cells of a deck.</summary>
    /// <param name="grid">The grid.</param>
    /// <param name="cells">Its cells that lie on the deck.</param>
    /// <param name="zones">The zones that the deck states.</param>
    public MapPlaces(DeckGrid grid, int[] cells, ImmutableArray<DeckZone> zones)
    {
        this.grid = grid;
        this.cells = cells;
        this.zones = zones;
        for (var i = 0; i < cells.Length; i++)
        {
            placeOf[cells[i]] = i;
        }

        zoneOf = [.. cells.Select(c => ZoneAt(grid.X(c), grid.Y(c)))];
        HasZones = zoneOf.Distinct().Count() > 1;
    }

    /// <summary>Number of cells.</summary>
    public int Count => cells.Length;

    /// <summary>Whether the cells lie in more than one zone.</summary>
    public bool HasZones { get; }

    /// <summary>Index of the cell that a place falls in; nothing where it is not on the deck.</summary>
    public int? At(double x, double y) =>
        placeOf.TryGetValue(grid.CellAt(x, y), out var place) ? place : null;

    /// <summary>The zone that a place lies in, as its index; −1: in none.</summary>
    public int ZoneAt(double x, double y)
    {
        for (var z = 0; z < zones.Length; z++)
        {
            if (zones[z].Holds(x, y))
            {
                return z;
            }
        }

        return -1;
    }

    /// <summary>Correlation between cells, n × n.</summary>
    /// <param name="lengthM">ℓ [m].</param>
    /// <param name="zoneShare">ζ, 0 to 1.</param>
    public double[] Correlation(double lengthM, double zoneShare = 0)
    {
        var n = cells.Length;
        var matrix = new double[n * n];
        for (var i = 0; i < n; i++)
        {
            for (var j = 0; j <= i; j++)
            {
                var (dx, dy) = (
                    grid.X(cells[i]) - grid.X(cells[j]),
                    grid.Y(cells[i]) - grid.Y(cells[j])
                );
                matrix[i * n + j] = matrix[j * n + i] =
                    (1 - zoneShare) * Math.Exp(-Math.Sqrt(dx * dx + dy * dy) / lengthM)
                    + (zoneOf[i] == zoneOf[j] ? zoneShare : 0);
            }
        }

        return matrix;
    }

    /// <summary>
    /// Takes readings into a normal field over the cells, exactly: a reading at cell j is a signal of variance v, correlated over the cells like the
    /// field, plus an error of its own.
    /// </summary>
    /// <param name="mean">Mean of the field [n]; changed in place.</param>
    /// <param name="covariance">Covariance of the field [n × n]; changed in place; absent: only the evidence is wanted.</param>
    /// <param name="correlation">Correlation between cells [n × n].</param>
    /// <param name="cross">Covariance of field and signal at one cell.</param>
    /// <param name="signal">v.</param>
    /// <param name="readings">Cell, value and variance of the error of each reading.</param>
    /// <returns>Logarithm of the density of the readings; nothing where they contradict each other beyond rounding.</returns>
    public static double? Condition(
        double[] mean,
        double[]? covariance,
        double[] correlation,
        double cross,
        double signal,
        IReadOnlyList<PlaceReading> readings
    )
    {
        var (m, n) = (readings.Count, mean.Length);
        var matrix = new double[m * m];
        for (var i = 0; i < m; i++)
        {
            for (var j = 0; j <= i; j++)
            {
                matrix[i * m + j] = signal * correlation[readings[i].Cell * n + readings[j].Cell];
            }

            matrix[i * m + i] += Math.Max(readings[i].ErrorVariance, 1e-6);
        }

        if (!SymmetricMatrix.Factor(matrix, m))
        {
            return null;
        }

        double[] scores = [.. readings.Select(r => r.Value)];
        SymmetricMatrix.SolveLower(matrix, m, scores);
        var log =
            -0.5
            * (
                scores.Sum(s => s * s)
                + SymmetricMatrix.LogDeterminant(matrix, m)
                + m * Math.Log(2 * Math.PI)
            );
        if (covariance is null)
        {
            return log;
        }

        var rows = new double[m * n];
        for (var i = 0; i < m; i++)
        {
            for (var j = 0; j < n; j++)
            {
                rows[i * n + j] = cross * correlation[readings[i].Cell * n + j];
            }
        }

        SymmetricMatrix.SolveLower(matrix, m, rows, n);
        for (var i = 0; i < m; i++)
        {
            for (var a = 0; a < n; a++)
            {
                var times = rows[i * n + a];
                mean[a] += times * scores[i];
                for (var b = 0; b < n; b++)
                {
                    covariance[a * n + b] -= times * rows[i * n + b];
                }
            }
        }

        return log;
    }
}
