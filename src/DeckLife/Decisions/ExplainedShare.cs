using DeckLife.Numerics.LeastSquares;
using DeckLife.Numerics.Sampling;

namespace DeckLife.Decisions;

/// <summary>How much of an output's variance some inputs explain together, from the draws that are there.</summary>
/// <remarks>
/// A surface in the inputs' normal scores (powers up to the fifth and products of two, fewer where draws are few) is fitted to nine tenths of the draws and judged on the last tenth, for each
/// tenth: share = 1 − (squared error of prediction)/(variance). Draws of one index stay in one tenth, or a draw that the surveys favour
/// would predict itself. Unlike a share counted on the draws that were fitted, chance alone scores 0 or less. The idea of an index of
/// first order from given data: Plischke, Borgonovo and Smith, European Journal of Operational Research 226 (2013) (memory).
/// </remarks>
internal static class ExplainedShare
{
    private const int Folds = 10;

    private static readonly (int Power, bool Products)[] Surfaces =
    [
        (5, true),
        (3, true),
        (2, false),
        (1, false),
    ];

    /// <summary>The share, with the standard error that its tenths show.</summary>
    /// <param name="inputs">One column an input, one value a draw.</param>
    /// <param name="output">One value a draw.</param>
    /// <param name="indices">Index of each draw.</param>
    /// <returns>Share and error; (0, 0) where the output does not vary, or the draws are too few to tell.</returns>
    public static (double Share, double Error) Of(
        IReadOnlyList<IReadOnlyList<double>> inputs,
        IReadOnlyList<double> output,
        IReadOnlyList<int> indices
    )
    {
        var draws = output.Count;
        var mean = output.Average();
        var variance = output.Sum(y => (y - mean) * (y - mean)) / draws;
        var scores = inputs.Select(Scores).ToArray();
        // The richest surface that has four draws for each of its terms; draws that the surveys favour and so came often are one.
        var distinct = indices.Distinct().Count();
        var terms = Surfaces
            .Select(s => Terms(scores.Length, s.Power, s.Products))
            .FirstOrDefault(t => distinct >= 4 * t.Count);
        if (!(variance > 1e-18 * Math.Max(1, mean * mean)) || terms is null)
        {
            return (0, 0);
        }

        var byFold = new List<double>();
        for (var fold = 0; fold < Folds; fold++)
        {
            var held = Enumerable.Range(0, draws).Where(k => indices[k] % Folds == fold).ToArray();
            var kept = Enumerable.Range(0, draws).Where(k => indices[k] % Folds != fold).ToArray();
            if (held.Length < 2 || kept.Length <= terms.Count)
            {
                continue;
            }

            var centre = kept.Average(k => output[k]);
            var fit = Fit(scores, terms, kept, output, centre);
            var (missed, around) = (0.0, 0.0);
            foreach (var k in held)
            {
                var predicted = centre;
                for (var t = 0; t < terms.Count && fit is not null; t++)
                {
                    predicted += fit[t] * Term(scores, terms[t], k);
                }

                missed += (output[k] - predicted) * (output[k] - predicted);
                around += (output[k] - centre) * (output[k] - centre);
            }

            byFold.Add((around - missed) / held.Length / variance);
        }

        return byFold.Count < 2
            ? (0, 0)
            : (Math.Clamp(byFold.Average(), 0, 1), PairedMean.Of(byFold).Error);
    }

    private static double[] Scores(IReadOnlyList<double> values)
    {
        var order = Enumerable.Range(0, values.Count).OrderBy(k => values[k]).ToArray();
        var scores = new double[values.Count];
        for (var from = 0; from < order.Length; )
        {
            var to = from;
            while (to + 1 < order.Length && values[order[to + 1]] == values[order[from]])
            {
                to++;
            }

            var score = NormalQuantile.At(((0.5 * (from + to)) + 0.5) / order.Length);
            for (var i = from; i <= to; i++)
            {
                scores[order[i]] = score;
            }

            from = to + 1;
        }

        return scores;
    }

    // A power of one input, or a product of two; the power 0 stands for the constant.
    private static List<(int First, int Second, int Power)> Terms(
        int inputs,
        int powers,
        bool products
    )
    {
        var terms = new List<(int, int, int)> { (0, -1, 0) };
        for (var i = 0; i < inputs; i++)
        {
            for (var power = 1; power <= powers; power++)
            {
                terms.Add((i, -1, power));
            }

            for (var j = i + 1; products && j < inputs; j++)
            {
                terms.Add((i, j, 1));
            }
        }

        return terms;
    }

    private static double Term(double[][] scores, (int First, int Second, int Power) term, int draw)
    {
        var value = 1.0;
        for (var p = 0; p < term.Power; p++)
        {
            value *= scores[term.First][draw];
        }

        return term.Second < 0 ? value : value * scores[term.Second][draw];
    }

    private static double[]? Fit(
        double[][] scores,
        List<(int First, int Second, int Power)> terms,
        int[] kept,
        IReadOnlyList<double> output,
        double centre
    )
    {
        var columns = terms.Count;
        // A trace of ridge, so that inputs which say the same do not make the surface undetermined.
        var rows = kept.Length + columns;
        var matrix = new double[rows * columns];
        var right = new double[rows];
        for (var i = 0; i < kept.Length; i++)
        {
            right[i] = output[kept[i]] - centre;
            for (var t = 0; t < columns; t++)
            {
                matrix[(i * columns) + t] = Term(scores, terms[t], kept[i]);
            }
        }

        var ridge = 1e-4 * Math.Sqrt(kept.Length);
        for (var t = 0; t < columns; t++)
        {
            matrix[((kept.Length + t) * columns) + t] = ridge;
        }

        HouseholderQr.Triangularise(matrix, right, rows, columns);
        var solution = new double[columns];
        return HouseholderQr.Solve(matrix, right, columns, solution) ? solution : null;
    }
}
