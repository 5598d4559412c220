using DeckLife.Numerics.LinearMixed;
using DeckLife.Population;
using DeckLife.Surveys;

namespace DeckLife.Mapping;

/// <summary>Covers over the cells of a plan, as standard scores, given the readings: kriging with the estimated field.</summary>
/// <param name="Mean">Mean score of each cell; its mean over the deck is taken away, which the deck's own cover already has.</param>
/// <param name="Covariance">Covariance of the smooth part, n × n.</param>
/// <param name="LocalShare">Share of the variance that varies within a cell.</param>
/// <remarks>Source: Cressie, Statistics for Spatial Data (1993), simple kriging (memory).</remarks>
internal sealed record CoverOnCells(double[] Mean, double[] Covariance, double LocalShare)
{
    /// <summary>Carries the readings to the cells; nothing where they show no correlation, so that they tell nothing of other places.</summary>
    public static CoverOnCells? Of(Deck deck, CoverSurvey cover, DeckGrid grid, int[] cells)
    {
        if (cover.Field is not { IsShown: true } field || cover.StandardDeviationMm <= 0)
        {
            return null;
        }

        var n = cells.Length;
        var prior = Smooth(grid, cells, field.Length, 1 - field.NuggetShare);
        // Readings of one cell as one, at its centre.
        var place = new Dictionary<int, int>();
        for (var i = 0; i < n; i++)
        {
            place[cells[i]] = i;
        }

        var read = deck
            .Covers.GroupBy(c => grid.CellAt(c.X!.Value, c.Y!.Value))
            .Where(g => place.ContainsKey(g.Key))
            .OrderBy(g => g.Key)
            .Select(g =>
                (
                    Cell: place[g.Key],
                    Score: (g.Average(c => c.Cover.Millimetres) - cover.MeanMm)
                        / cover.StandardDeviationMm,
                    Noise: field.NuggetShare / g.Count()
                )
            )
            .ToArray();
        var m = read.Length;
        var matrix = new double[m * m];
        for (var i = 0; i < m; i++)
        {
            for (var j = 0; j <= i; j++)
            {
                matrix[i * m + j] = prior[read[i].Cell * n + read[j].Cell];
            }

            matrix[i * m + i] += Math.Max(read[i].Noise, 1e-6);
        }

        if (!SymmetricMatrix.Factor(matrix, m))
        {
            return null;
        }

        double[] scores = [.. read.Select(r => r.Score)];
        SymmetricMatrix.SolveLower(matrix, m, scores);
        var cross = new double[m * n];
        for (var i = 0; i < m; i++)
        {
            Array.Copy(prior, read[i].Cell * n, cross, i * n, n);
        }

        SymmetricMatrix.SolveLower(matrix, m, cross, n);
        var mean = new double[n];
        for (var i = 0; i < m; i++)
        {
            for (var j = 0; j < n; j++)
            {
                mean[j] += cross[i * n + j] * scores[i];
            }
        }

        for (var i = 0; i < m; i++)
        {
            for (var a = 0; a < n; a++)
            {
                var times = cross[i * n + a];
                for (var b = 0; b < n; b++)
                {
                    prior[a * n + b] -= times * cross[i * n + b];
                }
            }
        }

        var middle = mean.Average();
        return new([.. mean.Select(v => v - middle)], prior, field.NuggetShare);
    }

    /// <summary>Covariance of a field with exponential correlation between cells.</summary>
    internal static double[] Smooth(DeckGrid grid, int[] cells, double length, double variance)
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
                    variance * Math.Exp(-Math.Sqrt(dx * dx + dy * dy) / length);
            }
        }

        return matrix;
    }
}
